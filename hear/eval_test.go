package hear

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"sort"
	"testing"
)

var (
	evalTakes = flag.Int("eval", 0, "takes in each set of the evaluation")
	evalKeep  = flag.String("eval.keep", "", "folder that keeps the rendered takes")
	evalSeed  = flag.Uint64("eval.seed", 1, "")
	evalShow  = flag.Int("eval.show", 0, "show errors")
	evalFont  = flag.String("eval.font", fluidFont, "")
	evalSets  = flag.String("eval.sets", "clean,room,noise,bleed", "")
)

// takeFile renders a take in a setting and returns the WAV.
func takeFile(t testing.TB, tk take, setting string, r *rand.Rand) []byte {
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
		os.WriteFile(key, b, 0o600)
	}
	return b
}

func drawTake(seed uint64) (take, *rand.Rand) {
	r := rand.New(rand.NewPCG(seed, 6))
	p := drawPlayer(r, 24+int(seed%7))
	tk := perform(r, randomExercise(r, p, 40+r.IntN(14)), p)
	tk.name = fmt.Sprintf("take-%d", seed)
	return tk, r
}
func TestEval(t *testing.T) {
	if *evalTakes == 0 {
		t.Skip("the evaluation runs with -eval TAKES")
	}
	for si, setting := range []string{"clean", "room", "noise", "bleed"} {
		if !bytes.Contains([]byte(*evalSets), []byte(setting)) {
			continue
		}
		paired, truth, heardN := 0, 0, 0
		var late []float64
		for k := range *evalTakes {
			seed := *evalSeed*100000 + uint64(si)*10000 + uint64(k)
			tk, r := drawTake(seed)
			file := takeFile(t, tk, setting, r)
			src, err := Decode(bytes.NewReader(file))
			if err != nil {
				t.Fatal(err)
			}
			heard, _, err := Hear(context.Background(), src, Options{Lowest: 40})
			if err != nil {
				t.Error(err)
				continue
			}
			pairs := matchNotes(tk.played, tk.cents, heard)
			got := 0
			used := map[int]bool{}
			for i, j := range pairs {
				if j >= 0 {
					got++
					used[j] = true
					late = append(late, 1000*(heard[j].OnsetS-tk.played[i].onS))
				}
			}
			paired += got
			truth += len(tk.played)
			heardN += len(heard)
			f := fMeasure(got, len(tk.played), len(heard))
			if *evalShow > 0 && f < 0.99 {
				p := tk.played[0]
				fmt.Printf("%s %s F=%.3f prog %d tempo %.0f %s cents %.0f  %v\n", tk.name, setting, f, tk.program, tk.tempo, tk.exercise.Rhythm.Value, tk.cents, p.legato)
				if *evalShow > 1 {
					for i, j := range pairs {
						if j < 0 {
							n := tk.played[i]
							fmt.Printf("   lost  %.3f-%.3f key %d vel %d legato %v; near:", n.onS, n.offS, n.key, n.velocity, n.legato)
							for _, h := range heard {
								if h.OnsetS > n.onS-0.1 && h.OnsetS < n.onS+0.1 {
									fmt.Printf(" %.3f:%.2f", h.OnsetS, h.MIDI-tk.cents/100)
								}
							}
							fmt.Println()
						}
					}
					for j, h := range heard {
						if !used[j] {
							fmt.Printf("   extra %.3f-%.3f %.2f conf %.2f level %.0f\n", h.OnsetS, h.OffsetS, h.MIDI-tk.cents/100, h.Confidence, h.Level)
						}
					}
				}
			}
		}
		sort.Float64s(late)
		fmt.Printf("%-6s F %.4f  P %.4f R %.4f  truth %d  onset ms 5%%/50%%/95%% %.1f %.1f %.1f\n", setting, fMeasure(paired, truth, heardN), float64(paired)/float64(heardN), float64(paired)/float64(truth), truth, late[len(late)/20], late[len(late)/2], late[len(late)*19/20])
	}
}
