package sound

import (
	"os"
	"testing"
)

func TestListen(t *testing.T) {
	dir := os.Getenv("LISTEN")
	if dir == "" {
		t.Skip("set LISTEN")
	}
	for _, v := range Vamps() {
		for _, p := range append(Parts(), -1) {
			name := "mix"
			if p >= 0 {
				name = p.String()
			}
			f, _ := os.Create(dir + "/" + string(v) + "-" + name + ".wav")
			w, _ := NewWAV(f, Float32, Tags{Title: "Gm7 vamp", Tempo: 84})
			ex := gMinorVamp(t)
			if v == SwingVamp {
				ex = bluesInA(t)
			}
			o := DefaultOptions()
			o.Vamp, o.Loops = v, 2
			o.Voice = true
			var err error
			if p < 0 {
				_, err = Render(t.Context(), ex, o, w)
			} else {
				_, err = RenderPart(t.Context(), ex, o, p, w)
			}
			if err != nil {
				t.Fatal(err)
			}
			f.Close()
		}
	}
}
