package hear

import (
	"fmt"
	"os"
	"strconv"
	"testing"
)

func TestOne(t *testing.T) {
	seed, _ := strconv.ParseUint(os.Getenv("SEED"), 10, 64)
	tk, r := drawTake(seed)
	set := os.Getenv("SET")
	rep := markFile(t, takeFile(t, tk, set, r), tk)
	at, _ := strconv.ParseFloat(os.Getenv("AT"), 64)
	for _, p := range tk.played {
		if p.onS > at-0.7 && p.onS < at+0.7 {
			fmt.Printf("played %.3f %d idx %d undone %v vel %d\n", p.onS, p.key, p.index, p.undone, p.velocity)
		}
	}
	for j, h := range rep.Heard {
		if h.OnsetS > at-0.7 && h.OnsetS < at+0.7 {
			m := -1
			for _, k := range rep.Marks {
				if k.Heard == j {
					m = k.Index
				}
			}
			fmt.Printf("heard %d %.3f %.2f conf %.2f lev %.0f mark %d\n", j, h.OnsetS, h.MIDI-tk.cents/100, h.Confidence, h.Level, m)
		}
	}
	fmt.Println(rep.Extra, rep.Retried, rep.Tempo)
}
