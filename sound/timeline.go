package sound

import (
	"math"
	"slices"

	"heddle/exercise"
)

// A Timeline says at which sample everything happens. In a seamless loop a
// note that begins before the loop's head is near its end, and one that
// rings across the seam has an End past Samples.
type Timeline struct {
	SampleRate int         `json:"sample_rate"`
	Samples    int64       `json:"samples"` // length of the sound
	Seamless   bool        `json:"seamless"`
	CountInEnd int64       `json:"count_in_end"` // the first bar line of the line
	LoopStart  int64       `json:"loop_start"`
	LoopEnd    int64       `json:"loop_end"`
	Tempi      []TempoMark `json:"tempi"`
	Passes     []PassMark  `json:"passes"`
	Bars       []BarMark   `json:"bars"`
	Beats      []BeatMark  `json:"beats"`
	Clicks     []int64     `json:"clicks"`
	Notes      []NoteMark  `json:"notes"`
	Names      []NameMark  `json:"names"` // spoken ones
}

// A TempoMark is a tempo in quarter notes a minute and where it begins.
type TempoMark struct {
	Sample int64   `json:"sample"`
	Tempo  float64 `json:"tempo"`
}

// A PassMark is one time through the form. Kind is line, response (the same
// bars without the line) or silent (click alone).
type PassMark struct {
	Loop  int    `json:"loop"`
	Kind  string `json:"kind"`
	Start int64  `json:"start"`
	End   int64  `json:"end"`
}

// A BarMark is a bar line. Bars count from 1 in each pass; pass −1 is the
// count-in.
type BarMark struct {
	Sample int64 `json:"sample"`
	Pass   int   `json:"pass"`
	Bar    int   `json:"bar"`
}

// A BeatMark is a beat that is felt; beats count from 1 in each bar.
type BeatMark struct {
	Sample int64 `json:"sample"`
	Pass   int   `json:"pass"`
	Bar    int   `json:"bar"`
	Beat   int   `json:"beat"`
}

// A NoteMark is one sounding of a note of the exercise: its string is set
// going at Start and damped at End.
type NoteMark struct {
	Index int   `json:"index"`
	Pass  int   `json:"pass"`
	Start int64 `json:"start"`
	End   int64 `json:"end"`
}

// A NameMark is one name spoken, from the first sample of speech to the last.
type NameMark struct {
	Index int    `json:"index"`
	Pass  int    `json:"pass"`
	Start int64  `json:"start"`
	End   int64  `json:"end"`
	Text  string `json:"text"`
}

// Plan returns where everything will be, without making any sound.
func Plan(ex *exercise.Exercise, o Options) (Timeline, error) {
	b, err := newBand(ex, o)
	if err != nil {
		return Timeline{}, err
	}
	return b.timeline(), nil
}

// timeline lists what the band plays.
func (b *band) timeline() Timeline {
	f := b.form
	first, last := f.passes[0], f.passes[len(f.passes)-1]
	t := Timeline{
		SampleRate: f.rate, Samples: f.total, Seamless: f.seamless,
		CountInEnd: round(first.start), LoopStart: round(first.start), LoopEnd: round(last.end),
	}
	t.Tempi = append(t.Tempi, TempoMark{0, first.tempo})
	for bar := range f.countIn {
		b.markBar(&t, first, -1, bar-f.countIn, bar+1)
	}
	for _, p := range f.passes {
		if p.tempo != t.Tempi[len(t.Tempi)-1].Tempo {
			t.Tempi = append(t.Tempi, TempoMark{round(p.start), p.tempo})
		}
		t.Passes = append(t.Passes, PassMark{p.loop, string(p.kind), round(p.start), round(p.end)})
		for bar := range f.bars {
			b.markBar(&t, p, p.number, bar, bar+1)
		}
		for _, n := range b.lineNotes(p) {
			start, end := f.wrap(n.At, n.Off)
			t.Notes = append(t.Notes, NoteMark{n.Index, p.number, start, end})
		}
		for _, n := range b.spoken(p) {
			start, end := f.wrap(n.at, n.at+int64(len(b.voice.words[n.word].samples)))
			t.Names = append(t.Names, NameMark{n.index, p.number, start, end, b.voice.words[n.word].text})
		}
	}
	slices.SortStableFunc(t.Notes, func(x, y NoteMark) int { return int(x.Start - y.Start) })
	slices.SortStableFunc(t.Names, func(x, y NameMark) int { return int(x.Start - y.Start) })
	for _, c := range b.clicks() {
		t.Clicks = append(t.Clicks, c.At)
	}
	return t
}

// markBar adds a bar line and its beats; shown is the bar's number for
// readers, bar its place against the pass.
func (b *band) markBar(t *Timeline, p pass, number, bar, shown int) {
	for beat := range b.form.beats {
		at := round(b.form.plain(p, b.form.beatAt(bar, beat)))
		if beat == 0 {
			t.Bars = append(t.Bars, BarMark{at, number, shown})
		}
		t.Beats = append(t.Beats, BeatMark{at, number, shown, beat + 1})
	}
}

// wrap brings what begins outside a seamless loop inside.
func (f *form) wrap(start, end int64) (int64, int64) {
	for f.seamless && start < 0 {
		start, end = start+f.total, end+f.total
	}
	for f.seamless && start >= f.total {
		start, end = start-f.total, end-f.total
	}
	return start, end
}

// hair is far less than a sample and far more than the rounding of floats.
const hair = 1e-6

// round returns the sample nearest to a time in samples. Halves, and what lies
// a hair below them, go up, before the start as after it, so that a loop is
// the same wherever it starts.
func round(at float64) int64 { return int64(math.Floor(at + 0.5 + hair)) }
