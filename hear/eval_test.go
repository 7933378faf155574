package hear_test

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
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

