package listen

import (
	"math"

	"heddle/hear/internal/spectral"
	"heddle/pitch"
)

// The score of a pitch is the sum over its harmonics of what is new there, less
// what is new between them.
const (
	combHarmonics = 16
	harmonicDecay = 0.87 // weight of a harmonic against the one below it
	betweenWeight = 0.3  // of what lies halfway between two harmonics
	stepsPerKey   = 6    // pitches tried in each semitone
)

// A novelty finds the pitch of what a moment brings: the spectrum after it less
// the spectrum before it. What rings on is in both and cancels, however loud.
type novelty struct {
	spectrograph  *spectral.Spectrograph
	before, after []float64
	fresh, whole  []float64 // square roots of what is new, and of all
	lowest        float64   // key of the first step
	combs         [][]tooth // by step
	score         []float64 // by step
	newSum        float64   // of all that is new
}

// A tooth is where one harmonic of a pitch lies in a spectrum, and the place
// halfway to the harmonic below.
type tooth struct {
	at, between               int32
	frac, betweenFrac, weight float32
}

func newNovelty(lowest, highest float64) *novelty {
	n := &novelty{
		spectrograph: spectral.NewSpectrograph(), lowest: lowest,
		before: make([]float64, spectral.Bins), after: make([]float64, spectral.Bins),
		fresh: make([]float64, spectral.Bins), whole: make([]float64, spectral.Bins),
	}
	steps := int((highest-lowest)*stepsPerKey) + 1
	for k := range steps {
		n.combs = append(n.combs, comb(lowest+float64(k)/stepsPerKey))
	}
	n.score = make([]float64, steps)
	return n
}

func comb(midi float64) []tooth {
	bins := pitch.Frequency(midi) / spectral.BinHz
	var teeth []tooth
	weight := 1.0
	for h := 1.0; h <= combHarmonics && h*bins < spectral.Bins-2; h++ {
		at, between := h*bins, (h-0.5)*bins
		teeth = append(teeth, tooth{
			at: int32(at), frac: float32(at - math.Floor(at)),
			between: int32(between), betweenFrac: float32(between - math.Floor(between)),
			weight: float32(weight),
		})
		weight *= harmonicDecay
	}
	return teeth
}

// compare takes the sound before and after a moment, of the same length, and
// scores every pitch.
func (n *novelty) compare(before, after []float32) {
	n.spectrograph.Magnitudes(n.before, before)
	n.spectrograph.Magnitudes(n.after, after)
	n.newSum = 0
	for i, a := range n.after {
		n.fresh[i] = math.Sqrt(max(0, a-n.before[i]))
		n.whole[i] = math.Sqrt(a)
		n.newSum += n.fresh[i]
	}
	for k, teeth := range n.combs {
		n.score[k] = scoreComb(teeth, n.fresh)
	}
}

func scoreComb(teeth []tooth, x []float64) float64 {
	sum := 0.0
	for _, t := range teeth {
		sum += float64(t.weight) * (t.on(x) - betweenWeight*t.off(x))
	}
	return sum
}

// on is the value at the harmonic, off the one halfway to the one below.
func (t *tooth) on(x []float64) float64 {
	f := float64(t.frac)
	return x[t.at]*(1-f) + x[t.at+1]*f
}

func (t *tooth) off(x []float64) float64 {
	f := float64(t.betweenFrac)
	return x[t.between]*(1-f) + x[t.between+1]*f
}

// step is the step nearest to a key, midi the key of a step.
func (n *novelty) step(midi float64) int { return int(math.Round((midi - n.lowest) * stepsPerKey)) }

func (n *novelty) midi(step int) float64 { return n.lowest + float64(step)/stepsPerKey }

// refine returns the key near the given one that the partials of the last
// comparison agree on: the mean of their frequencies, each divided by its number,
// weighted by what is new in them.
func (n *novelty) refine(midi float64) float64 {
	bins := pitch.Frequency(midi) / spectral.BinHz
	sum, weights := 0.0, 0.0
	for h := 1.0; h <= 8 && (h+0.5)*bins < spectral.Bins-2; h++ {
		reach := max(1, 0.035*h*bins)
		peak := -1
		for i := int(math.Ceil(h*bins - reach)); i <= int(h*bins+reach); i++ {
			if i > 1 && n.after[i] > n.after[i-1] && n.after[i] >= n.after[i+1] && (peak < 0 || n.after[i] > n.after[peak]) {
				peak = i
			}
		}
		if peak < 0 {
			continue
		}
		a, b, c := math.Log(n.after[peak-1]+1e-12), math.Log(n.after[peak]+1e-12), math.Log(n.after[peak+1]+1e-12)
		at := float64(peak)
		if d := a - 2*b + c; d < 0 {
			at += 0.5 * (a - c) / d
		}
		w := n.fresh[peak] * n.fresh[peak] * math.Sqrt(h)
		sum += w * math.Log2(at/(h*bins))
		weights += w
	}
	if weights == 0 {
		return midi
	}
	return midi + 12*sum/weights
}

// lagOf is the period of a key in samples, with its fraction.
func lagOf(midi float64) float64 { return spectral.Rate / pitch.Frequency(midi) }

// keyOf is the key of a period in samples.
func keyOf(lag float64) float64 {
	return 69 + 12*math.Log2(spectral.Rate/lag/pitch.Frequency(69))
}
