package sound

import (
	"heddle/finger"
	"heddle/line"
	"heddle/sound/dsp"
	"heddle/sound/groove"
	"heddle/sound/pluck"
)

// The bass's strings, lowest last, as keys: G2 D2 A1 E1.
var bassStrings = []float64{43, 38, 33, 28}

// bassScaleMM is the length of a bass's strings.
const bassScaleMM = 864

// A bassStep is one note of a bass line before it has a place on the neck.
type bassStep struct {
	at, end line.Beat
	plain   bool // a triplet
	key     int
	force   float64
	dead    bool
}

// The bass's range in keys, and how it plays.
const (
	bassLowest  = 28 // E1
	bassHighest = 50 // D3
	bassLateMS  = 3
	bassLooseMS = 3
	deadS       = 0.05 // how long a dead note sounds
)

// bassNotes returns what the bass plays in a pass.
func (b *band) bassNotes(p pass) []pluck.Note {
	if p.kind == silentPass || len(b.comp.spans) == 0 {
		return nil
	}
	d := dsp.Roll(b.opt.Seed, bassDice, p.number)
	var steps []bassStep
	switch {
	case p.kind == endingPass:
		steps = b.lastRoot(p)
	case b.opt.Vamp == DroneVamp:
		steps = b.droneBass()
	case !b.opt.Vamp.drums():
	case len(grooves[b.opt.Vamp].Bass.Plays) == 0:
		steps = b.walk(&d)
	default:
		steps = b.bassPatterns(grooves[b.opt.Vamp].Bass, &d)
	}
	return b.onBass(p, steps, &d)
}

// lastRoot ends on the first chord's bass note.
func (b *band) lastRoot(p pass) []bassStep {
	if b.opt.Vamp == ClickVamp {
		return nil
	}
	return []bassStep{{at: 0, end: line.Beat(ringOutS * 0.7 * p.tempo / 60 * float64(line.Quarter)), key: bassKey(b.comp.spans[0].chord.Bass.Class(), 33), force: 0.8}}
}

// droneBass strikes the chord's bass note once a bar.
func (b *band) droneBass() []bassStep {
	var steps []bassStep
	for _, h := range b.comp.spans {
		steps = append(steps, bassStep{at: h.start, end: h.end, key: bassKey(h.chord.Bass.Class(), 33), force: 0.6})
	}
	return steps
}

// bassKey returns the key of a class nearest to another key, in range.
func bassKey(class, near int) int {
	key := near + ((class-near)%12+12)%12
	if key-near > 6 {
		key -= 12
	}
	for key < bassLowest {
		key += 12
	}
	for key > bassHighest {
		key -= 12
	}
	return key
}

// bassPatterns plays a groove's bass: the degrees of each chord, and at the end
// of each bar the way to the next. Wherever a chord begins, its bass note is
// played.
func (b *band) bassPatterns(part groove.Bass, d *dsp.Dice) []bassStep {
	var steps []bassStep
	pulses := groove.Pulses(b.form.meter)
	home := dsp.Roll(b.opt.Seed, bassDice)
	next := 0 // span whose beginning is still to be played
	begin := func(until line.Beat) {
		for ; next < len(b.comp.spans) && b.comp.spans[next].start < until; next++ {
			at := b.comp.spans[next].start
			steps = append(steps, b.bassDegree(groove.Stroke{Letter: '1', At: at}))
		}
	}
	for bar := range b.form.bars {
		for _, s := range part.Plays.Bar(bar, pulses, home, d, part.Stray) {
			s.At += b.form.beatAt(bar, 0)
			begin(s.At)
			if next < len(b.comp.spans) && b.comp.spans[next].start == s.At {
				s.Letter = '1'
				next++
			}
			steps = append(steps, b.bassDegree(s))
		}
	}
	begin(b.form.length())
	b.holdUntilNext(steps, part.Hold)
	return steps
}

// bassDegree returns the note that a letter of a bass pattern means.
func (b *band) bassDegree(at groove.Stroke) bassStep {
	i := b.comp.at(at.At)
	h := b.comp.spans[i]
	root := bassKey(h.chord.Root.Class(), 33)
	if at.At == h.start {
		root = bassKey(h.chord.Bass.Class(), 33)
	}
	s := bassStep{at: at.At, plain: at.Plain, key: root, force: 0.72}
	switch at.Letter {
	case '1':
		s.force = 0.85
	case '8':
		s.key, s.force = root+12, 0.8
	case '5':
		s.key = root + degreeOf(h, 5, 7)
	case '7':
		s.key = root + degreeOf(h, 7, 10)
	case '3':
		s.key = root + degreeOf(h, 3, 4)
	case 'a':
		next := b.comp.spans[(i+1)%len(b.comp.spans)]
		s.key = bassKey(next.chord.Bass.Class(), 33) - 1
		if s.key < bassLowest || int(at.At/groove.Slot)%2 == 0 {
			s.key += 2 // from above: a whole tone or a semitone, whichever the line has room for
		}
	case 'd':
		s.dead, s.force = true, 0.6
	}
	for s.key > bassHighest {
		s.key -= 12
	}
	return s
}

// degreeOf returns how far a degree lies above the root, or a usual distance
// where the chord does not have it.
func degreeOf(h harmony, number, usual int) int {
	for _, d := range h.chord.Degrees {
		if d.Number == number {
			return d.Class()
		}
	}
	return usual
}

// holdUntilNext lets each note last a share of the way to the next.
func (b *band) holdUntilNext(steps []bassStep, share float64) {
	for i := range steps {
		next := b.form.length()
		if i+1 < len(steps) {
			next = steps[i+1].at
		}
		steps[i].end = steps[i].at + line.Beat(float64(next-steps[i].at)*share)
	}
}

// onBass gives each step a time, a string and a fret: the lowest fret there
// is, as bass players play in first position.
func (b *band) onBass(p pass, steps []bassStep, d *dsp.Dice) []pluck.Note {
	rate := float64(b.form.rate)
	notes := make([]pluck.Note, 0, len(steps))
	for _, s := range steps {
		late := (bassLateMS + bassLooseMS*d.Swing()) / 1000 * rate
		n := pluck.Note{
			At: round(b.playedAt(p, groove.Stroke{At: s.at, Plain: s.plain}) + late), Off: round(b.bandAt(p, s.end)),
			Stroke: finger.Down, Force: s.force * (1 + 0.06*d.Swing()), Dice: dsp.Roll(d.Next()),
		}
		for i, open := range bassStrings {
			if n.String, n.Open, n.Fret = i, open, float64(s.key)-open; n.Fret >= 0 {
				break
			}
		}
		if s.dead {
			n.Off, n.Mute = n.At+int64(deadS*rate), 1
		}
		n.Off = max(n.Off, n.At+1)
		notes = append(notes, n)
	}
	return notes
}
