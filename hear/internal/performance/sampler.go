package performance

import (
	"math"
	"math/rand/v2"

	"heddle/hear/internal/synthetic"
)

// How a guitar is played.
const (
	leadS      = 0.015 // of a recording before its attack: pick and string meet
	fadeInS    = 0.002
	hammerS    = 0.006 // in which one pitch gives way to the next, as a finger falls
	slideS     = 0.025 // in which a finger slides
	slideShare = 1.0 / 3
	frettedOff = 0.03 // semitones by which a finger bends a fretted string, one standard deviation
	stolenS    = 0.03 // in which a note dies whose string is fretted again
	brightS    = 0.03 // from a recording's attack, at the earliest, where a slur enters it
	lastingS   = 0.4  // and at the latest
)

// A tone is a stretch of one recording on one string.
type tone struct {
	from          *recordedNote
	key           float64 // that it sounds
	slidFrom      float64 // key at its start, where a finger slides
	atS           float64 // of the attack, or of the change of pitch
	intoS         float64 // after the attack, where the recording is entered
	untilS, diesS float64 // when it is damped, and in which time it falls by 60 dB
	fadeS         float64
	gain          float64
	dull          float64 // one-pole low-pass, 1 for none
}

// Play sounds a take.
func (g *Recorded) Play(tk Take, r *rand.Rand) ([]float32, error) {
	endS := 0.0
	for _, n := range tk.Played {
		endS = max(endS, n.OffS)
	}
	out := make([]float32, int((endS+0.5)*synthetic.Rate))
	ends := tk.stringEnds()
	for i := 0; i < len(tk.Played); {
		end := i + 1
		for end < len(tk.Played) && tk.Played[end].Legato {
			end++
		}
		for _, s := range g.stroke(tk, i, end, ends[end-1], r) {
			s.sound(out)
		}
		i = end
	}
	return out, nil
}

// stringEnds is when each note ends because its string is fretted again.
func (tk Take) stringEnds() []float64 {
	ends := make([]float64, len(tk.Played))
	for i, n := range tk.Played {
		ends[i] = n.OffS
		for _, later := range tk.Played[i+1:] {
			if n.Index >= 0 && later.Index >= 0 && tk.Exercise.Notes[n.Index].String == tk.Exercise.Notes[later.Index].String {
				ends[i] = min(ends[i], later.OnS)
				break
			}
		}
	}
	return ends
}

// stroke is one plucked note and those slurred to it.
func (g *Recorded) stroke(tk Take, first, end int, endS float64, r *rand.Rand) []tone {
	var tones []tone
	for i := first; i < end; i++ {
		n := tk.Played[i]
		key := float64(n.Key) + tk.Cents/100 + frettedOff*r.NormFloat64()
		s := tone{
			from: g.nearest(key), key: key, slidFrom: key, atS: n.OnS, fadeS: fadeInS,
			untilS: endS, diesS: 0.05 + 0.1*r.Float64(),
			// General MIDI's recommended curve: 40 dB for a decade of velocity.
			gain: math.Pow(float64(n.Velocity)/127, 2),
			dull: min(1, math.Exp2(float64(n.Velocity-100)/20)),
		}
		if endS < n.OffS {
			s.diesS = stolenS
		}
		if i > first {
			before := &tones[len(tones)-1]
			before.untilS, before.diesS = n.OnS, hammerS
			s.slurAfter(*before, n.OnS-tk.Played[first].OnS, r)
		}
		tones = append(tones, s)
	}
	return tones
}

// slurAfter lets a tone go on where another leaves off, with about its loudness
// and past the recording's attack. A finger that falls or pulls off brightens
// the string a little, as a recording is soon after its stroke; one that slides
// lets it go on fading.
func (s *tone) slurAfter(before tone, sinceS float64, r *rand.Rand) {
	s.fadeS, s.dull = hammerS, before.dull
	s.intoS = brightS + (0.1-brightS)*r.Float64()
	share := 0.8 + 0.3*r.Float64()
	if r.Float64() < slideShare {
		s.slidFrom = before.key
		s.intoS = min(max(sinceS, 0.1), lastingS)
		share = 0.7 + 0.3*r.Float64()
	}
	reached := before.intoS + s.atS - before.atS
	s.gain = before.gain * before.from.level(reached) / s.from.level(s.intoS) * share
}

// level is the loudness of a recording at a time after its attack.
func (n *recordedNote) level(atS float64) float64 {
	from := min(n.attack+int(atS*float64(n.rate)), len(n.x)-1)
	return synthetic.RMS(n.x[from:min(from+n.rate/40, len(n.x))]) + 1e-6
}

// sound adds a tone to a take.
func (s tone) sound(out []float32) {
	lead := 0.0
	if s.intoS == 0 {
		lead = min(leadS, float64(s.from.attack)/float64(s.from.rate))
	}
	begin := max(0, int(math.Ceil((s.atS-lead)*synthetic.Rate)))
	low := 0.0
	for i := begin; i < len(out); i++ {
		sinceS := float64(i)/synthetic.Rate - s.atS
		fade := min(1, float64(i-begin+1)/synthetic.Rate/s.fadeS)
		if overS := sinceS + s.atS - s.untilS; overS > 0 {
			if overS > 1.3*s.diesS {
				return
			}
			fade *= math.Pow(0.001, overS/s.diesS)
		}
		x, more := s.from.between(s.place(sinceS))
		if !more {
			return
		}
		low += s.dull * (x - low)
		out[i] += float32(s.gain * fade * low)
	}
}

// place is where in the recording a tone is, so long after its start. A slide
// reaches its pitch evenly over its time.
func (s tone) place(sinceS float64) float64 {
	speed := func(key float64) float64 { return float64(s.from.rate) * math.Exp2((key-s.from.key)/12) }
	place := float64(s.from.attack) + s.intoS*float64(s.from.rate) + sinceS*speed(s.key)
	if s.slidFrom != s.key {
		slid := min(max(sinceS, 0), slideS)
		extra := speed(s.slidFrom) - speed(s.key)
		place += extra * (slid - slid*slid/(2*slideS))
	}
	return place
}

// sincReach is how many samples on each side a value between samples is
// taken from.
const sincReach = 8

// between is a recording's value between its samples, by a windowed sinc.
func (n *recordedNote) between(at float64) (value float64, more bool) {
	whole := int(math.Floor(at))
	if whole >= len(n.x)-sincReach {
		return 0, false
	}
	part := at - float64(whole)
	// The sine of the sinc is the same for each tap but for its sign.
	sine := math.Sin(math.Pi * part)
	if sine < 1e-9 {
		if whole < 0 {
			return 0, true
		}
		return float64(n.x[whole]), true
	}
	for k := max(1-sincReach, -whole); k <= sincReach; k++ {
		distance := part - float64(k)
		window := 0.5 + 0.5*math.Cos(math.Pi*distance/sincReach)
		if k%2 != 0 {
			window = -window
		}
		value += float64(n.x[whole+k]) * window * sine / (math.Pi * distance)
	}
	return value, true
}
