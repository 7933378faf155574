package score

import (
	"slices"
	"testing"

	"heddle/neck"
	"heddle/pitch"
	"heddle/score/internal/examples"
	"heddle/score/notation"
	"heddle/score/surface"
)

func TestBeamsAndStemsHaveTheirLengths(t *testing.T) {
	for _, c := range examples.Cases(t) {
		l := newLayout(c.Exercise, Options{Theme: c.Theme, Width: c.Width, Repeat: c.Repeat})
		for _, s := range l.systems(150) {
			for _, b := range s.beams {
				first, last := b.heads[0], b.heads[len(b.heads)-1]
				if rise := b.slope * (last.stem - first.stem); rise > steepest+1e-9 || rise < -steepest-1e-9 {
					t.Errorf("%s: a beam rises by %.2f spaces", c.Name, rise)
				}
				if down := last.y - first.y; down*b.slope < -1e-9 {
					t.Errorf("%s: a beam slopes against its notes", c.Name)
				}
				for _, h := range b.heads {
					length := (h.tip - h.y) * h.sign()
					if length < shortestStem-1e-9 {
						t.Errorf("%s: a stem under a beam is %.2f spaces long", c.Name, length)
					}
				}
			}
			for _, h := range s.heads {
				if h.hasStem() && h.beam == nil && (h.tip-h.y)*h.sign() < stemLength-1e-9 {
					t.Errorf("%s: a stem is %.2f spaces long", c.Name, (h.tip-h.y)*h.sign())
				}
				if h.place < -1 && h.beam == nil && !h.up || h.place > 0 && h.beam == nil && h.up {
					t.Errorf("%s: the stem of a note at place %d goes the wrong way", c.Name, h.place)
				}
			}
		}
	}
}

func TestStavesAreReadAsTheInstrumentIs(t *testing.T) {
	rows := []struct {
		instrument string
		sign       surface.Sign
		open       string // an open string, and its staff place from the middle line
		place      int
	}{
		{"guitar", surface.TrebleClefOctave, "E4", 3},   // written E5, the fourth space
		{"guitar", surface.TrebleClefOctave, "E2", -11}, // written E3, below three ledger lines
		{"bass", surface.BassClefOctave, "E1", -6},      // written E2, on the first ledger line
		{"bass", surface.BassClefOctave, "G2", 3},       // written G3, the fourth space
		{"ukulele", surface.TrebleClef, "A4", -1},       // as written, the second space
		{"mandolin", surface.TrebleClef, "G3", -9},
		{"eight-string guitar", surface.TrebleClefOctave, "E4", 3},
	}
	for _, row := range rows {
		in, err := neck.Named(row.instrument)
		if err != nil {
			t.Fatal(err)
		}
		p, err := pitch.Parse(row.open)
		if err != nil {
			t.Fatal(err)
		}
		if !slices.ContainsFunc(in.Open, func(o pitch.Pitch) bool { return o.MIDI() == p.MIDI() }) {
			t.Errorf("%s has no open %s", row.instrument, row.open)
		}
		sign, place := clefOf(in).sign, notation.Place(in.Clef(), p)
		if sign != row.sign || place != row.place {
			t.Errorf("%s: %s is at %d under U+%X, want %d under U+%X", row.instrument, row.open, place, int(sign), row.place, int(row.sign))
		}
	}
}
