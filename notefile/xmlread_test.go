package notefile

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/google/go-cmp/cmp"

	"heddle/exercise"
	"heddle/notefile/melody"
)

// told writes a line briefly: pitch, beat and length in quarter notes, and
// string/fret, finger and stroke where they are known.
func told(notes []exercise.GivenNote) string {
	var words []string
	for _, n := range notes {
		word := fmt.Sprintf("%s@%.4g+%.4g", n.Pitch, n.Start.Quarters(), n.Duration.Quarters())
		if n.String > 0 {
			word += fmt.Sprintf(" s%df%d", n.String, n.Fret)
		}
		if n.Finger > 0 {
			word += fmt.Sprintf(" %d", n.Finger)
		}
		if n.Stroke != "" {
			word += " " + string(n.Stroke)
		}
		words = append(words, word)
	}
	return strings.Join(words, ", ")
}

// toldChords writes chords briefly.
func toldChords(chords []exercise.GivenChord) string {
	var words []string
	for _, c := range chords {
		words = append(words, fmt.Sprintf("%s@%g", c.Symbol, c.Start.Quarters()))
	}
	return strings.Join(words, " ")
}

// An account is what a test expects of an import.
type account struct {
	title, part, meter    string
	tempo, pickup         float64
	notes, chords, tuning string
	remarks               []string
}

// accountOf tells an import.
func accountOf(im melody.Import) account {
	var open []string
	for _, p := range im.Open {
		open = append(open, p.String())
	}
	return account{im.Title, im.Part, im.Rhythm.Meter.String(), im.Tempo, im.Rhythm.Pickup.Quarters(), told(im.Notes), toldChords(im.Chords), strings.Join(open, " "), im.Remarks}
}

func TestScoresOfManyStyles(t *testing.T) {
	for name, want := range map[string]account{
		"leadsheet.musicxml": {
			title: "Thursday Round", part: "Voice", meter: "4/4", tempo: 108, pickup: 0.5,
			notes:  "C5@-0.5+0.5, A4@0+1.5, G4@1.5+0.5, F4@2+0.6667, Ab4@2.667+0.3333, C#5@3+1.5, D5@4.5+3.5",
			chords: "Dm7@0 G7b9/B@2 Bbmaj7@4",
		},
		"guitar.musicxml": {
			title: "Slow Funk, Bar Nine", part: "Guitar (written an octave up)", meter: "2/4", tempo: 96, tuning: "E4 B3 G3 D3 A2 E2",
			notes: "G3@0+0.5 s4f5 1 down, Bb3@0.5+0.5 s4f8 hammer-on, C4@1+1 s3f5 up, F3@2+1.5 s4f3, D3@3.5+0.5 s4f0 slide",
			remarks: []string{
				"1 grace note left out",
				"repeats are not played out: every measure is read once",
			},
		},
		"timewise.musicxml": {
			title: "Blues für zwei", part: "Tenor", meter: "6/8", tempo: 90, pickup: 0.5,
			notes: "E4@-0.5+0.5, A3@0+1.5, C4@1.5+0.5, Bb3@2+1, A3@3+1, G3@5+2",
			remarks: []string{
				`the line is that of part 2 of 2: 1 "Accompaniment", 2 "Tenor"`,
				"the highest note of 1 chord is kept",
				"1 note in other voices left out",
				"1 cue note left out",
				"1 metre change left out",
				"1 quarter tone rounded to the semitone",
				"the first tempo (90) is kept; others left out",
			},
		},
		"tabpart.musicxml": {
			title: "tabpart", part: "Lead", meter: "4/4", tuning: "E4 B3 G3 D3 A2 E2",
			notes: "E4@0+1 s2f5, D4@1+1 s2f3 pull-off, C4@2+2 s2f1",
			remarks: []string{
				`the line is that of part 1 of 2: 1 "Lead", 2 "Lead (tablature)"`,
				`strings and frets are those of "Lead (tablature)"`,
				"pitches moved by an octave to where strings and frets sound",
			},
		},
		"octavehigh.musicxml": {
			title: "octavehigh", part: "P1", meter: "4/4", tuning: "E4 B3 G3",
			notes:   "G4@0+1 s1f1, D#4@2+2 s2f2",
			remarks: []string{"pitches moved by an octave to where strings and frets sound"},
		},
	} {
		file, err := os.Open(filepath.Join("testdata", "import", name))
		if err != nil {
			t.Fatal(err)
		}
		im, err := Read(name, file, "")
		file.Close()
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if diff := cmp.Diff(want, accountOf(im), cmp.AllowUnexported(account{})); diff != "" {
			t.Errorf("%s:\n%s", name, diff)
		}
	}
}

// utf16Of encodes a text with a byte order mark.
func utf16Of(text string, bigEndian bool) []byte {
	var order binary.AppendByteOrder = binary.LittleEndian
	if bigEndian {
		order = binary.BigEndian
	}
	var content []byte
	for _, unit := range utf16.Encode([]rune("\uFEFF" + text)) {
		content = order.AppendUint16(content, unit)
	}
	return content
}

func TestUTF16ScoresAreRead(t *testing.T) {
	text := strings.Replace(musicXML(quarterNotes(1, "C4", "D4")), "UTF-8", "UTF-16", 1)
	for _, bigEndian := range []bool{true, false} {
		im, err := Read("x.xml", bytes.NewReader(utf16Of(text, bigEndian)), "")
		if err != nil || told(im.Notes) != "C4@0+1, D4@1+1" {
			t.Errorf("big endian %v: %s, %v", bigEndian, told(im.Notes), err)
		}
	}
}

func TestSwingOfSixteenthsIsSaidToBeLeftOut(t *testing.T) {
	swing := `<sound><swing><first>2</first><second>1</second><swing-type>16th</swing-type></swing></sound>`
	im, err := Read("x.xml", strings.NewReader(musicXML(quarterNotes(1, "C4")+swing)), "")
	if err != nil || !im.Rhythm.Swing.Straight() || len(im.Remarks) != 1 || im.Remarks[0] != "1 swing of another value than eighth left out" {
		t.Errorf("%s, %q, %v", im.Rhythm.Swing, im.Remarks, err)
	}
}
