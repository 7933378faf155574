package main

import (
	"math"

	"heddle/audio"
	"heddle/exercise"
	"heddle/hear/internal/accuracy"
	"heddle/hear/internal/listen"
	"heddle/hear/internal/performance"
	"heddle/hear/internal/spectral"
	"heddle/hear/internal/synthetic"
)

// An example is a candidate of a take's moment and whether a note of its pitch
// began there.
type example struct {
	guitar, setting, moment int
	live                    bool
	features                [listen.FeatureCount]float32
	note                    float32
}

// mostMoments is more than any take has.
const mostMoments = 10000

// examplesOf are the examples of one take, as a recording and live.
func (f *fitting) examplesOf(guitar, setting, k int) (all []example, err error) {
	var tk performance.Take
	var x []float32
	opts := listen.Options{Lowest: listen.LowestKey, Highest: listen.HighestKey}
	if guitar == len(f.guitars) {
		x = withoutNotes(k)
	} else {
		seed := f.seed*1000000 + uint64(guitar)*100000 + uint64(setting)*10000 + uint64(k)
		if tk, x, err = f.take(f.guitars[guitar], seed, k, performance.Settings[setting]); err != nil {
			return nil, err
		}
		opts = optionsFor(tk.Exercise)
	}
	x = audio.NewResampler(synthetic.Rate, spectral.Rate).Feed(nil, x)
	for half, live := range []bool{false, true} {
		opts.Live = live
		for _, e := range label(tk, listen.Moments(x, opts)) {
			e.guitar, e.setting, e.live, e.moment = guitar, setting, live, e.moment+half*mostMoments
			all = append(all, e)
		}
	}
	return all, nil
}

// optionsFor bounds what is heard by the lowest string and the highest note.
func optionsFor(ex *exercise.Exercise) listen.Options {
	opts := listen.Options{Lowest: float64(ex.Instrument.Lowest().MIDI()), Doubts: true}
	for _, n := range ex.Notes {
		opts.Highest = min(listen.HighestKey, max(opts.Highest, float64(n.Pitch.MIDI()+12)))
	}
	return opts
}

// label says of each candidate whether it was a note. Several moments may show the
// same note: the likeliest is the note, and the others are left out.
func label(tk performance.Take, moments []listen.Moment) (all []example) {
	type place struct{ moment, candidate int }
	is, shows := map[place]bool{}, map[place]bool{}
	for _, n := range tk.Notes() {
		best, top := place{-1, -1}, math.Inf(-1)
		for i := range moments {
			m := &moments[i]
			off := math.Abs(m.OnsetS - n.OnsetS)
			if off > accuracy.OnsetWithinS {
				continue
			}
			for c := range m.Candidates {
				if math.Abs(m.Candidates[c].MIDI-n.MIDI) > accuracy.PitchWithinKeys {
					continue
				}
				at := place{i, c}
				shows[at] = true
				worth := m.Candidates[c].LogOdds - 3*off/accuracy.OnsetWithinS
				if !is[at] && worth > top {
					best, top = at, worth
				}
			}
		}
		if best.moment >= 0 {
			is[best] = true
		}
	}
	for i := range moments {
		for c := range moments[i].Candidates {
			at := place{i, c}
			if shows[at] && !is[at] {
				continue
			}
			e := example{moment: i, features: moments[i].Candidates[c].Features}
			if is[at] {
				e.note = 1
			}
			all = append(all, e)
		}
	}
	return repeatIntro(all)
}

// introTimes is how often an example from before a take's first note is given: a
// count-in is short, but each of its beeps that is taken for a note is one note too
// many in a flawless take.
const introTimes = 5

// repeatIntro gives the examples from before the first note several times. A take
// without notes has no intro.
func repeatIntro(all []example) (more []example) {
	first := 0
	for _, e := range all {
		if e.note == 1 {
			first = e.moment
			break
		}
	}
	for _, e := range all {
		more = append(more, e)
		for n := 1; n < introTimes && e.moment < first; n++ {
			more = append(more, e)
		}
	}
	return more
}
