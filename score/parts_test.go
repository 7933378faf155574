package score

import (
	"math"
	"testing"

	"heddle/exercise"
	"heddle/neck"
	"heddle/pitch"
	"heddle/score/internal/examples"
)

func TestPartsCanBeLeftOut(t *testing.T) {
	ex := examples.Worked(t)
	full := newLayout(ex, Options{}).systems(116)[0].height()
	for name, part := range map[string]Part{
		"tablature": Tablature, "names": NoteNames, "degrees": Degrees, "roughness": Roughness, "fingers": Fingers,
		"strokes": Strokes, "brackets": Brackets, "chords": ChordSymbols, "tempo": TempoMark,
	} {
		if h := newLayout(ex, Options{Without: part}).systems(116)[0].height(); h >= full {
			t.Errorf("without %s the system is %.1f spaces high, with it %.1f", name, h, full)
		}
	}
}

// A group is labelled with the root of its scale; the type is in the legend.
func TestGroupsAreLabelledWithTheirRoots(t *testing.T) {
	for _, width := range []float64{120, 240, 600} {
		_, _, systems := sheetSystems(examples.Worked(t), Options{Width: width})
		count := 0
		for _, s := range systems {
			for _, m := range s.brackets {
				count++
				if want := [...]string{"G", "A♭"}[m.style]; m.label != want {
					t.Errorf("at %v mm a group of scale %d is labelled %q, want %s", width, m.style, m.label, want)
				}
			}
		}
		if count < 19 {
			t.Errorf("at %v mm there are %d groups, want 19 or more", width, count)
		}
	}
}

// The 8 under a clef ends above the tablature, whatever is left out between them.
func TestTheTablatureIsBelowTheClef(t *testing.T) {
	for _, c := range examples.Cases(t) {
		for _, without := range []Part{0, Strokes} {
			_, _, systems := sheetSystems(c.Exercise, Options{Without: without})
			for i, s := range systems {
				if bottom := s.clef.line + s.clef.sign.Box().MaxY; s.rows.tab < bottom+0.5 {
					t.Errorf("%s, system %d: the clef ends at %.1f, the tablature begins at %.1f", c.Name, i+1, bottom, s.rows.tab)
				}
			}
		}
	}
}

func TestAnEmptyExerciseDoesNotPanic(t *testing.T) {
	for _, in := range []neck.Instrument{{}, neck.Guitar(), {Open: []pitch.Pitch{{Octave: 3}}}} {
		ex := &exercise.Exercise{Instrument: in}
		Sheet(ex, Options{Width: 1, Space: 1e9})
		Sheet(ex, Options{Width: math.Inf(1)})
	}
}

// Where they fit, systems have four bars: not five and then three.
func TestSystemsHoldPhrases(t *testing.T) {
	for _, width := range []float64{180, 200, 215, 271} {
		_, _, systems := sheetSystems(examples.Worked(t), Options{Width: width})
		for _, s := range systems[1:] {
			if first := s.measures[s.columns[0].measure].Number; first%2 != 1 {
				t.Errorf("at %v mm a system begins with bar %d", width, first)
			}
		}
	}
}
