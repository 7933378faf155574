// Package performance plays exercises as people do, mistakes and all, on guitars
// whose every note is known: sound fonts, recorded single notes and model strings,
// through rooms, bands and amplifiers. The evaluation and the fitting of package
// hear use it; so do its tests.
package performance

import (
	"math/rand/v2"

	"heddle/line"
)

// A Player is how a take is played; all of it is drawn from a seed.
type Player struct {
	Tempo      float64
	value      line.Value
	Program    int
	Touch      string // picked, staccato, overlapped, ringing, hammered
	unevenS    float64
	Drift      float64 // relative tempo change from start to end
	Cents      float64
	loud, soft int
	Mistakes   float64 // share of notes with a mistake
	Restart    bool
	Stop       bool
}

var touches = []string{"picked", "picked", "staccato", "overlapped", "ringing", "hammered"}

// DrawPlayer draws a player of a General MIDI program.
func DrawPlayer(r *rand.Rand, program int) Player {
	p := Player{
		Tempo: 60 + 140*r.Float64(), value: []line.Value{line.Eighth, line.EighthTriplet, line.Sixteenth}[r.IntN(3)],
		Program: program, Touch: touches[r.IntN(len(touches))],
		unevenS: 0.002 + 0.010*r.Float64(), Drift: 0.04 * (r.Float64() - 0.5),
		Cents: 80*r.Float64() - 40, loud: 90 + r.IntN(30), soft: 55 + r.IntN(20),
		Mistakes: 0.12 * r.Float64(), Restart: r.IntN(5) == 0, Stop: r.IntN(8) == 0,
	}
	if program == mutedGuitar && p.Touch == "hammered" {
		p.Touch = "picked" // a muted string is silent before a second finger falls
	}
	if program >= mutedGuitar && p.Touch == "ringing" {
		p.Touch = "staccato" // with gain, two strings at once are mud: players damp
	}
	return p
}

// The General MIDI programs are nylon, steel, jazz, clean, muted, overdriven and
// distorted guitar.
const (
	firstGuitar = 24
	mutedGuitar = 28
)
