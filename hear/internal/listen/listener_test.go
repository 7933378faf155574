package listen

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"heddle/hear/internal/accuracy"
	"heddle/hear/internal/spectral"
	"heddle/hear/internal/synthetic"
)

// block is 10 ms, as a page sends it.
const block = spectral.Rate / 100

// guitarLive is what is known of a live guitar.
var guitarLive = Options{Lowest: 40, Highest: HighestKey, Live: true}

// pluckedLine plays keys at equal distance, each damped as the next begins.
func pluckedLine(keys []float64, stepS float64) []synthetic.Stroke {
	var notes []synthetic.Stroke
	for i, key := range keys {
		on := 0.3 + stepS*float64(i)
		notes = append(notes, synthetic.Stroke{OnS: on, OffS: on + stepS, Key: key, Level: 0.4 + 0.3*float64(i%3)/2})
	}
	return notes
}

// A live note is there within 60 ms of its second period, counted in samples fed,
// blocks of 10 ms included.
func TestLiveNotesComeInTime(t *testing.T) {
	const withinS = 0.060
	for _, keys := range [][]float64{
		{40, 43, 45, 47, 50, 52}, {55, 57, 60, 62, 64, 67}, {69, 72, 74, 77, 79, 81, 84, 88},
	} {
		t.Run(fmt.Sprintf("%.0f to %.0f", keys[0], keys[len(keys)-1]), func(t *testing.T) {
			notes := pluckedLine(keys, 0.18)
			x := synthetic.Pluck(notes, 2.2, spectral.Rate)
			l := NewListener(guitarLive)
			cameS := make([]float64, len(notes)) // 0 until it came
			for at := 0; at+block <= len(x); at += block {
				l.Feed(x[at : at+block])
				for i, n := range notes {
					if cameS[i] == 0 && slices.ContainsFunc(l.Notes(), func(h Note) bool {
						return math.Abs(h.OnsetS-n.OnS) < accuracy.OnsetWithinS && math.Abs(h.MIDI-n.Key) < accuracy.PitchWithinKeys
					}) {
						cameS[i] = float64(at+block) / spectral.Rate
					}
				}
			}
			for i, n := range notes {
				second := n.OnS + 2*lagOf(n.Key)/spectral.Rate
				if waitS := cameS[i] - second; cameS[i] == 0 || waitS > withinS {
					t.Errorf("key %.0f came at %.3f s, %.0f ms after its second period", n.Key, cameS[i], 1000*waitS)
				}
			}
		})
	}
}

// The same sound gives the same notes, however it is cut into blocks.
func TestBlocksDoNotMatter(t *testing.T) {
	x := synthetic.Pluck(pluckedLine([]float64{64, 62, 60, 57}, 0.2), 1.5, spectral.Rate)
	for _, opts := range []Options{guitarLive, {Lowest: LowestKey, Highest: HighestKey, Doubts: true}} {
		var want string
		for _, size := range []int{len(x), 1600, 160, 37} {
			l := NewListener(opts)
			for part := range slices.Chunk(x, size) {
				l.Feed(part)
			}
			l.Finish()
			notes := l.Notes()
			if !opts.Live {
				notes = l.Transcription()
			}
			got := fmt.Sprint(notes)
			if want == "" {
				want = got
			}
			if got != want || len(notes) < 4 {
				t.Errorf("%+v, blocks of %d: %s, want %s", opts, size, got, want)
			}
		}
	}
}

// A long take keeps the same second of sound, and a note at its end is placed as
// exactly as one at its start.
func TestLiveListeningDoesNotDriftOrGrow(t *testing.T) {
	const bars = 60
	l := NewListener(guitarLive)
	bar := synthetic.Pluck([]synthetic.Stroke{{OnS: 1, OffS: 1.5, Key: 64, Level: 0.5}}, 2, spectral.Rate)
	for range bars {
		l.Feed(bar)
	}
	notes := l.Notes()
	if len(notes) != bars {
		t.Fatalf("%d notes, want %d", len(notes), bars)
	}
	first := notes[0].OnsetS - 1
	for i, n := range notes {
		if late := n.OnsetS - 1 - 2*float64(i) - first; math.Abs(late) > 0.004 {
			t.Fatalf("note %d has drifted by %.1f ms", i, 1000*late)
		}
	}
	if kept := cap(l.tracker.sound); kept > 4*spectral.Rate {
		t.Errorf("%d samples are kept", kept)
	}
}

// Fitting sees every moment that may be a note, with its true pitch among the
// candidates.
func TestMomentsHoldTheNotes(t *testing.T) {
	notes := pluckedLine([]float64{55, 57, 60, 62, 64, 67}, 0.3)
	x := synthetic.Pluck(notes, 2.5, spectral.Rate)
	for _, live := range []bool{false, true} {
		moments := Moments(x, Options{Lowest: 40, Highest: HighestKey, Doubts: true, Live: live})
		for _, n := range notes {
			if !slices.ContainsFunc(moments, func(m Moment) bool {
				return math.Abs(m.OnsetS-n.OnS) < accuracy.OnsetWithinS && slices.ContainsFunc(m.Candidates, func(c Candidate) bool {
					return math.Abs(c.MIDI-n.Key) < accuracy.PitchWithinKeys && c.LogOdds > 0
				})
			}) {
				t.Errorf("live %v: no moment holds key %.0f", live, n.Key)
			}
		}
	}
}
