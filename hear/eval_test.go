package hear

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"
)

var (
	evalTakes = flag.Int("eval", 0, "takes in each set of the evaluation")
	evalKeep  = flag.String("eval.keep", "", "folder that keeps the rendered takes")
	evalSeed  = flag.Uint64("eval.seed", 1, "1 for the open part, others are held out")
	evalShow  = flag.Int("eval.show", 0, "1 to show takes below the mark, 2 to show their notes")
	evalFont  = flag.String("eval.font", fluidFont, "sound font of the guitars")
)

var evalSettings = []string{"clean", "room", "noise", "bleed"}

// takeFile renders a take in a setting and returns the WAV.
func takeFile(t testing.TB, tk take, setting string, r *rand.Rand) []byte {
	t.Helper()
	key := ""
	if *evalKeep != "" {
		key = filepath.Join(*evalKeep, tk.name+"-"+setting+".wav")
		if b, err := os.ReadFile(key); err == nil {
			return b
		}
	}
	x := fluidsynth(t, *evalFont, tk.events())
	switch setting {
	case "room":
		x = room(x, r, 0.3+0.4*r.Float64(), 4+4*r.Float64())
	case "noise":
		x = noisy(x, r, 20)
	case "bleed":
		x = mixed(x, fluidsynth(t, fluidFont, vamp(r, tk.tempo, float64(len(x))/renderRate)), 12)
	}
	b := wavFile(levelled(x, 0.15+0.7*float32(r.Float64())), renderRate)
	if key != "" {
		if err := os.WriteFile(key, b, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return b
}

func drawTake(t testing.TB, seed uint64) (take, *rand.Rand) {
	t.Helper()
	r := rand.New(rand.NewPCG(seed, 6))
	p := drawPlayer(r, 24+int(seed%7))
	tk := perform(r, randomExercise(t, r, p), p)
	tk.name = fmt.Sprintf("take-%d", seed)
	return tk, r
}

// A tally adds up what the evaluation counts.
type tally struct {
	truth, heard, paired, missingPitch int
	lateMS                             []float64
	verdicts                           map[string][2]int // by true verdict: all, and marked so
	extraTrue, extraMarked, extraFalse int
	tuning                             []float64
}

func (y *tally) add(tk take, rep *Report) {
	if y.verdicts == nil {
		y.verdicts = map[string][2]int{}
	}
	y.truth += len(tk.played)
	y.heard += len(rep.Heard)
	for i, j := range matchNotes(tk.played, tk.cents, rep.Heard) {
		if j >= 0 {
			y.paired++
			y.lateMS = append(y.lateMS, 1000*(rep.Heard[j].OnsetS-tk.played[i].onS))
		}
	}
	for i, want := range tk.verdicts {
		v := y.verdicts[want]
		v[0]++
		if string(rep.Marks[i].Verdict) == want {
			v[1]++
		}
		y.verdicts[want] = v
		if want == "wrong" && rep.Marks[i].Verdict == Missed {
			w := y.verdicts["wrong as missed"]
			w[0]++
			w[1]++
			y.verdicts["wrong as missed"] = w
		}
	}
	y.extraTrue += tk.extras
	y.extraMarked += len(rep.Extra)
	y.tuning = append(y.tuning, math.Abs(rep.TuningCents-tk.cents))
}

func (y *tally) String() string {
	abs := make([]float64, len(y.lateMS))
	for i, l := range y.lateMS {
		abs[i] = math.Abs(l)
	}
	share := func(v [2]int) float64 { return 100 * float64(v[1]) / float64(max(v[0], 1)) }
	right, wrong, missed, wm := y.verdicts["right"], y.verdicts["wrong"], y.verdicts["missed"], y.verdicts["wrong as missed"]
	return fmt.Sprintf("F %.4f (P %.4f R %.4f, %d notes) onset |ms| %.1f bias %.1f | right lost %.2f%% of %d | wrong %.1f%%+%d of %d | missed %.1f%% of %d | extra %d of %d | tuning %.1f c",
		fMeasure(y.paired, y.truth, y.heard), float64(y.paired)/float64(y.heard), float64(y.paired)/float64(y.truth), y.truth,
		median(abs), median(y.lateMS), 100-share(right), right[0], share(wrong), wm[0], wrong[0], share(missed), missed[0], y.extraMarked, y.extraTrue, quantile(y.tuning, 0.9))
}

func markFile(t testing.TB, file []byte, tk take) *Report {
	t.Helper()
	src, err := Decode(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	heard, tuning, err := Hear(context.Background(), src, OptionsFor(tk.exercise))
	if err != nil {
		t.Error(tk.name, err)
	}
	return Mark(heard, tk.exercise, MarkOptions{Tuning: tuning})
}

func TestEval(t *testing.T) {
	if *evalTakes == 0 {
		t.Skip("the evaluation runs with -eval TAKES")
	}
	byProgram := map[string]*tally{}
	for si, setting := range evalSettings {
		var all tally
		for k := range *evalTakes {
			tk, r := drawTake(t, *evalSeed*100000+uint64(si)*10000+uint64(k))
			rep := markFile(t, takeFile(t, tk, setting, r), tk)
			all.add(tk, rep)
			for _, key := range []string{fmt.Sprint(tk.program), tk.touch} {
				if byProgram[key] == nil {
					byProgram[key] = &tally{}
				}
				byProgram[key].add(tk, rep)
			}
			show(tk, setting, rep)
		}
		fmt.Printf("%-6s %v\n", setting, &all)
	}
	for key, y := range byProgram {
		fmt.Printf("%-10s %v\n", key, y)
	}
}

func show(tk take, setting string, rep *Report) {
	if *evalShow == 0 {
		return
	}
	var one tally
	one.add(tk, rep)
	bad := one.verdicts["right"][0] - one.verdicts["right"][1] + one.verdicts["wrong"][0] - one.verdicts["wrong"][1] - one.verdicts["wrong as missed"][0]
	if bad == 0 && float64(one.paired)*2/float64(one.truth+one.heard) > 0.985 {
		return
	}
	fmt.Printf("%s %s prog %d %s tempo %.0f %s cents %.0f found %.0f %.1f: %v\n", setting, tk.name, tk.program, tk.touch, tk.tempo, tk.exercise.Rhythm.Value, tk.cents, rep.TuningCents, rep.Tempo, &one)
	if *evalShow < 2 {
		return
	}
	for i, want := range tk.verdicts {
		if m := rep.Marks[i]; string(m.Verdict) != want {
			at, key := -1.0, 0
			for _, p := range tk.played {
				if p.index == i {
					at, key = p.onS, p.key
				}
			}
			got := ""
			if m.Heard >= 0 {
				got = fmt.Sprintf("%.3f %.2f conf %.2f", rep.Heard[m.Heard].OnsetS, rep.Heard[m.Heard].MIDI-tk.cents/100, rep.Heard[m.Heard].Confidence)
			}
			fmt.Printf("   note %d (%d) want %s (%s) got %s; played %.3f %d heard %s\n", i, tk.exercise.Notes[i].Pitch.MIDI(), want, tk.mistake[i], m.Verdict, at, key, got)
		}
	}
	for i, j := range matchNotes(tk.played, tk.cents, rep.Heard) {
		if j < 0 {
			p := tk.played[i]
			fmt.Printf("   lost %.3f key %d vel %d index %d legato %v:", p.onS, p.key, p.velocity, p.index, p.legato)
			for _, h := range rep.Heard {
				if math.Abs(h.OnsetS-p.onS) < 0.1 {
					fmt.Printf(" %+.0f:%.2f", 1000*(h.OnsetS-p.onS), h.MIDI-tk.cents/100)
				}
			}
			fmt.Println()
		}
	}
}
