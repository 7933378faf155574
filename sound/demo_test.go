package sound

import (
	"syscall"
	"testing"

	"heddle/exercise"
)

// build builds an exercise that must be right.
func build(t testing.TB, s exercise.Spec) *exercise.Exercise {
	t.Helper()
	ex, err := exercise.Build(s)
	if err != nil {
		t.Fatal(err)
	}
	return ex
}

// gMinorVamp is the workshop's line on its slow funk vamp: threes from G minor
// pentatonic and the same scale a semitone up, falling, in eighths.
func gMinorVamp(t testing.TB) *exercise.Exercise {
	return build(t, exercise.Spec{
		Chord: "Gm7", Home: "G minor pentatonic", Superimpose: []string{"semitone up"},
		Groups: []int{3, 3}, Fret: 10, Tempo: 84, Bars: 4, Land: "third",
	})
}

// bluesInA is the workshop's other line: swung twos over the first four bars
// of a blues.
func bluesInA(t testing.TB) *exercise.Exercise {
	return build(t, exercise.Spec{
		Changes: "A7 | D7 | A7 | A7", Home: "A minor pentatonic", Superimpose: []string{"tritone"},
		Groups: []int{2, 2}, Fret: 5, Tempo: 120, Direction: "down-up", Feel: "swing 2:1",
	})
}

// slowBlues is the same on a bass, slow and in legato.
func slowBlues(t testing.TB) *exercise.Exercise {
	return build(t, exercise.Spec{
		Chord: "Am7", Home: "A minor pentatonic", Groups: []int{4}, Fret: 5, Tempo: 60,
		Direction: "down-up", Picking: "legato", Land: "root",
	})
}

// minute returns options that make the exercise last about a minute.
func minute(ex *exercise.Exercise) Options {
	o := DefaultOptions()
	o.Loops = int(60 / (ex.Length.Quarters() * 60 / ex.Tempo))
	return o
}

// A nowhere is a sink that keeps nothing but the count.
type nowhere struct{ frames int64 }

func (n *nowhere) Start(Format) error           { return nil }
func (n *nowhere) Write(frames []float32) error { n.frames += int64(len(frames) / 2); return nil }
func (n *nowhere) Finish() error                { return nil }

func BenchmarkMinuteOfMix(b *testing.B) {
	for _, c := range []struct {
		name string
		ex   *exercise.Exercise
		vamp Vamp
	}{{"funk", gMinorVamp(b), FunkVamp}, {"swing", bluesInA(b), SwingVamp}, {"ballad", slowBlues(b), BalladVamp}, {"drone", gMinorVamp(b), DroneVamp}} {
		b.Run(c.name, func(b *testing.B) {
			o := minute(c.ex)
			o.Vamp, o.Voice, o.ClickOn = c.vamp, true, TwoFour
			frames, before := int64(0), cpuSeconds()
			for b.Loop() {
				sink := &nowhere{}
				if _, err := Render(b.Context(), c.ex, o, sink); err != nil {
					b.Fatal(err)
				}
				frames += sink.frames
			}
			seconds := float64(frames) / 48000
			b.ReportMetric(seconds/b.Elapsed().Seconds(), "x-real-time")
			b.ReportMetric(b.Elapsed().Seconds()/seconds*60e3, "ms/minute")
			b.ReportMetric((cpuSeconds()-before)/seconds*60e3, "cpu-ms/minute")
		})
	}
}

// cpuSeconds returns the processor time this process has had: on a machine
// shared with others, wall time says little.
func cpuSeconds() float64 {
	var r syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &r) != nil {
		return 0
	}
	return float64(r.Utime.Sec) + float64(r.Utime.Usec)/1e6 + float64(r.Stime.Sec) + float64(r.Stime.Usec)/1e6
}

// A demo is an exercise with a name.
type demo struct {
	name string
	ex   *exercise.Exercise
}

// demos returns the demo exercises.
func demos(t testing.TB) []demo {
	return []demo{{"G minor vamp", gMinorVamp(t)}, {"blues in A", bluesInA(t)}, {"slow blues", slowBlues(t)}}
}
