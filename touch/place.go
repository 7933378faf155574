package touch

import (
	"slices"

	"heddle/finger"
	"heddle/line"
)

// A placer places what a style holds besides bends on a fingered line.
type placer struct {
	Line
	played  []finger.Fingering
	touches []Touch
	usual   line.Beat // the median duration
}

// Complete adds what the style holds besides bends to the touches that [Style.Bend]
// returned, once the line is fingered. Notes that have a touch already keep it.
//
//   - Accents: the first note of each group of two or more.
//   - Slides between: a picked note that the finger of the note before reaches along
//     its string.
//   - Slides into: the first note of the line, one after a rest, and the first on
//     beat 1 of a bar if it begins a group; not with the little finger, and not below
//     the third fret.
//   - Ghost notes: off the beat, neither the first nor the last of their group.
//   - Staccato: the last note of each group of two or more, if it is not long.
//   - Vibrato: notes of a quarter or more that are twice as long as most, and the
//     last note of the line if it is that long; not open strings.
//
// A bend keeps its release only if the next note is played where the bent string is
// stopped.
func (s Style) Complete(l Line, played []finger.Fingering, touches []Touch) []Touch {
	if s == 0 {
		return touches
	}
	if touches == nil {
		touches = make([]Touch, len(l.Notes))
	}
	p := placer{l, played, touches, usualDuration(l.Notes)}
	for i := range touches {
		t := &touches[i]
		if t.Release && (i+1 == len(played) || played[i+1].Spot != played[i].Spot) {
			t.Release = false
		}
		t.Slide = p.slide(i, s)
	}
	for i := range touches {
		t, first, last := &touches[i], p.firstOfGroup(i), p.lastOfGroup(i)
		t.Accent = s&Accents != 0 && first && !last
		t.Vibrato = s&Vibrato != 0 && p.long(i) && played[i].Fret > 0
		t.Staccato = s&Staccato != 0 && last && !first && !p.held(i)
		t.Ghost = s&GhostNotes != 0 && !first && !last && !p.onBeat(i) && !p.held(i) && t.Slide == ""
	}
	return touches
}

// usualDuration returns the median duration.
func usualDuration(notes []line.Note) line.Beat {
	if len(notes) == 0 {
		return 0
	}
	durations := make([]line.Beat, len(notes))
	for i, n := range notes {
		durations[i] = n.Duration
	}
	slices.Sort(durations)
	return durations[len(durations)/2]
}

// slide returns the slide that suits a note.
func (p *placer) slide(i int, s Style) Slide {
	f := p.played[i]
	picked := f.Stroke == finger.Down || f.Stroke == finger.Up
	if s&Slides == 0 || !picked || f.Fret == 0 || p.touches[i].Bend != 0 {
		return ""
	}
	if i > 0 {
		before := p.played[i-1]
		guided := f.String == before.String && f.Finger == before.Finger && f.Fret != before.Fret
		if guided && p.touches[i-1].Bend == 0 && !p.rested(i) {
			return Between
		}
	}
	opens := i == 0 || p.rested(i) || p.firstOfGroup(i) && p.Notes[i].Start%p.Meter.Bar() == 0
	if opens && f.Finger < 4 && f.Fret > slideFrets {
		return Into
	}
	return ""
}

// slideFrets is how many frets below a note a slide into it begins.
const slideFrets = 2

// rested reports whether there is silence before a note, or no note.
func (p *placer) rested(i int) bool { return i == 0 || p.Notes[i-1].End() < p.Notes[i].Start }

func (p *placer) onBeat(i int) bool { return p.Notes[i].Start%p.Meter.Beat() == 0 }

func (p *placer) firstOfGroup(i int) bool {
	return i == 0 || p.Notes[i].Group != p.Notes[i-1].Group || p.Notes[i].Role != p.Notes[i-1].Role
}

func (p *placer) lastOfGroup(i int) bool { return i+1 == len(p.Notes) || p.firstOfGroup(i+1) }

// long reports whether a note is long enough for vibrato.
func (p *placer) long(i int) bool {
	d := p.Notes[i].Duration
	return d >= line.Quarter && (d >= 2*p.usual || i+1 == len(p.Notes))
}

// held reports whether something needs the note's whole length and sound: it is
// bent or long, or the next note is slid to from it.
func (p *placer) held(i int) bool {
	next := i+1 < len(p.touches) && (p.touches[i+1].Slide == Between || p.played[i+1].Stroke == finger.Slide)
	return p.touches[i].Bend != 0 || p.long(i) || next
}
