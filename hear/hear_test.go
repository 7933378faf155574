package hear

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"heddle/audio"
	"heddle/exercise"
	"heddle/hear/internal/accuracy"
	"heddle/hear/internal/synthetic"
	"heddle/line"
	"heddle/pitch"
)

// hearing hears a model guitar.
func hearing(t testing.TB, x []float32) ([]Heard, float64) {
	t.Helper()
	src, err := audio.Decode(bytes.NewReader(synthetic.WAV(x, synthetic.Rate)))
	if err != nil {
		t.Fatal(err)
	}
	heard, tuning, err := Hear(context.Background(), src, nil)
	if err != nil {
		t.Fatal(err)
	}
	return heard, tuning
}

// pluckedLine plays keys at equal distance, each damped as the next begins.
func pluckedLine(keys []float64, stepS float64) []synthetic.Stroke {
	var notes []synthetic.Stroke
	for i, key := range keys {
		on := 0.3 + stepS*float64(i)
		notes = append(notes, synthetic.Stroke{OnS: on, OffS: on + stepS, Key: key, Level: 0.4 + 0.3*float64(i%3)/2})
	}
	return notes
}

// expect compares what was heard with what was plucked, by the published rule, and
// demands all of it.
func expect(t *testing.T, heard []Heard, notes []synthetic.Stroke) {
	t.Helper()
	var truth, found []accuracy.Note
	for _, n := range notes {
		truth = append(truth, accuracy.Note{OnsetS: n.OnS, MIDI: n.Key})
	}
	for _, h := range heard {
		found = append(found, accuracy.Note{OnsetS: h.OnsetS, MIDI: h.MIDI})
	}
	paired := accuracy.Paired(accuracy.Match(truth, found))
	if paired == len(notes) && len(heard) == len(notes) {
		return
	}
	t.Errorf("%d of %d notes found, %d heard:", paired, len(notes), len(heard))
	for _, h := range heard {
		t.Logf("  %.3f s %.2f, confidence %.2f", h.OnsetS, h.MIDI, h.Confidence)
	}
}

func TestWorkedExampleIsHeard(t *testing.T) {
	// F5 D5 C5 | E♭5 D♭5 C♭5 | D5 C5 B♭4 | D♭5 C♭5 A♭4
	keys := []float64{77, 74, 72, 75, 73, 71, 74, 72, 70, 73, 71, 68}
	notes := pluckedLine(keys, 60.0/84/2)
	heard, tuning := hearing(t, synthetic.Pluck(notes, 5.5, synthetic.Rate))
	expect(t, heard, notes)
	if math.Abs(tuning) > 3 {
		t.Errorf("tuning is %.1f cents, want 0", tuning)
	}
}

func TestFastLinesAreHeard(t *testing.T) {
	for _, bpm := range []float64{120, 180} {
		t.Run(fmt.Sprintf("sixteenths at %.0f", bpm), func(t *testing.T) {
			var keys []float64
			for i := range 48 {
				keys = append(keys, []float64{76, 74, 71, 69, 67, 64, 62, 59}[i%8]-float64(i/8%3)*2)
			}
			notes := pluckedLine(keys, 60/bpm/4)
			heard, _ := hearing(t, synthetic.Pluck(notes, 8, synthetic.Rate))
			expect(t, heard, notes)
		})
	}
}

func TestDetunedGuitarIsMeasured(t *testing.T) {
	for _, cents := range []float64{-40, -17, 25, 40} {
		t.Run(fmt.Sprintf("%+.0f cents", cents), func(t *testing.T) {
			keys := []float64{67, 65, 62, 60, 58, 55, 53, 50, 48, 46}
			for i := range keys {
				keys[i] += cents / 100
			}
			notes := pluckedLine(keys, 0.3)
			heard, tuning := hearing(t, synthetic.Pluck(notes, 4, synthetic.Rate))
			expect(t, heard, notes)
			if math.Abs(tuning-cents) > 5 {
				t.Errorf("tuning is %.1f cents, want %.0f", tuning, cents)
			}
		})
	}
}

func TestRepeatedNotesAreToldApart(t *testing.T) {
	notes := pluckedLine([]float64{60, 60, 60, 60, 67, 67, 67, 52, 52, 52}, 0.2)
	for i := range notes {
		notes[i].Level = 0.5 // one much softer than the last may be its echo
	}
	heard, _ := hearing(t, synthetic.Pluck(notes, 3, synthetic.Rate))
	expect(t, heard, notes)
}

// Each string rings until it is struck again, under the notes of the others.
func TestRingingStringsAreNotHeardTwice(t *testing.T) {
	notes := pluckedLine([]float64{52, 59, 64, 59, 52, 57, 64, 57, 50, 57}, 0.25)
	for i := range notes {
		notes[i].OffS = 0
		for _, later := range notes[i+1:] {
			if later.Key == notes[i].Key {
				notes[i].OffS = later.OnS
				break
			}
		}
	}
	heard, _ := hearing(t, synthetic.Pluck(notes, 3.5, synthetic.Rate))
	expect(t, heard, notes)
}

func TestLongNoteIsOneNote(t *testing.T) {
	notes := []synthetic.Stroke{{OnS: 0.3, Key: 45, Level: 0.6}, {OnS: 3.3, Key: 64, Level: 0.6}}
	heard, _ := hearing(t, synthetic.Pluck(notes, 6, synthetic.Rate))
	expect(t, heard, notes)
}

func TestRangeReachesFromE1ToE6(t *testing.T) {
	for _, key := range []float64{28, 33, 40, 52, 64, 76, 83, 88} {
		t.Run(fmt.Sprint(key), func(t *testing.T) {
			notes := pluckedLine([]float64{key, key, key}, 0.4)
			heard, _ := hearing(t, synthetic.Pluck(notes, 2, synthetic.Rate))
			expect(t, heard, notes)
		})
	}
}

func TestPullOffsHaveNoStrokeAndAreHeard(t *testing.T) {
	// A pure tone that changes pitch in mid-period has no attack at all.
	keys := []float64{67, 65, 62, 65, 67}
	x := make([]float32, synthetic.Rate*2)
	phase := 0.0
	for i := range x {
		s := float64(i)/synthetic.Rate - 0.3
		if s < 0 {
			continue
		}
		key := keys[min(int(s/0.25), len(keys)-1)]
		phase += 2 * math.Pi * pitch.Frequency(key) / synthetic.Rate
		for h := 1.0; h <= 6; h++ {
			x[i] += float32(0.2 * math.Exp(-s/1.5) * math.Sin(h*phase) / h)
		}
	}
	var notes []synthetic.Stroke
	for i, key := range keys {
		notes = append(notes, synthetic.Stroke{OnS: 0.3 + 0.25*float64(i), Key: key})
	}
	heard, _ := hearing(t, x)
	expect(t, heard, notes)
}

// The count-in of a metronome, as a loudspeaker beeps it, is not part of the take.
func TestCountInIsNotPartOfATake(t *testing.T) {
	keys := []float64{64, 62, 60, 57, 55, 52}
	ex := &exercise.Exercise{Tempo: 120, Rhythm: line.Rhythm{Value: line.Eighth, Meter: line.CommonTime}}
	notes := pluckedLine(keys, 0.25)
	for i := range notes {
		notes[i].OnS, notes[i].OffS = notes[i].OnS+2, notes[i].OffS+2
		ex.Notes = append(ex.Notes, exercise.Note{Index: i, Note: line.Note{Pitch: spelled(int(keys[i])), Start: line.Beat(480 * i), Duration: 480}})
	}
	for hz := 500.0; hz < 3000; hz *= 1.2 {
		x := synthetic.Pluck(notes, 4.5, synthetic.Rate)
		for beat := range 4 {
			from := int((0.3 + 0.5*float64(beat)) * synthetic.Rate)
			for i := range synthetic.Rate / 10 {
				s := float64(i) / synthetic.Rate
				x[from+i] += float32(0.3 * math.Exp(-60*s) * math.Sin(2*math.Pi*hz*s))
			}
		}
		heard, tuning := hearing(t, x)
		for _, opts := range []TakeOptions{{}, {Clicked: true, ClickS: 2.3}} {
			if r := Mark(heard, tuning, ex, opts); verdicts(r) != "rrrrrr" || len(r.Extra) > 0 {
				t.Errorf("beeps of %.0f Hz: %s, %d extra, tempo %v", hz, verdicts(r), len(r.Extra), r.Tempo)
			}
		}
	}
}

func TestOctavesAreNotConfused(t *testing.T) {
	notes := pluckedLine([]float64{45, 57, 69, 57, 45, 52, 64, 76, 64, 52}, 0.25)
	heard, _ := hearing(t, synthetic.Pluck(notes, 3.5, synthetic.Rate))
	expect(t, heard, notes)
}

func TestEveryRateIsHeardAlike(t *testing.T) {
	notes := pluckedLine([]float64{64, 62, 60, 57, 55, 52}, 0.25)
	for _, rate := range []int{8000, 11025, 22050, 48000, 96000, 192000} {
		t.Run(fmt.Sprint(rate), func(t *testing.T) {
			src, err := audio.Decode(bytes.NewReader(synthetic.WAV(synthetic.Pluck(notes, 2.5, rate), rate)))
			if err != nil {
				t.Fatal(err)
			}
			heard, _, err := Hear(context.Background(), src, nil)
			if err != nil {
				t.Fatal(err)
			}
			expect(t, heard, notes)
		})
	}
}

func TestSilenceAndNoiseAreNamed(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	white, hum, knocks := make([]float32, synthetic.Rate*4), make([]float32, synthetic.Rate*4), make([]float32, synthetic.Rate*4)
	for i := range white {
		w := r.NormFloat64()
		white[i] = float32(0.1 * w)
		hum[i] = float32(0.1*math.Sin(2*math.Pi*50*float64(i)/synthetic.Rate) + 0.005*w)
		knocks[i] = float32(0.3 * w * math.Exp(-float64(i%22050)/400))
	}
	for _, c := range []struct {
		name string
		x    []float32
		want string
	}{
		{"silence", make([]float32, synthetic.Rate*2), `recording "silence"`},
		{"nothing at all", nil, `recording "silence"`},
		{"white noise", white, `recording "noise without notes"`},
		{"mains hum", hum, `recording "noise without notes"`},
		{"knocks", knocks, `recording "noise without notes"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			src, err := audio.Decode(bytes.NewReader(synthetic.WAV(c.x, synthetic.Rate)))
			if err != nil {
				t.Fatal(err)
			}
			heard, _, err := Hear(context.Background(), src, nil)
			var input *pitch.InputError
			if !errors.As(err, &input) || !strings.HasPrefix(err.Error(), c.want) {
				t.Errorf("got %v, want %s; heard %v", err, c.want, heard)
			}
		})
	}
}

func TestHearingStopsWhenItsContextEnds(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	src, err := audio.Decode(bytes.NewReader(synthetic.WAV(make([]float32, synthetic.Rate), synthetic.Rate)))
	if err != nil {
		t.Fatal(err)
	}
	if _, _, err := Hear(ctx, src, nil); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
}
