package hear

import (
	"math"
	"math/rand/v2"
)

// How the judge learns: Adam (Kingma and Ba 2015) on the logistic loss, with
// a rate that falls as a half cosine, over lessons in batches.
const (
	learnEpochs = 12
	learnBatch  = 128
	learnRate   = 0.004
	learnKeep   = 0.9
	learnKeep2  = 0.999
	learnShrink = 1e-5
)

const (
	inputs     = signCount + 1
	weights    = hiddenCount*inputs + hiddenCount + 1
	outWeights = hiddenCount * inputs
)

// A learner is a judge of signs that are brought to mean nought and variance
// one, its weights in one row.
type learner struct {
	mean, spread  [signCount]float64
	w, slope      [weights]float32
	first, second [weights]float32 // moments of the slope
	hidden        [hiddenCount]float32
}

func learn(all []lesson) *judge {
	r := rand.New(rand.NewPCG(7, 7))
	l := &learner{}
	l.measure(all)
	for i := range l.w {
		width := float64(signCount)
		if i >= outWeights {
			width = hiddenCount
		}
		l.w[i] = float32(r.NormFloat64() / math.Sqrt(width))
	}
	x := l.scaled(all)
	order := r.Perm(len(all))
	steps, last := 0, learnEpochs*len(all)/learnBatch
	for range learnEpochs {
		r.Shuffle(len(order), func(i, j int) { order[i], order[j] = order[j], order[i] })
		for at := 0; at+learnBatch <= len(order); at += learnBatch {
			clear(l.slope[:])
			for _, k := range order[at : at+learnBatch] {
				l.see(&x[k], all[k].note)
			}
			steps++
			l.step(steps, learnRate*0.5*(1+math.Cos(math.Pi*float64(steps)/float64(last+1))))
		}
	}
	return l.judge()
}

// measure finds the mean and the spread of each sign.
func (l *learner) measure(all []lesson) {
	for _, s := range all {
		for i, v := range s.signs {
			l.mean[i] += float64(v) / float64(len(all))
		}
	}
	for _, s := range all {
		for i, v := range s.signs {
			d := float64(v) - l.mean[i]
			l.spread[i] += d * d / float64(len(all))
		}
	}
	for i, v := range l.spread {
		l.spread[i] = math.Sqrt(v + 1e-6)
	}
}

func (l *learner) scaled(all []lesson) [][inputs]float32 {
	x := make([][inputs]float32, len(all))
	for k := range all {
		for i, v := range all[k].signs {
			x[k][i] = float32((float64(v) - l.mean[i]) / l.spread[i])
		}
		x[k][signCount] = 1
	}
	return x
}

// see adds one lesson to the slope of the loss.
func (l *learner) see(x *[inputs]float32, note float32) {
	z := l.w[weights-1]
	for h := range hiddenCount {
		sum := float32(0)
		for i, w := range l.w[h*inputs : (h+1)*inputs] {
			sum += w * x[i]
		}
		l.hidden[h] = float32(math.Tanh(float64(sum)))
		z += l.w[outWeights+h] * l.hidden[h]
	}
	miss := float32(probability(float64(z))) - note
	l.slope[weights-1] += miss
	for h, y := range l.hidden {
		l.slope[outWeights+h] += miss * y
		back := miss * l.w[outWeights+h] * (1 - y*y)
		row := l.slope[h*inputs : (h+1)*inputs]
		for i := range row {
			row[i] += back * x[i]
		}
	}
}

func (l *learner) step(number int, speed float64) {
	rise := 1 - math.Pow(learnKeep, float64(number))
	rise2 := 1 - math.Pow(learnKeep2, float64(number))
	for i := range l.w {
		slope := l.slope[i]/learnBatch + learnShrink*l.w[i]
		l.first[i] = learnKeep*l.first[i] + (1-learnKeep)*slope
		l.second[i] = learnKeep2*l.second[i] + (1-learnKeep2)*slope*slope
		l.w[i] -= float32(speed * float64(l.first[i]) / rise / (math.Sqrt(float64(l.second[i])/rise2) + 1e-8))
	}
}

// judge takes the scale of the signs into the weights.
func (l *learner) judge() *judge {
	j := &judge{}
	for h := range hiddenCount {
		alone := float64(l.w[h*inputs+signCount])
		for i := range signCount {
			w := float64(l.w[h*inputs+i]) / l.spread[i]
			j.hidden[h][i] = float32(w)
			alone -= w * l.mean[i]
		}
		j.hidden[h][signCount] = float32(alone)
		j.out[h] = l.w[outWeights+h]
	}
	j.out[hiddenCount] = l.w[weights-1]
	return j
}
