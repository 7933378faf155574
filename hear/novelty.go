package hear

import "math"

const noveltyBins = 5000 / 8 // up to about 4.9 kHz

// A newcomer finds the pitch of what a moment brings that wasn't there
// before.
type newcomer struct {
	graph      *spectrograph
	pre, post  []float64
	fresh      []float64
	low, high  int
	salience   []float64 // by third of a semitone... 
}

func newNewcomer(low, high int) *newcomer {
	return &newcomer{
		graph: newSpectrograph(), pre: make([]float64, noveltyBins), post: make([]float64, noveltyBins),
		fresh: make([]float64, noveltyBins), low: low, high: high,
	}
}

type pitchGuess struct {
	midi     float64
	score    float64
}

const stepsPerKey = 6

var NVOver, NVPow, NVDecay, NVMiss = 1.0, 0.5, 0.85, 0.5

// look compares the sound before and after and returns the best pitches.
func (n *newcomer) look(before, after []float32) []pitchGuess {
	n.graph.magnitudes(n.pre, before)
	n.graph.magnitudes(n.post, after)
	for i := range n.fresh {
		pre := n.pre[i]
		n.fresh[i] = math.Pow(max(0, n.post[i]-NVOver*pre), NVPow)
	}
	total := 0.0
	for i := 5; i < noveltyBins; i++ {
		total += n.fresh[i]
	}
	var out []pitchGuess
	for k := 0; k <= (n.high-n.low)*stepsPerKey; k++ {
		midi := float64(n.low) + float64(k)/stepsPerKey
		f := 440 * math.Exp2((midi-69)/12)
		s, w := 0.0, 0.0
		weight := 1.0
		for h := 1; h <= 16; h++ {
			at := f * float64(h) / binHz
			if at > noveltyBins-3 {
				break
			}
			v := n.peak(at)
			mid := n.peak(at - 0.5*f/binHz)
			s += weight * (v - NVMiss*mid)
			w += weight
			weight *= NVDecay
		}
		_ = w
		out = append(out, pitchGuess{midi, s})
	}
	_ = total
	return out
}

func (n *newcomer) peak(at float64) float64 {
	i := int(at)
	if i < 1 || i+1 >= noveltyBins {
		return 0
	}
	p := at - float64(i)
	return n.fresh[i]*(1-p) + n.fresh[i+1]*p
}

// Oracle is the pitch of what comes at a time.
func Oracle(x []float32, atS, lenS float64, low, high int) float64 {
	n := newNewcomer(low, high)
	at := int(atS * rate)
	l := int(lenS * rate)
	if at < l || at+l > len(x) {
		return 0
	}
	best := pitchGuess{0, math.Inf(-1)}
	for _, g := range n.look(x[at-l:at], x[at:at+l]) {
		if g.score > best.score {
			best = g
		}
	}
	return best.midi
}

func Resample(x []float32, from int) []float32 { return newResampler(from).feed(nil, x) }
