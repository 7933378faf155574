package bench_test

import (
	"bytes"
	"encoding/binary"
	"testing"

	"heddle/audio"
	"heddle/audio/audiotest"
	"heddle/exercise"
	"heddle/sound"
)

// takeSpec is a short line at a walking pace: four bars of eighths.
const takeSpec = "home=G+minor+pentatonic&superimpose=semitone+up&groups=3%2C3&fret=10&tempo=96&bars=3"

// liveSpec is what is played in real time: two bars, four seconds.
const liveSpec = "home=G+minor+pentatonic&superimpose=semitone+up&groups=3%2C3&fret=10&tempo=120&bars=2"

// A played is a take made from an exercise on the program's own strings.
type played struct {
	exercise *exercise.Exercise
	rate     int
	samples  []float32 // one channel
	onsetsS  []float64 // of each note, in the take
	leadS    float64   // the exercise's first bar line
}

// playTake plays a spec after leadS of silence. change may put notes wrong.
func playTake(t testing.TB, spec string, leadS float64, change func(notes []exercise.Note)) played {
	t.Helper()
	s, err := exercise.ParseQuery(spec)
	if err != nil {
		t.Fatal(err)
	}
	ex, err := exercise.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	sounding := *ex
	sounding.Notes = append([]exercise.Note(nil), ex.Notes...)
	if change != nil {
		change(sounding.Notes)
	}
	var b audiotest.Buffer
	timeline, err := sound.RenderPart(t.Context(), &sounding, sound.Options{}, sound.Line, &b)
	if err != nil {
		t.Fatal(err)
	}
	p := played{exercise: ex, rate: b.SampleRate, leadS: leadS, onsetsS: make([]float64, len(ex.Notes))}
	p.samples = make([]float32, int(leadS*float64(p.rate)), int(leadS*float64(p.rate))+len(b.Samples)/2)
	left, right := b.Left(), b.Right()
	for i := range left {
		p.samples = append(p.samples, (left[i]+right[i])/2)
	}
	for _, n := range timeline.Notes {
		p.onsetsS[n.Index] = leadS + float64(n.Start)/float64(p.rate)
	}
	return p
}

// wav writes the take as a WAV file of 16 bits.
func (p played) wav(t testing.TB) []byte {
	t.Helper()
	var file bytes.Buffer
	sink, err := audio.NewWAV(&file, audio.Bits16, audio.Tags{})
	if err != nil {
		t.Fatal(err)
	}
	frames := make([]float32, 0, 2*len(p.samples))
	for _, x := range p.samples {
		frames = append(frames, x, x)
	}
	if err := sink.Start(audio.Format{SampleRate: p.rate, Frames: int64(len(p.samples))}); err != nil {
		t.Fatal(err)
	}
	if err := sink.Write(frames); err != nil {
		t.Fatal(err)
	}
	if err := sink.Finish(); err != nil {
		t.Fatal(err)
	}
	return file.Bytes()
}

// block packs samples as the live socket takes them.
func block(samples []float32) []byte {
	var b bytes.Buffer
	_ = binary.Write(&b, binary.LittleEndian, samples) // a buffer takes everything
	return b.Bytes()
}

// faulty plays the line with what players do: a wrong fret, a note left out,
// a group that is rushed.
func faulty(t testing.TB) played {
	t.Helper()
	const wrong, missed = 5, 11
	p := playTake(t, liveSpec, 0.5, func(notes []exercise.Note) {
		notes[wrong].Fret++
	})
	p.silence(missed)
	return p
}

// silence leaves a note out.
func (p played) silence(note int) {
	end := len(p.samples)
	if note+1 < len(p.onsetsS) {
		end = int(p.onsetsS[note+1]*float64(p.rate)) - p.rate/200
	}
	for i := int(p.onsetsS[note]*float64(p.rate)) - p.rate/100; i < end; i++ {
		p.samples[i] = 0
	}
}
