package notefile

import (
	"bytes"
	"encoding/xml"
	"slices"
	"testing"
)

// A printedNote is what a reader sees of a note on the staff, and what the
// file says it is.
type printedNote struct {
	Pitch *struct {
		Step   string `xml:"step"`
		Alter  string `xml:"alter"`
		Octave string `xml:"octave"`
	} `xml:"pitch"`
	Ties       []tie  `xml:"tie"`
	Accidental string `xml:"accidental"`
	Staff      string `xml:"staff"`
}

type tie struct {
	Type string `xml:"type,attr"`
}

// A reader plays what the accidentals say: one holds for its line or space to
// the bar line, a tied note is the note it is tied from (common practice). The
// page must read as what is meant.
func TestAccidentalsReadAsWhatIsMeant(t *testing.T) {
	for i, ex := range samples(t) {
		var out bytes.Buffer
		if err := WriteMusicXML(&out, ex); err != nil {
			t.Fatal(err)
		}
		var score struct {
			Measures []struct {
				Notes []printedNote `xml:"note"`
			} `xml:"part>measure"`
		}
		if err := xml.Unmarshal(out.Bytes(), &score); err != nil {
			t.Fatal(err)
		}
		read := 0
		for bar, m := range score.Measures {
			holds := map[string]string{}
			for _, n := range m.Notes {
				if n.Pitch == nil || n.Staff != "1" || slices.Contains(n.Ties, tie{"stop"}) {
					continue
				}
				read++
				place := n.Pitch.Step + n.Pitch.Octave
				if n.Accidental != "" {
					holds[place] = n.Accidental
				}
				heard := map[string]string{"": "", "natural": "", "flat": "-1", "sharp": "1", "flat-flat": "-2", "double-sharp": "2", "triple-sharp": "3", "triple-flat": "-3"}[holds[place]]
				if heard != n.Pitch.Alter {
					t.Fatalf("%s: bar %d: %s is printed %q and means %q", sampleName(i, ex), bar, place, holds[place], n.Pitch.Alter)
				}
			}
		}
		if read != len(ex.Notes) {
			t.Fatalf("%s: %d notes read, want %d", sampleName(i, ex), read, len(ex.Notes))
		}
	}
}
