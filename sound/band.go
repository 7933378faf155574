package sound

import (
	"math"
	"strconv"

	"heddle/exercise"
	"heddle/finger"
	"heddle/line"
	"heddle/pitch"
	"heddle/sound/dsp"
	"heddle/sound/pluck"
)

// A band is what plays an exercise: it knows what every part plays in every
// pass, and makes no sound itself.
type band struct {
	ex    *exercise.Exercise
	opt   Options // settled
	form  *form
	voice *speech
	comp  *comping
}

// newBand settles the options and checks that the exercise can be played.
func newBand(ex *exercise.Exercise, o Options) (*band, error) {
	o, err := o.settled(ex)
	if err != nil {
		return nil, err
	}
	f, err := newForm(ex, o)
	if err != nil {
		return nil, err
	}
	b := &band{ex: ex, opt: o, form: f}
	if err := b.checkNotes(); err != nil {
		return nil, err
	}
	b.comp = b.arrange()
	b.voice, err = b.speech()
	return b, err
}

// highestShare is the share of the sample rate up to which a string can be
// tuned: a period must hold the loop's filter.
const highestShare = 1.0 / 6

// checkNotes refuses notes that no string of the instrument can sound.
func (b *band) checkNotes() error {
	in := b.ex.Instrument
	for _, n := range b.ex.Notes {
		if n.String < 1 || n.String > in.Strings() || n.Fret < 0 {
			return &pitch.InputError{What: "note " + strconv.Itoa(n.Index), Value: n.Pitch.String(),
				Want: "a string and fret of the " + in.Name}
		}
		hz := pitch.Frequency(float64(in.MIDI(n.Spot)))
		if hz > highestShare*float64(b.opt.SampleRate) {
			return &pitch.InputError{What: "sample rate", Value: strconv.Itoa(b.opt.SampleRate),
				Want: "one above six times the highest note, " + n.Pitch.String()}
		}
	}
	return nil
}

// sub-streams of chance, one for each part.
const (
	lineDice = iota
	chordDice
	bassDice
	drumDice
)

// The line's dynamics, as forces from 0 to 1: a player leans on beats and on
// the first note of a group, and no two strokes are alike.
const (
	plainForce  = 0.74
	beatForce   = 0.08
	groupForce  = 0.08
	chanceForce = 0.05
)

// lineNotes returns the notes of a pass.
func (b *band) lineNotes(p pass) []pluck.Note {
	if p.kind != linePass {
		return nil
	}
	notes := make([]pluck.Note, 0, len(b.ex.Notes))
	for i := range b.ex.Notes {
		n := &b.ex.Notes[i]
		d := dsp.Roll(b.opt.Seed, lineDice, p.number, i)
		force := plainForce + chanceForce*d.Swing()
		if n.Start%b.form.beat == 0 {
			force += beatForce
		}
		if i == 0 || n.Group != b.ex.Notes[i-1].Group {
			force += groupForce
		}
		note := pluck.Note{
			Index: i, At: round(b.form.at(p, n.Start)), Off: round(b.form.at(p, n.Start+n.Duration)),
			String: n.String - 1, Open: b.openKey(n.String), Fret: float64(n.Fret),
			Stroke: n.Stroke, Force: force, Shift: b.shiftMM(i), Dice: d,
		}
		switch b.opt.Articulation {
		case Staccato:
			note.Off = note.At + int64(staccatoShare*float64(note.Off-note.At))
		case PalmMuted:
			note.Mute = palmFirmness
		}
		b.shape(&note, i)
		notes = append(notes, note)
	}
	b.joinSlides(notes)
	return notes
}

// shiftMM returns how far the hand moves along the neck before a note: the way
// of the place where its first finger lies. An open string says nothing of it.
func (b *band) shiftMM(i int) float64 {
	if i == 0 || b.ex.Notes[i].Finger == 0 || b.ex.Notes[i-1].Finger == 0 {
		return 0
	}
	lies := func(n exercise.Note) float64 { return b.ex.Instrument.FretMM(max(n.Fret-n.Finger+1, 0)) }
	return math.Abs(lies(b.ex.Notes[i]) - lies(b.ex.Notes[i-1]))
}

// openKey returns the key a string sounds open, or at the capo.
func (b *band) openKey(str int) float64 {
	return float64(b.ex.Instrument.Open[str-1].MIDI() + b.ex.Instrument.Capo)
}

// slideS is how long a slide takes, so short that both notes keep their time.
const slideS = 0.045

// joinSlides lets a slide take along the note before it on the same string,
// where that note lasts until the slide arrives. It also ends a note where
// its string is played again.
func (b *band) joinSlides(notes []pluck.Note) {
	last := map[int]int{}
	for i := range notes {
		n := &notes[i]
		if j, ok := last[n.String]; ok {
			before := &notes[j]
			if n.Stroke == finger.Slide && j == i-1 && before.Off >= n.At {
				n.Glide = min(int64(slideS*float64(b.form.rate)), (n.At-before.At)/2)
				before.Bound = n.Glide > 0
			}
			before.Off = min(before.Off, n.At)
		}
		last[n.String] = i
	}
}

// beatAt returns the position of a beat of a bar, both counted from 0.
func (f *form) beatAt(bar, beat int) line.Beat {
	return line.Beat(bar)*f.meter.Bar() + line.Beat(beat)*f.beat
}
