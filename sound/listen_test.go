package sound

import (
	"flag"
	"heddle/audio"
	"os"
	"path/filepath"
	"testing"
)

// listen is a folder to write the demo exercises to, over every vamp, as mixes
// and as single parts: what to hear and to measure after a change of sound.
var listen = flag.String("listen", "", "folder to write demo files to")

func TestWriteDemosToListenTo(t *testing.T) {
	if *listen == "" {
		t.Skip("no -listen folder given: nothing to write")
	}
	for _, demo := range demos(t) {
		for _, vamp := range Vamps() {
			for _, part := range append(Parts(), -1) {
				name := demo.name + ", " + string(vamp)
				if part >= 0 {
					name += ", " + part.String()
				}
				f, err := os.Create(filepath.Join(*listen, name+".wav"))
				must(t, err)
				w, err := audio.NewWAV(f, audio.Float32, audio.Tags{Title: name, Tempo: demo.ex.Tempo})
				must(t, err)
				o := DefaultOptions()
				o.Vamp, o.Loops, o.Voice = vamp, 2, true
				if part < 0 {
					_, err = Render(t.Context(), demo.ex, o, w)
				} else {
					_, err = RenderPart(t.Context(), demo.ex, o, part, w)
				}
				must(t, err)
				must(t, f.Close())
			}
		}
	}
}
