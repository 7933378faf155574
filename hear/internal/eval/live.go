package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"math/rand/v2"

	"heddle/audio"
	"heddle/exercise"
	"heddle/hear"
	"heddle/hear/internal/listen"
	"heddle/hear/internal/performance"
	"heddle/hear/internal/stats"
	"heddle/hear/internal/synthetic"
	"heddle/pitch"
)

// A liveTally compares a Follower's verdicts with those on the recording, and both
// with what was deserved. A first verdict is in time when it comes within inTimeMS
// of the note's second period; a right note that first gets "missed" is not in time.
// Periods count from when a note sounds.
type liveTally struct {
	notes, agreed  int
	rights, lost   int
	wrongs, passed int
	inTime         int       // first verdicts on right notes
	amended        int       // notes whose first verdict was not the last
	waitsMS        []float64 // from a right note's second period to its first verdict
}

// inTimeMS is when a verdict is due, after a note's second period.
const inTimeMS = 60

// live writes how well takes are marked while they are played.
func (e *evaluation) live(w io.Writer) error {
	fmt.Fprintf(w, `## While it is played

The same, to a click, in blocks of 10 ms. In time: the first verdict on a right note
within %d ms of its second period, counted in samples. The wait is from the second
period to the first verdict: median, 95 %% and 99 %%.

| setting | notes | as on the recording | right lost | wrong called right | in time | wait, ms | first verdict not the last |
| --- | --- | --- | --- | --- | --- | --- | --- |
`, inTimeMS)
	late := map[int]map[int]float64{}
	for s, setting := range performance.Settings {
		var y liveTally
		for k := range e.takes {
			tk, clickS, r, err := performance.DrawClicked(e.seed*100000 + uint64(s)*10000 + uint64(k))
			if err != nil {
				return err
			}
			if late[tk.Program] == nil {
				if late[tk.Program], err = soundingLate(e.guitar, tk.Program); err != nil {
					return err
				}
			}
			file, err := performance.Record(e.guitar, tk, setting, e.chained, r)
			if err != nil {
				return err
			}
			if err := y.add(tk, file, clickS, late[tk.Program]); err != nil {
				return fmt.Errorf("%s in %s: %w", tk.Name, setting, err)
			}
		}
		fmt.Fprintf(w, "| %s | %d | %s | %s of %d | %d of %d | %s | %.0f, %.0f, %.0f | %s |\n",
			setting, y.notes, percent(share(y.agreed, y.notes)), percent(share(y.lost, y.rights)), y.rights, y.passed, y.wrongs, percent(share(y.inTime, y.rights)),
			stats.Median(y.waitsMS), stats.Quantile(y.waitsMS, 0.95), stats.Quantile(y.waitsMS, 0.99), percent(share(y.amended, y.notes)))
	}
	return nil
}

// soundingLate is how long after its note-on each key of a program sounds, by the
// rise of its energy: the overdriven guitar of FluidR3 takes 20 ms.
func soundingLate(g performance.Guitar, program int) (map[int]float64, error) {
	const apartS = 0.7
	tk := performance.Take{Exercise: &exercise.Exercise{}, Program: program}
	for key := listen.LowestKey; key <= listen.HighestKey; key++ {
		onS := 0.1 + apartS*float64(key-listen.LowestKey)
		tk.Played = append(tk.Played, performance.Note{OnS: onS, OffS: onS + 0.5, Key: key, Velocity: 90, Index: -1})
	}
	x, err := g.Play(tk, rand.New(rand.NewPCG(1, 1)))
	if err != nil {
		return nil, err
	}
	late := map[int]float64{}
	for _, n := range tk.Played {
		at := int(n.OnS * synthetic.Rate)
		late[n.Key] = float64(performance.AttackIn(x[at:at+synthetic.Rate/2], synthetic.Rate)) / synthetic.Rate
	}
	return late, nil
}

func (y *liveTally) add(tk performance.Take, file []byte, clickS float64, late map[int]float64) error {
	x, err := performance.Samples(file)
	if err != nil {
		return err
	}
	first, last, cameS, err := follow(tk.Exercise, x, clickS)
	if err != nil {
		return err
	}
	source, err := audio.Decode(bytes.NewReader(file))
	if err != nil {
		return err
	}
	report, err := hear.MarkTake(context.Background(), source, tk.Exercise, hear.TakeOptions{Clicked: true, ClickS: clickS})
	if err != nil {
		return err
	}
	for i, deserved := range tk.Verdicts {
		y.notes++
		if first[i] != last[i] {
			y.amended++
		}
		if last[i] == report.Marks[i].Verdict {
			y.agreed++
		}
		switch deserved {
		case hear.Right:
			y.rights++
			if last[i] != hear.Right {
				y.lost++
			}
		case hear.Wrong:
			y.wrongs++
			if last[i] == hear.Right {
				y.passed++
			}
		}
	}
	for _, n := range tk.Played {
		if n.Index < 0 || tk.Verdicts[n.Index] != hear.Right {
			continue
		}
		soundsS := n.OnS
		if !n.Legato {
			soundsS += late[n.Key]
		}
		waitMS := 1000 * (cameS[n.Index] - soundsS - 2/pitch.Frequency(float64(n.Key)))
		y.waitsMS = append(y.waitsMS, waitMS)
		if waitMS <= inTimeMS && first[n.Index] != hear.Missed {
			y.inTime++
		}
	}
	return nil
}

// follow feeds a take to a Follower in blocks of 10 ms, with a second of silence
// after it, and returns the first and the last verdict on each note and when the
// first came.
func follow(ex *exercise.Exercise, x []float32, clickS float64) (first, last map[int]hear.Verdict, cameS map[int]float64, err error) {
	f, err := hear.NewFollower(synthetic.Rate, ex, clickS)
	if err != nil {
		return nil, nil, nil, err
	}
	first, last, cameS = map[int]hear.Verdict{}, map[int]hear.Verdict{}, map[int]float64{}
	x = append(x, make([]float32, synthetic.Rate)...)
	const block = synthetic.Rate / 100
	for at := 0; at < len(x); at += block {
		end := min(at+block, len(x))
		for _, m := range f.Feed(x[at:end]) {
			if _, ok := last[m.Index]; !ok {
				first[m.Index], cameS[m.Index] = m.Verdict, float64(end)/synthetic.Rate
			}
			last[m.Index] = m.Verdict
		}
	}
	return first, last, cameS, nil
}
