package hear

import (
	"flag"
	"fmt"
	"math"
	"testing"
)

var fit = flag.Bool("fit", false, "fit the weights of evidence to the takes of -eval")

// A sample is a moment's evidence and whether a note began there.
type sample struct {
	setting string
	x       [evidenceCount]float64
	note    float64
	again   bool
}

// TestFit fits the weights of evidence by logistic regression on the open
// part of the evaluation.
func TestFit(t *testing.T) {
	if !*fit {
		t.Skip("the weights are fitted with -fit -eval TAKES")
	}
	g := chosenGuitar(t)
	var all []sample
	for si, setting := range []string{"clean", "room", "noise", "bleed"} {
		n, lost, wrong := 0, 0, 0
		for k := range *evalTakes {
			tk, r := drawTake(t, *evalSeed*100000+uint64(si)*10000+uint64(k))
			x := samples(t, takeFile(t, g, tk, setting, r))
			s, l, w := momentSamples(tk, setting, x)
			all = append(all, s...)
			n, lost, wrong = n+len(tk.played), lost+l, wrong+w
		}
		fmt.Printf("%s: %d notes, %d without a moment, %d with a wrong pitch\n", setting, n, lost, wrong)
	}
	weights := map[bool][evidenceCount]float64{}
	for _, again := range []bool{false, true} {
		w := logistic(all, again)
		weights[again] = w
		fmt.Printf("var %s = [evidenceCount]float64{", map[bool]string{false: "freshWeights", true: "againWeights"}[again])
		for i, v := range w {
			if i%6 == 0 {
				fmt.Println()
			}
			fmt.Printf("%.2f, ", v)
		}
		fmt.Println("\n}")
	}
	for _, setting := range []string{"clean", "room", "noise", "bleed"} {
		pos, fn, fp := 0, 0, 0
		for _, s := range all {
			if s.setting != setting {
				continue
			}
			z := 0.0
			for i, x := range s.x {
				z += weights[s.again][i] * x
			}
			if s.note == 1 {
				pos++
				if z < 0 {
					fn++
				}
			} else if z > 0 {
				fp++
			}
		}
		fmt.Printf("%s pos %d fn %d fp %d\n", setting, pos, fn, fp)
	}
}

func momentSamples(tk take, setting string, x []float32) (out []sample, lost, wrong int) {
	var moments []moment
	tr := newTranscript(OptionsFor(tk.exercise))
	tr.ear.report = func(m moment) {
		moments = append(moments, m)
		tr.take(m)
	}
	tr.ear.hear(newResampler(renderRate).feed(nil, x))
	tr.ear.hear(make([]float32, rate/4))
	label := make([]int, len(moments)) // 1 for a note's own moment, −1 for another of the same note
	for _, p := range tk.played {
		best, any := -1, false
		for j, m := range moments {
			if math.Abs(m.onsetS-p.onS) > onsetWithinS {
				continue
			}
			any = true
			if math.Abs(m.midi-float64(p.key)-tk.cents/100) > pitchWithinKeys || label[j] == 1 {
				continue
			}
			label[j] = -1
			if best < 0 || m.flux > moments[best].flux {
				best = j
			}
		}
		switch {
		case best >= 0:
			label[best] = 1
		case any:
			wrong++
		default:
			lost++
		}
	}
	if *evalShow > 0 {
		for j, m := range moments {
			o := m.odds()
			if m.prevMIDI > 0 && m.onsetS-m.prevS < strokeS || label[j] < 0 || (o > 0) == (label[j] == 1) {
				continue
			}
			near := ""
			for _, p := range tk.played {
				if math.Abs(p.onS-m.onsetS) < 0.08 {
					near += fmt.Sprintf(" %+.0fms:%d(vel %d)", 1000*(p.onS-m.onsetS), p.key, p.velocity)
				}
			}
			fmt.Printf("ERR %s %s prog %d %s want %d odds %.2f at %.3f midi %.2f flux %.2f still %.2f fresh %.2f mar %.2f con %.2f like %.2f before %.2f prevlike %.2f rise %.0f under %.0f look %.3f prev %.2f@%.3f off %.2f |%s\n", setting, tk.name, tk.program, tk.touch, label[j], o, m.onsetS, m.midi-tk.cents/100, m.flux, m.stillness, m.freshness, m.margin, m.contrast, m.likeness, m.likenessBefore, m.likenessPrev, m.riseDB, m.underDB, m.lookS, m.prevMIDI-tk.cents/100, m.prevS, m.offTune, near)
		}
	}
	for j, m := range moments {
		if m.prevMIDI > 0 && m.onsetS-m.prevS < strokeS && label[j] != 1 || label[j] < 0 {
			continue
		}
		out = append(out, sample{setting: setting, x: m.evidence(), again: m.again(), note: float64(label[j])})
	}
	return out, lost, wrong
}

func logistic(all []sample, again bool) [evidenceCount]float64 {
	var w, step [evidenceCount]float64
	for range 3000 {
		var slope [evidenceCount]float64
		count := 0.0
		for _, s := range all {
			if s.again != again {
				continue
			}
			count++
			z := 0.0
			for i, x := range s.x {
				z += w[i] * x
			}
			miss := 1/(1+math.Exp(-z)) - s.note
			for i, x := range s.x {
				slope[i] += miss * x
			}
		}
		for i := range w {
			step[i] = 0.9*step[i] + slope[i]/count + 1e-5*w[i]
			w[i] -= 0.5 * step[i]
		}
	}
	return w
}
