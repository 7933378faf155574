package hear

import (
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"heddle/audio"
	"heddle/exercise"
)

// A liveTally compares the verdicts of a Follower with those of Mark on the
// same takes, and both with what was deserved. A first verdict is in time when
// it comes within inTimeMS of the note's second period; a right note that gets
// none but "missed" is not in time. Periods count from when a note sounds, which
// in a sound font may be some time after it was told to (soundingLate).
type liveTally struct {
	notes, agreed  int
	rights, lost   int
	wrongs, passed int
	inTime         int       // first verdicts on right notes
	amended        int       // notes whose first verdict was another than the last
	changed        int       // verdicts that were taken back
	waitsMS        []float64 // from a right note's second period to its first verdict
}

// inTimeMS is when a verdict is due, after a note's second period.
const inTimeMS = 60

func (y *liveTally) String() string {
	return fmt.Sprintf("%5d notes  agree with the file %6.2f%%  right lost %5.2f%% of %d  wrong passed %d of %d  in time %6.2f%%  wait ms median %.0f, 95%% %.0f, 99%% %.0f  first not last %d  taken back %d",
		y.notes, percent(y.agreed, y.notes), percent(y.lost, y.rights), y.rights, y.passed, y.wrongs,
		percent(y.inTime, y.rights), median(y.waitsMS), quantile(y.waitsMS, 0.95), quantile(y.waitsMS, 0.99), y.amended, y.changed)
}

// drawClicked draws a take that is played through to a click, and when the
// click's first bar line fell.
func drawClicked(t testing.TB, seed uint64) (tk take, clickS float64, r *rand.Rand) {
	t.Helper()
	r = rand.New(rand.NewPCG(seed, 7))
	p := drawPlayer(r, 24+int(seed%7))
	p.restart, p.stop, p.drift = false, false, 0
	tk = perform(r, randomExercise(t, r, p), p)
	tk.name = fmt.Sprintf("clicked-%d", seed)
	tk.exercise.Tempo = tk.tempo
	var starts []float64
	for _, n := range tk.played {
		if n.index >= 0 {
			starts = append(starts, n.onS-tk.exercise.Notes[n.index].Start.Quarters()*60/tk.tempo)
		}
	}
	return tk, median(starts), r
}

// followTake feeds a take to a Follower in blocks of 10 ms, with a second of
// silence behind it, and returns the first and the last verdict on each note
// and when the first came.
func followTake(t testing.TB, tk take, x []float32, clickS float64) (first map[int]Verdict, last map[int]Verdict, cameS map[int]float64, changed int) {
	t.Helper()
	f, err := NewFollower(renderRate, tk.exercise, clickS)
	if err != nil {
		t.Fatal(err)
	}
	first, last, cameS = map[int]Verdict{}, map[int]Verdict{}, map[int]float64{}
	x = append(x, make([]float32, renderRate)...)
	const block = renderRate / 100
	for at := 0; at < len(x); at += block {
		end := min(at+block, len(x))
		for _, m := range f.Feed(x[at:end]) {
			if was, ok := last[m.Index]; !ok {
				first[m.Index], cameS[m.Index] = m.Verdict, float64(end)/renderRate
			} else if was != m.Verdict {
				changed++
			}
			last[m.Index] = m.Verdict
		}
	}
	return first, last, cameS, changed
}

// soundingLate is how long after its note-on each key of a program sounds, by
// the rise of its energy: the overdriven guitar of FluidR3 takes 20 ms.
func soundingLate(t testing.TB, g guitar, program int) map[int]float64 {
	t.Helper()
	const apartS = 0.7
	tk := take{exercise: &exercise.Exercise{}, program: program}
	for key := lowestHeard; key <= highestHeard; key++ {
		onS := 0.1 + apartS*float64(key-lowestHeard)
		tk.played = append(tk.played, played{onS: onS, offS: onS + 0.5, key: key, velocity: 90, index: -1})
	}
	x := g.play(t, tk, rand.New(rand.NewPCG(1, 1)))
	late := map[int]float64{}
	for _, n := range tk.played {
		at := int(n.onS * renderRate)
		late[n.key] = float64(attackIn(x[at:at+renderRate/2], renderRate)) / renderRate
	}
	return late
}

func (y *liveTally) add(t testing.TB, tk take, file []byte, clickS float64, late map[int]float64) {
	t.Helper()
	first, last, cameS, changed := followTake(t, tk, samples(t, file), clickS)
	y.changed += changed
	source, err := audio.Decode(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	heard, tuning, err := Hear(context.Background(), source, OptionsFor(tk.exercise))
	if err != nil {
		t.Error(tk.name, err)
	}
	marks := Mark(heard, tuning, tk.exercise, TakeOptions{Clicked: true, ClickS: clickS}).Marks
	for i, deserved := range tk.verdicts {
		y.notes++
		if first[i] != last[i] {
			y.amended++
		}
		if last[i] == marks[i].Verdict {
			y.agreed++
		}
		switch Verdict(deserved) {
		case Right:
			y.rights++
			if last[i] != Right {
				y.lost++
			}
		case Wrong:
			y.wrongs++
			if last[i] == Right {
				y.passed++
			}
		}
	}
	for _, n := range tk.played {
		if n.index < 0 || tk.verdicts[n.index] != string(Right) {
			continue
		}
		soundsS := n.onS
		if !n.legato {
			soundsS += late[n.key]
		}
		waitMS := 1000 * (cameS[n.index] - soundsS - 2*lagOf(float64(n.key))/rate)
		y.waitsMS = append(y.waitsMS, waitMS)
		if waitMS <= inTimeMS && first[n.index] != Missed {
			y.inTime++
		}
	}
}

// TestEvalLive prints how live verdicts agree with those of the file.
func TestEvalLive(t *testing.T) {
	if *evalTakes == 0 {
		t.Skip("the evaluation runs with -eval TAKES")
	}
	g := chosenGuitar(t)
	late := map[int]map[int]float64{}
	for s, setting := range evalSettings {
		var all liveTally
		for k := range *evalTakes {
			tk, clickS, r := drawClicked(t, *evalSeed*100000+uint64(s)*10000+uint64(k))
			if late[tk.program] == nil {
				late[tk.program] = soundingLate(t, g, tk.program)
			}
			all.add(t, tk, takeFile(t, g, tk, setting, r), clickS, late[tk.program])
		}
		fmt.Printf("%-6s %v\n", setting, &all)
	}
}
