package sound

import (
	"heddle/finger"
	"heddle/sound/pluck"
)

// How a touch changes a note's force and length, against a plain note's.
const (
	accentForce = 0.17
	ghostForce  = 0.3 // as a factor
	ghostMute   = 0.7 // the fretting hand hardly presses
	ghostShare  = 0.6 // of its length
)

// shape gives a note the touch of the exercise's note i: its force, its length and
// how its pitch moves. A slide that is a stroke is joined later.
func (b *band) shape(note *pluck.Note, i int) {
	n := &b.ex.Notes[i]
	length := float64(note.Off - note.At)
	seconds := length / float64(b.form.rate)
	toNext := b.ex.SlidesOn(i)
	if toNext != 0 && b.ex.Notes[i+1].Stroke == finger.Slide {
		toNext = 0
	}
	for _, m := range n.Touch.Path(seconds, toNext) {
		note.Path = append(note.Path, pluck.Move{At: b.samplesOf(m.AtS), Over: b.samplesOf(m.OverS), Semitones: m.Semitones})
	}
	share := 1.0
	switch {
	case n.Touch.Ghost:
		note.Force *= ghostForce
		note.Mute = max(note.Mute, ghostMute)
		share = ghostShare
	case n.Touch.Accent:
		note.Force = min(note.Force+accentForce, 1)
	}
	if n.Touch.Staccato {
		share = min(share, staccatoShare)
	}
	note.Off = min(note.Off, note.At+int64(share*length))
}

func (b *band) samplesOf(seconds float64) int64 { return int64(seconds * float64(b.form.rate)) }
