package sound

import (
	"math"

	"heddle/exercise"
	"heddle/line"
	"heddle/sound/drumkit"
)

// A Played is a note of the band, for programs with sounds of their own.
type Played struct {
	At, End line.Beat // as it sounds, from the first bar line
	Key     int       // MIDI; of a drum, that of General MIDI's percussion
	Force   float64   // 0 to 1
}

// Accompaniment returns what bass and drums play under the line once through, as in
// the finished sound and with the same seed. A part that is muted, or that the vamp
// does not have, plays nothing.
func Accompaniment(ex *exercise.Exercise, o Options) (bass, drums []Played, err error) {
	o.CountIn, o.Loops, o.Ladder, o.Seamless = 0, 1, Ladder{}, false
	o.CallAndResponse, o.SilentEveryOther, o.Voice = false, false, false
	b, err := newBand(ex, o)
	if err != nil {
		return nil, nil, err
	}
	p := b.form.passes[0]
	if !b.opt.Mix[Bass].Mute {
		for _, n := range b.bassNotes(p) {
			bass = append(bass, Played{b.beatOf(p, n.At), b.beatOf(p, n.Off), int(n.Open + n.Fret), min(n.Force, 1)})
		}
	}
	if !b.opt.Mix[Drums].Mute {
		for _, h := range b.drumHits(p) {
			stroke := percussion[h.Sound/drumkit.Takes]
			at := b.beatOf(p, h.At)
			force := stroke.force * math.Sqrt(float64(h.Gain)) // see drumStroke
			drums = append(drums, Played{at, at + struckFor, stroke.key, min(force, 1)})
		}
	}
	return bass, drums, nil
}

// struckFor is how long a drum's key is held: a sixteenth.
const struckFor = line.Quarter / 4

// beatOf returns the sounding beat of a sample of a pass.
func (b *band) beatOf(p pass, sample int64) line.Beat {
	seconds := (float64(sample) - p.start) / float64(b.form.rate)
	return line.Beat(math.Round(seconds * p.tempo / 60 * float64(line.Quarter)))
}

// A drumKey is the key that plays a piece of the kit, and its force against the
// others'.
type drumKey struct {
	key   int
	force float64
}

// percussion holds the key of each piece (General MIDI 1, percussion key map; the
// brushes have the snare's keys, as in General MIDI 2's brush set).
var percussion = [drumkit.Pieces]drumKey{
	drumkit.Kick:       {36, 1},
	drumkit.SoftKick:   {35, 0.7},
	drumkit.Snare:      {38, 1},
	drumkit.Ghost:      {38, 0.35},
	drumkit.CrossStick: {37, 0.9},
	drumkit.BrushTap:   {38, 0.6},
	drumkit.BrushSweep: {40, 0.5},
	drumkit.HatClosed:  {42, 0.9},
	drumkit.HatOpen:    {46, 0.9},
	drumkit.HatPedal:   {44, 0.8},
	drumkit.Ride:       {51, 0.9},
	drumkit.RideBell:   {53, 0.9},
	drumkit.Crash:      {49, 1},
	drumkit.TomHigh:    {50, 1},
	drumkit.TomMiddle:  {47, 1},
	drumkit.TomLow:     {43, 1},
	drumkit.Shaker:     {70, 0.8}, // maracas
}
