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

// One scale has one label over all brackets of a line.
func TestBracketsOfALineAreLabelledAlike(t *testing.T) {
	for _, width := range []float64{120, 180, 240, 290, 400, 600} {
		_, _, systems := sheetSystems(examples.Worked(t), Options{Width: width})
		full, short := 0, 0
		for _, s := range systems {
			for _, m := range s.brackets {
				if m.full {
					full++
				} else {
					short++
				}
			}
		}
		if full > 0 && short > 0 || full+short == 0 {
			t.Errorf("at %v mm %d brackets have long labels and %d short ones", width, full, short)
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
