package notefile

import (
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"heddle/exercise"
	"heddle/internal/need"
	"heddle/notefile/sheet"
)

const engraver = "testdata/verovio"

// An engraving is what verovio (npm, 6.3.0) understood of a file.
type engraving struct {
	File  string
	Log   []string
	Notes []struct {
		ID              string
		Pitch           int
		Onset, Duration float64
	}
}

// engrave reads files with verovio, or skips.
func engrave(t *testing.T, files ...string) []engraving {
	t.Helper()
	node := need.Program(t, "verovio checks MusicXML and runs on it", "node")
	need.File(t, "verovio checks MusicXML (npm ci --prefix notefile/"+engraver+")", filepath.Join(engraver, "node_modules", "verovio"))
	command := exec.Command(node, append([]string{"engrave.mjs"}, files...)...)
	command.Dir = engraver
	command.Stderr = os.Stderr
	out, err := command.Output()
	if err != nil {
		t.Fatal(err)
	}
	var read []engraving
	for _, row := range strings.Split(strings.TrimSpace(string(out)), "\n") {
		var e engraving
		if err := json.Unmarshal([]byte(row), &e); err != nil {
			t.Fatalf("%v in %.200s", err, row)
		}
		read = append(read, e)
	}
	if len(read) != len(files) {
		t.Fatalf("%d of %d files reported", len(read), len(files))
	}
	return read
}

// noBends is what verovio says of a bend in tablature, which it has no sign for.
const noBends = "[Error] Adding 'artic' to a 'tabGrp'"

func bends(ex *exercise.Exercise) bool {
	return slices.ContainsFunc(ex.Notes, func(n exercise.Note) bool { return n.Touch.Bend > 0 })
}

func TestVerovioReadsTheSameNotes(t *testing.T) {
	files := writeSamples(t)
	made := samples(t)
	for i, e := range engrave(t, files...) {
		e.Log = slices.DeleteFunc(e.Log, func(line string) bool { return line == noBends && bends(made[i]) })
		if len(e.Log) > 0 {
			t.Errorf("%s: %q", sampleName(i, made[i]), e.Log)
		}
		for _, staff := range []string{"note", "tab"} {
			compareEngraving(t, sampleName(i, made[i]), staff, e, made[i])
		}
	}
}

// compareEngraving compares one staff with the exercise. The pieces of a tied
// note are added up; time begins at the first bar of the page.
func compareEngraving(t *testing.T, name, staff string, e engraving, ex *exercise.Exercise) {
	t.Helper()
	bars, err := sheet.Bars(ex)
	if err != nil {
		t.Fatal(err)
	}
	origin := bars[0].Start.Quarters()
	type sound struct {
		pitch         int
		onset, length float64
	}
	heard := map[string]*sound{}
	for _, n := range e.Notes {
		kind, rest, _ := strings.Cut(n.ID, "-")
		if kind != staff {
			continue
		}
		index, _, _ := strings.Cut(rest, "-")
		if s := heard[index]; s != nil {
			s.length += n.Duration
			continue
		}
		heard[index] = &sound{n.Pitch, n.Onset + origin, n.Duration}
	}
	if len(heard) != len(ex.Notes) {
		t.Errorf("%s: %d notes on the %s staff, want %d", name, len(heard), staff, len(ex.Notes))
	}
	// Verovio counts in fractions of its own; a tenth of a beat is far finer.
	const tolerance = 1e-4
	for i, n := range ex.Notes {
		// Verovio plays tablature without the capo, and a bent note as it is stopped.
		key := n.Pitch.MIDI()
		if staff == "tab" {
			key -= ex.Instrument.Capo + n.Touch.Bend.Below()
		}
		s := heard[strconv.Itoa(i)]
		if s == nil {
			t.Errorf("%s: note %d is missing on the %s staff", name, i, staff)
			return
		}
		if s.pitch != key || math.Abs(s.onset-n.Start.Quarters()) > tolerance || math.Abs(s.length-n.Duration.Quarters()) > tolerance {
			t.Errorf("%s: note %d on the %s staff is %+v, want %s (%d) at %g for %g", name, i, staff, *s, n.Pitch, key, n.Start.Quarters(), n.Duration.Quarters())
			return
		}
	}
}

// The check above means something only if verovio's complaints are heard.
func TestVerovioComplainsOfAFault(t *testing.T) {
	file := filepath.Join(t.TempDir(), "fault.musicxml")
	if err := os.WriteFile(file, []byte(musicXML(`<attributes><divisions>1</divisions><clef><sign>TAB</sign><line>5</line></clef></attributes>
<note><pitch><step>E</step><octave>4</octave></pitch><duration>1</duration><type>quarter</type>
<notations><technical><string>1</string><fret>0</fret><down-bow/></technical></notations></note>`)), 0o600); err != nil {
		t.Fatal(err)
	}
	if e := engrave(t, file)[0]; len(e.Log) == 0 {
		t.Fatal("a bow on a tablature number was taken without a word")
	}
}
