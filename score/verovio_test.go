package score

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"heddle/notefile"
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
// Both start from notes and end with SVG: verovio from our MusicXML, which it
// parses and of which it engraves staff and tablature; ours from the exercise,
// names, degrees, roughness and brackets included.
func TestTimeAndSizeBesideVerovio(t *testing.T) {
	if testing.Short() {
		t.Skip("-short: speed and size are not compared with verovio")
	}
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("node is not installed: speed and size are not compared with verovio")
	}
	if _, err := os.Stat(filepath.Join(verovioFolder, "node_modules", "verovio")); err != nil {
		t.Skip("verovio is not installed (npm ci in notefile/testdata/verovio): speed and size are not compared with it")
	}
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
			if err := WriteSVG(&picture, Sheet(ex, Options{})); err != nil {
				b.Fatal(err)
			}
		}
	})
	ours := float64(took.NsPerOp()) / 1e6
	t.Logf("%d notes: verovio %.1f ms and %d bytes of SVG, score %.2f ms and %d bytes", len(ex.Notes), theirs.MS, theirs.Bytes, ours, picture.Len())
	if ours > theirs.MS {
		t.Errorf("score takes %.2f ms, verovio %.2f", ours, theirs.MS)
	}
}
