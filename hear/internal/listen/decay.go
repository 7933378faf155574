package listen

import (
	"math"

	"heddle/hear/internal/spectral"
)

// A decay is how a take's level rises and falls, from which the end of each note
// is read.
type decay struct {
	levelsDB []float32 // the loudest hop in each stretch
	hops     int
}

const (
	decayHops = 4  // in a stretch: 20 ms
	overDB    = 25 // a note is over when its level has fallen so far
)

func (d *decay) add(levelDB float64) {
	if d.hops%decayHops == 0 {
		d.levelsDB = append(d.levelsDB, float32(levelDB))
	}
	d.hops++
	last := len(d.levelsDB) - 1
	d.levelsDB[last] = max(d.levelsDB[last], float32(levelDB))
}

// end gives each note the time at which it has died away or gives way to the
// next.
func (d *decay) end(notes []Note) {
	const perS = 1 / (decayHops * spectral.HopS)
	for i := range notes {
		nextS := math.Inf(1)
		for _, n := range notes[i+1 : min(i+1+lateNotes, len(notes))] { // neighbours may be out of order
			if n.OnsetS > notes[i].OnsetS {
				nextS = min(nextS, n.OnsetS)
			}
		}
		until := int(min(float64(len(d.levelsDB)), nextS*perS))
		peak := float32(-200)
		at := int(notes[i].OnsetS * perS)
		for ; at < until; at++ {
			if peak = max(peak, d.levelsDB[at]); d.levelsDB[at] < peak-overDB {
				break
			}
		}
		notes[i].OffsetS = min(max(notes[i].OffsetS, float64(at)/perS), nextS)
	}
}
