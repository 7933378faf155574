package main

import (
	"math"
	"math/rand/v2"

	"heddle/hear/internal/listen"
)

// The fit: Adam (Kingma and Ba 2015) on the logistic loss, with a rate that falls as
// a half cosine, over examples in batches.
const (
	epochs      = 12
	batchSize   = 128
	fitRate     = 0.004
	keepSlope   = 0.9
	keepSquares = 0.999
	shrinkage   = 1e-5
)

const (
	inputs     = listen.FeatureCount + 1
	weights    = listen.HiddenCount*inputs + listen.HiddenCount + 1
	outWeights = listen.HiddenCount * inputs
)

// A network is a classifier of features with mean 0 and variance 1, its weights in
// one row.
type network struct {
	mean, spread  [listen.FeatureCount]float64
	w, gradient   [weights]float32
	first, second [weights]float32 // moments of the gradient
	hidden        [listen.HiddenCount]float32
}

// fit fits a classifier to examples.
func fit(all []example) *listen.Classifier {
	r := rand.New(rand.NewPCG(7, 7))
	n := &network{}
	n.measure(all)
	for i := range n.w {
		width := float64(listen.FeatureCount)
		if i >= outWeights {
			width = listen.HiddenCount
		}
		n.w[i] = float32(r.NormFloat64() / math.Sqrt(width))
	}
	x := n.scaled(all)
	order := r.Perm(len(all))
	steps, last := 0, epochs*len(all)/batchSize
	for range epochs {
		r.Shuffle(len(order), func(i, j int) { order[i], order[j] = order[j], order[i] })
		for at := 0; at+batchSize <= len(order); at += batchSize {
			clear(n.gradient[:])
			for _, k := range order[at : at+batchSize] {
				n.add(&x[k], all[k].note)
			}
			steps++
			n.step(steps, fitRate*0.5*(1+math.Cos(math.Pi*float64(steps)/float64(last+1))))
		}
	}
	return n.classifier()
}

// measure finds the mean and the spread of each feature.
func (n *network) measure(all []example) {
	for _, s := range all {
		for i, v := range s.features {
			n.mean[i] += float64(v) / float64(len(all))
		}
	}
	for _, s := range all {
		for i, v := range s.features {
			d := float64(v) - n.mean[i]
			n.spread[i] += d * d / float64(len(all))
		}
	}
	for i, v := range n.spread {
		n.spread[i] = math.Sqrt(v + 1e-6)
	}
}

func (n *network) scaled(all []example) [][inputs]float32 {
	x := make([][inputs]float32, len(all))
	for k := range all {
		for i, v := range all[k].features {
			x[k][i] = float32((float64(v) - n.mean[i]) / n.spread[i])
		}
		x[k][listen.FeatureCount] = 1
	}
	return x
}

// add adds one example to the gradient of the loss.
func (n *network) add(x *[inputs]float32, note float32) {
	z := n.w[weights-1]
	for h := range listen.HiddenCount {
		sum := float32(0)
		for i, w := range n.w[h*inputs : (h+1)*inputs] {
			sum += w * x[i]
		}
		n.hidden[h] = float32(math.Tanh(float64(sum)))
		z += n.w[outWeights+h] * n.hidden[h]
	}
	miss := float32(listen.Probability(float64(z))) - note
	n.gradient[weights-1] += miss
	for h, y := range n.hidden {
		n.gradient[outWeights+h] += miss * y
		back := miss * n.w[outWeights+h] * (1 - y*y)
		row := n.gradient[h*inputs : (h+1)*inputs]
		for i := range row {
			row[i] += back * x[i]
		}
	}
}

func (n *network) step(number int, speed float64) {
	rise := 1 - math.Pow(keepSlope, float64(number))
	rise2 := 1 - math.Pow(keepSquares, float64(number))
	for i := range n.w {
		slope := n.gradient[i]/batchSize + shrinkage*n.w[i]
		n.first[i] = keepSlope*n.first[i] + (1-keepSlope)*slope
		n.second[i] = keepSquares*n.second[i] + (1-keepSquares)*slope*slope
		n.w[i] -= float32(speed * float64(n.first[i]) / rise / (math.Sqrt(float64(n.second[i])/rise2) + 1e-8))
	}
}

// classifier takes the scale of the features into the weights.
func (n *network) classifier() *listen.Classifier {
	c := &listen.Classifier{}
	for h := range listen.HiddenCount {
		bias := float64(n.w[h*inputs+listen.FeatureCount])
		for i := range listen.FeatureCount {
			w := float64(n.w[h*inputs+i]) / n.spread[i]
			c.Hidden[h][i] = float32(w)
			bias -= w * n.mean[i]
		}
		c.Hidden[h][listen.FeatureCount] = float32(bias)
		c.Out[h] = n.w[outWeights+h]
	}
	c.Out[listen.HiddenCount] = n.w[weights-1]
	return c
}
