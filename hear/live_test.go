package hear

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"heddle/exercise"
	"heddle/line"
)

// liveBlock is what a page sends at once: 10 ms at 48 kHz.
const (
	liveRate  = 48000
	liveBlock = liveRate / 100
)

// A told note is a live note and how much had been fed when it came.
type told struct {
	LiveNote
	atS float64
}

func tellLive(t testing.TB, x []float32, opts Options) []told {
	t.Helper()
	l, err := NewListener(liveRate, opts)
	if err != nil {
		t.Fatal(err)
	}
	var all []told
	for at := 0; at < len(x); at += liveBlock {
		end := min(at+liveBlock, len(x))
		for _, n := range l.Feed(x[at:end]) {
			all = append(all, told{n, float64(end) / liveRate})
		}
	}
	return all
}

// A note's verdict comes within 60 ms of its second period, counted in
// samples fed, blocks of 10 ms included.
func TestLiveNotesComeInTime(t *testing.T) {
	const within = 0.060
	for _, keys := range [][]float64{
		{40, 43, 45, 47, 50, 52}, {55, 57, 60, 62, 64, 67}, {69, 72, 74, 77, 79, 81, 84, 88},
	} {
		t.Run(fmt.Sprintf("%.0f to %.0f", keys[0], keys[len(keys)-1]), func(t *testing.T) {
			notes := pluckedLine(keys, 0.18)
			came := tellLive(t, pluck(notes, 2.2, liveRate), Options{Lowest: 40})
			for _, n := range notes {
				i := slices.IndexFunc(came, func(c told) bool {
					return math.Abs(c.OnsetS-n.onS) < onsetWithinS && math.Abs(c.MIDI-n.key) < pitchWithinKeys
				})
				if i < 0 {
					t.Errorf("key %.0f at %.3f s was not heard", n.key, n.onS)
					continue
				}
				second := n.onS + 2/(440*math.Exp2((n.key-69)/12))
				if wait := came[i].atS - second; wait > within {
					t.Errorf("key %.0f came %.0f ms after its second period", n.key, 1000*wait)
				}
			}
		})
	}
}

// clickedLine is an exercise at a tempo and a model take of it.
func clickedLine(tempo, clickS float64) (*exercise.Exercise, []plucked) {
	keys := []int{67, 65, 62, 68, 66, 63, 65, 62, 60, 66, 63, 61}
	ex := &exercise.Exercise{Tempo: tempo, Rhythm: line.Rhythm{Value: line.Eighth, Meter: line.CommonTime}}
	var notes []plucked
	step := 30 / tempo
	for i, key := range keys {
		ex.Notes = append(ex.Notes, exercise.Note{Index: i, Note: line.Note{Pitch: spelled(key), Group: i / 3, Start: line.Beat(480 * i), Duration: 480}})
		on := clickS + step*float64(i)
		notes = append(notes, plucked{onS: on, offS: on + step, key: float64(key), level: 0.5})
	}
	return ex, notes
}

func follow(t testing.TB, ex *exercise.Exercise, x []float32, clickS float64) (last map[int]NoteMark, changed int) {
	t.Helper()
	f, err := NewFollower(liveRate, ex, clickS)
	if err != nil {
		t.Fatal(err)
	}
	last = map[int]NoteMark{}
	news := func(marks []NoteMark) {
		for _, m := range marks {
			if was, ok := last[m.Index]; ok && was.Verdict != m.Verdict {
				changed++
			}
			last[m.Index] = m
		}
	}
	for at := 0; at < len(x); at += liveBlock {
		news(f.Feed(x[at:min(at+liveBlock, len(x))]))
	}
	news(f.Finish())
	return last, changed
}

func TestFollowerMarksWhileItIsPlayed(t *testing.T) {
	ex, notes := clickedLine(100, 1)
	notes[3].key++                     // a fret too high
	notes[5].onS += 0.05               // late
	notes = slices.Delete(notes, 8, 9) // missed
	last, changed := follow(t, ex, pluck(notes, 5.5, liveRate), 1)
	for i := range ex.Notes {
		want := Right
		switch i {
		case 3:
			want = Wrong
		case 8:
			want = Missed
		}
		if last[i].Verdict != want {
			t.Errorf("note %d is %q, want %q", i, last[i].Verdict, want)
		}
	}
	if len(last) != len(ex.Notes) || changed != 0 {
		t.Errorf("%d of %d notes have a verdict, %d were taken back", len(last), len(ex.Notes), changed)
	}
	if late := last[5].TimingMS - last[4].TimingMS; math.Abs(late-50) > 10 {
		t.Errorf("the late note is %.0f ms late, want 50", late)
	}
}

func TestFollowerRefusesRatesOfNoRecorder(t *testing.T) {
	ex, _ := clickedLine(100, 1)
	if _, err := NewFollower(100, ex, 0); err == nil {
		t.Error("a rate of 100 Hz is taken")
	}
}

// Ten minutes of live listening keep the same second of sound, and a note at
// their end is placed as exactly as one at their start.
func TestLiveListeningDoesNotDriftOrGrow(t *testing.T) {
	if testing.Short() {
		t.Skip("ten minutes of sound take some seconds to hear")
	}
	l, err := NewListener(44100, Options{Lowest: 40})
	if err != nil {
		t.Fatal(err)
	}
	bar := pluck([]plucked{{onS: 1, offS: 1.5, key: 64, level: 0.5}}, 2, 44100)
	for range 300 {
		l.Feed(bar)
	}
	heard := l.Heard()
	if len(heard) != 300 {
		t.Fatalf("%d notes, want 300", len(heard))
	}
	first := heard[0].OnsetS - 1
	for i, h := range heard {
		if late := h.OnsetS - 1 - 2*float64(i) - first; math.Abs(late) > 0.004 {
			t.Fatalf("note %d has drifted by %.1f ms", i, 1000*late)
		}
	}
	if kept := cap(l.transcript.ear.sound); kept > 4*rate {
		t.Errorf("%d samples are kept", kept)
	}
}

// BenchmarkLive feeds ten seconds in blocks of 10 ms.
func BenchmarkLive(b *testing.B) {
	x := pluck(pluckedLine([]float64{64, 62, 60, 57, 55, 52, 50, 48, 45, 43}, 0.9), 10, liveRate)
	b.ReportAllocs()
	for b.Loop() {
		l, err := NewListener(liveRate, Options{Lowest: 40})
		if err != nil {
			b.Fatal(err)
		}
		for at := 0; at+liveBlock <= len(x); at += liveBlock {
			l.Feed(x[at : at+liveBlock])
		}
	}
	b.ReportMetric(10/(b.Elapsed().Seconds()/float64(b.N)), "x-real-time")
}
