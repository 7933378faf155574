package sound

import (
	"math"
	"math/cmplx"
	"testing"

	"heddle/audio/audiotest"
	"heddle/exercise"
	"heddle/pitch"
	"heddle/touch"
)

// soundingHz measures the frequency near hz around a sample, by how far its phase
// turns between two stretches (Flanagan and Golden 1966).
func soundingHz(left []float64, around int, hz, rate float64) float64 {
	n, hop := int(0.12*rate), int(0.03*rate)
	partial := func(from int) (sum complex128) {
		for i := range n {
			w := 0.5 - 0.5*math.Cos(2*math.Pi*float64(i)/float64(n))
			sum += complex(left[from+i]*w, 0) * cmplx.Exp(complex(0, -2*math.Pi*hz*float64(from+i)/rate))
		}
		return sum
	}
	from := around - (n+hop)/2
	turned := cmplx.Phase(partial(from+hop) / partial(from))
	return hz + turned/(2*math.Pi)*rate/float64(hop)
}

// lineAlone renders the line of an exercise with nothing under it.
func lineAlone(t *testing.T, ex *exercise.Exercise) ([]float64, Timeline) {
	t.Helper()
	o := DefaultOptions()
	o.CountIn = 0
	b := &audiotest.Buffer{}
	line, err := RenderPart(t.Context(), ex, o, Line, b)
	must(t, err)
	left := make([]float64, len(b.Samples)/2)
	for i := range left {
		left[i] = float64(b.Samples[2*i])
	}
	return left, line
}

// The pitch of every bent note in the finished sound reaches the note that it is
// bent to within 5 cents (about what is just heard of short tones, from memory), and
// begins or ends where the string is stopped.
func TestABentNoteReachesItsPitch(t *testing.T) {
	bends := map[touch.Bend]int{}
	for _, home := range []string{"A minor pentatonic", "G dorian", "C blues"} {
		for _, direction := range []string{"down", "up"} {
			ex, err := exercise.Build(exercise.Spec{Home: home, Groups: []int{3}, Fret: 5, Direction: direction, Value: "quarter", Tempo: 60, Touch: "bends, quarter bends"})
			must(t, err)
			left, timeline := lineAlone(t, ex)
			rate := float64(timeline.SampleRate)
			for i, n := range ex.Notes {
				if n.Touch.Bend == 0 {
					continue
				}
				bends[n.Touch.Bend]++
				mark := timeline.Notes[i]
				want := pitch.Frequency(float64(ex.Instrument.MIDI(n.Spot)) + float64(n.Touch.Bend))
				at := int(mark.Start + (mark.End-mark.Start)*7/10)
				if n.Touch.Bend == touch.Half || n.Touch.Bend == touch.Whole {
					at = int(mark.Start + (mark.End-mark.Start)*4/10)
				}
				if off := 1200 * math.Log2(soundingHz(left, at, want, rate)/want); math.Abs(off) > 5 {
					t.Errorf("%s %s: note %d, %v bent by %v, is %.1f cents off", home, direction, i+1, n.Pitch, n.Touch.Bend, off)
				}
			}
		}
	}
	for _, b := range []touch.Bend{touch.Quarter, touch.Half, touch.Whole} {
		if bends[b] == 0 {
			t.Errorf("no bend of %v semitones was measured: %v", float64(b), bends)
		}
	}
}

func TestTouchesAreHeard(t *testing.T) {
	spec := exercise.Spec{Home: "A minor pentatonic", Groups: []int{4}, Fret: 5, Tempo: 100}
	plain, err := exercise.Build(spec)
	must(t, err)
	spec.Touch = "accents, ghost notes, staccato"
	touched, err := exercise.Build(spec)
	must(t, err)
	before, timeline := lineAlone(t, plain)
	after, _ := lineAlone(t, touched)
	louder := func(i int, from, to float64) float64 { // dB, over a share of the note
		mark := timeline.Notes[i]
		level := func(s []float64) (sum float64) {
			length := float64(mark.End - mark.Start)
			for _, x := range s[mark.Start+int64(from*length) : mark.Start+int64(to*length)] {
				sum += x * x
			}
			return sum
		}
		return 10 * math.Log10(level(after)/level(before))
	}
	accents, ghosts, short := 0, 0, 0
	for i, n := range touched.Notes {
		switch {
		case n.Touch.Accent:
			accents++
			if dB := louder(i, 0, 0.5); dB < 0.5 {
				t.Errorf("note %d has an accent and is %.1f dB louder", i+1, dB)
			}
		case n.Touch.Ghost:
			ghosts++
			if dB := louder(i, 0, 0.5); dB > -4 { // the note before and the room still sound
				t.Errorf("note %d is a ghost note and %.1f dB louder", i+1, dB)
			}
		case n.Touch.Staccato:
			short++
			if dB := louder(i, 0.85, 1); dB > -12 {
				t.Errorf("note %d is staccato and rings on at %.1f dB", i+1, dB)
			}
		}
	}
	if accents == 0 || ghosts == 0 || short == 0 {
		t.Errorf("%d accents, %d ghost notes, %d staccato notes", accents, ghosts, short)
	}
}

func TestEveryPieceOfTheKitHasAKey(t *testing.T) {
	for piece, k := range percussion {
		if k.key < 35 || k.key > 81 || k.force <= 0 {
			t.Errorf("piece %d has key %d with force %v, want a key of General MIDI's percussion, 35 to 81", piece, k.key, k.force)
		}
	}
}
