package hear

import (
	"math"
	"slices"
	"testing"

	"heddle/exercise"
	"heddle/hear/internal/synthetic"
	"heddle/line"
)

// liveBlock is what a page sends at once: 10 ms at 48 kHz.
const (
	liveRate  = 48000
	liveBlock = liveRate / 100
)

// clickedLine is an exercise at a tempo and a model take of it.
func clickedLine(tempo, clickS float64) (*exercise.Exercise, []synthetic.Stroke) {
	keys := []int{67, 65, 62, 68, 66, 63, 65, 62, 60, 66, 63, 61}
	ex := &exercise.Exercise{Tempo: tempo, Rhythm: line.Rhythm{Value: line.Eighth, Meter: line.CommonTime}}
	var notes []synthetic.Stroke
	step := 30 / tempo
	for i, key := range keys {
		ex.Notes = append(ex.Notes, exercise.Note{Index: i, Note: line.Note{Pitch: spelled(key), Group: i / 3, Start: line.Beat(480 * i), Duration: 480}})
		on := clickS + step*float64(i)
		notes = append(notes, synthetic.Stroke{OnS: on, OffS: on + step, Key: float64(key), Level: 0.5})
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
	notes[3].Key++                     // a fret too high
	notes[5].OnS += 0.05               // late
	notes = slices.Delete(notes, 8, 9) // missed
	last, changed := follow(t, ex, synthetic.Pluck(notes, 5.5, liveRate), 1)
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

// BenchmarkLive feeds ten seconds in blocks of 10 ms.
func BenchmarkLive(b *testing.B) {
	notes := pluckedLine([]float64{64, 62, 60, 57, 55, 52, 50, 48, 45, 43}, 0.9)
	x := synthetic.Pluck(notes, 10, liveRate)
	ex := &exercise.Exercise{Tempo: 100, Rhythm: line.Rhythm{Value: line.Eighth, Meter: line.CommonTime}}
	for i, n := range notes {
		ex.Notes = append(ex.Notes, exercise.Note{Index: i, Note: line.Note{Pitch: spelled(int(n.Key)), Start: line.Beat(1440 * i), Duration: 480}})
	}
	b.ReportAllocs()
	for b.Loop() {
		f, err := NewFollower(liveRate, ex, 0.3)
		if err != nil {
			b.Fatal(err)
		}
		for at := 0; at+liveBlock <= len(x); at += liveBlock {
			f.Feed(x[at : at+liveBlock])
		}
	}
	b.ReportMetric(10/(b.Elapsed().Seconds()/float64(b.N)), "x-real-time")
}
