package score_test

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"heddle/internal/need"
	"heddle/notefile"
	"heddle/score"
	"heddle/score/surface"
)

// verovioFolder holds a general-purpose engraver at a fixed version (npm
// verovio, see its package.json) and the script that runs it.
const verovioFolder = "../notefile/testdata/verovio"

// TestTimeAndSizeBesideVerovio engraves one exercise of 64 notes with both,
// on this machine and in this run, and reports the figures:
//
//	npm ci --prefix notefile/testdata/verovio
//	go test ./score -run BesideVerovio -v
//
// Both start from notes and end with SVG: verovio parses our MusicXML and
// engraves staff and tablature; ours draws the exercise with names, degrees,
// roughness and brackets.
func TestTimeAndSizeBesideVerovio(t *testing.T) {
	need.Long(t, "time and size are not shown beside verovio's")
	node := need.Program(t, "time and size are not shown beside verovio's", "node")
	need.File(t, "time and size are not shown beside verovio's", filepath.Join(verovioFolder, "node_modules", "verovio"))
	ex := sixtyFour(t)
	var file bytes.Buffer
	if err := notefile.WriteMusicXML(&file, ex); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "sixty-four.musicxml")
	if err := os.WriteFile(path, file.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	command := exec.Command(node, "engrave.mjs", "--time", "5", path)
	command.Dir = verovioFolder
	out, err := command.Output()
	if err != nil {
		t.Fatal(err)
	}
	var theirs struct {
		MS    float64
		Bytes int
	}
	if err := json.Unmarshal(bytes.TrimSpace(out), &theirs); err != nil {
		t.Fatalf("%v in %.200s", err, out)
	}
	var picture bytes.Buffer
	took := testing.Benchmark(func(b *testing.B) {
		for b.Loop() {
			picture.Reset()
			if err := surface.WriteSVG(&picture, score.Sheet(ex, score.Options{})); err != nil {
				b.Fatal(err)
			}
		}
	})
	ours := float64(took.NsPerOp()) / 1e6
	t.Logf("%d notes: verovio %.1f ms and %d bytes of SVG, score %.2f ms and %d bytes", len(ex.Notes), theirs.MS, theirs.Bytes, ours, picture.Len())
}
