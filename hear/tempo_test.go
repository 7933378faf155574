package hear

import (
	"math"
	"math/rand/v2"
	"testing"

	"heddle/exercise"
	"heddle/line"
)

// tempoTakes is how many short takes are tried.
const tempoTakes = 400

// A shortTake is what was heard of a few written notes, many of them missed or
// wrong, at another tempo than the written one.
type shortTake struct {
	exercise              *exercise.Exercise
	heard                 []Heard
	tempo                 float64
	rights, wrongs, extra int
}

// drawShortTake draws a take of 8 to 24 notes in even eighths or a mixed
// rhythm, at half to one and a half of the written tempo.
func drawShortTake(seed uint64) shortTake {
	r := rand.New(rand.NewPCG(seed, 21))
	t := shortTake{exercise: &exercise.Exercise{Tempo: 60 + 80*r.Float64(), Rhythm: line.Rhythm{Value: line.Eighth, Meter: line.CommonTime}}}
	t.tempo = t.exercise.Tempo * (0.5 + r.Float64())
	mixed := r.IntN(3) == 0
	missed, wrong := 0.45*r.Float64(), 0.25*r.Float64()
	unevenS := 0.003 + 0.009*r.Float64()
	key, at := 55+r.IntN(15), line.Beat(0)
	for i := range 8 + r.IntN(17) {
		key += []int{-4, -3, -2, -1, 1, 2, 3, 4}[r.IntN(8)]
		if key < 40 || key > 80 {
			key = 60
		}
		t.exercise.Notes = append(t.exercise.Notes, exercise.Note{Index: i, Note: line.Note{Pitch: spelled(key), Start: at, Duration: 480}})
		onS := 0.5 + at.Quarters()*60/t.tempo + unevenS*r.NormFloat64()
		at += 480
		if mixed {
			at += line.Beat(480 * r.IntN(2))
		}
		h := Heard{OnsetS: onS, OffsetS: onS + 0.1, MIDI: float64(key), Confidence: 0.95, Level: -20}
		switch x := r.Float64(); {
		case x < missed:
			continue
		case x < missed+wrong:
			h.MIDI += []float64{-2, -1, 1, 2}[r.IntN(4)]
			t.wrongs++
		default:
			t.rights++
		}
		t.heard = append(t.heard, h)
		if r.IntN(25) == 0 {
			h.OnsetS += 0.4 * 30 / t.tempo
			h.MIDI += []float64{-3, -1, 1, 3}[r.IntN(4)]
			t.heard = append(t.heard, h)
			t.extra++
		}
	}
	return t
}

// The tempo of a take two fifths of whose notes, and five, are right is found
// within 3 % in 99 of 100, whatever share of the written tempo it is.
func TestTempoIsFoundInPoorTakes(t *testing.T) {
	const within = 0.03
	tried, off := 0, 0
	for seed := range uint64(tempoTakes) {
		tk := drawShortTake(seed)
		if tk.rights < 5 || 5*tk.rights < 2*len(tk.exercise.Notes) {
			continue
		}
		tried++
		r := Mark(tk.heard, 0, tk.exercise, TakeOptions{})
		if math.Abs(r.Tempo/tk.tempo-1) > within {
			off++
			t.Logf("seed %d: %d notes, %d right, %d wrong, %d extra at %.2f of the written tempo: found %.2f of it", seed, len(tk.exercise.Notes), tk.rights, tk.wrongs, tk.extra, tk.tempo/tk.exercise.Tempo, r.Tempo/tk.exercise.Tempo)
		}
	}
	t.Logf("%d of %d off", off, tried)
	if tried < tempoTakes/2 || 100*off > tried {
		t.Errorf("the tempo of %d of %d takes is not found", off, tried)
	}
}
