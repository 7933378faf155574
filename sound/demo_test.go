package sound

import (
	"syscall"
	"testing"

	"heddle/exercise"
	"heddle/finger"
	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
)

// deg reads a degree such as b7.
func deg(s string) pitch.Degree {
	d := pitch.Degree{}
	for s[0] == 'b' {
		d.Alter--
		s = s[1:]
	}
	for s[0] == '#' {
		d.Alter++
		s = s[1:]
	}
	for _, c := range s {
		d.Number = 10*d.Number + int(c-'0')
	}
	return d
}

func chordOf(root string, degrees ...string) pitch.Chord {
	n, err := pitch.ParseName(root)
	if err != nil {
		panic(err)
	}
	c := pitch.Chord{Symbol: root, Root: n, Bass: n}
	for _, d := range degrees {
		c.Degrees = append(c.Degrees, deg(d))
	}
	return c
}

// gMinorVamp is the workshop's line: G minor pentatonic and the same scale a
// semitone up in threes, falling, in eighths at 84 over Gm7.
func gMinorVamp() *exercise.Exercise {
	notes := []string{"F5", "D5", "C5", "Eb5", "Db5", "Cb5", "D5", "C5", "Bb4", "Db5", "Cb5", "Ab4", "C5", "Bb4", "G4", "Cb5", "Ab4", "Gb4", "Bb4", "G4", "F4", "Ab4", "Gb4", "Eb4", "G4", "F4", "D4", "Bb3"}
	spots := [][2]int{{1, 13}, {1, 10}, {2, 13}, {1, 11}, {2, 14}, {2, 12}, {1, 10}, {2, 13}, {2, 11}, {2, 14}, {2, 12}, {3, 13}, {2, 13}, {2, 11}, {3, 12}, {2, 12}, {3, 13}, {3, 11}, {2, 11}, {3, 12}, {3, 10}, {3, 13}, {3, 11}, {4, 13}, {3, 12}, {3, 10}, {4, 12}, {4, 8}}
	ex := &exercise.Exercise{
		Sentence: "Over Gm7, weave G minor pentatonic with the same scale a semitone up", Instrument: neck.Guitar(),
		Rhythm: line.Rhythm{Value: line.Eighth, Meter: line.Meter{Beats: 4, Unit: 4}}, Tempo: 84,
	}
	for i, s := range notes {
		p, err := pitch.Parse(s)
		if err != nil {
			panic(err)
		}
		n := exercise.Note{Index: i}
		n.Pitch, n.Group, n.Step = p, i/3, i%3+1
		n.Start, n.Duration = line.Beat(i)*480, 480
		if i == len(notes)-1 {
			n.Duration = 4 * 480
		}
		n.Spot = neck.Spot{String: spots[i][0], Fret: spots[i][1]}
		n.Finger, n.Stroke = 1, finger.Down
		if i%2 == 1 {
			n.Stroke = finger.Up
		}
		ex.Notes = append(ex.Notes, n)
	}
	ex.Length = 4 * 4 * line.Quarter
	ex.Chords = []exercise.Chord{{Chord: chordOf("G", "1", "b3", "5", "b7"), End: ex.Length, Voicing: []int{55, 58, 62, 65}}}
	return ex
}

// bluesInA is a swung line over the first bars of a blues.
func bluesInA() *exercise.Exercise {
	ex := gMinorVamp()
	ex.Tempo = 120
	ex.Rhythm.Swing = line.Swing{Long: 2, Short: 1}
	bar := 4 * line.Quarter
	ex.Chords = nil
	for i, root := range []string{"A", "D", "A", "A"} {
		ex.Chords = append(ex.Chords, exercise.Chord{Chord: chordOf(root, "1", "3", "5", "b7"), Start: line.Beat(i) * bar, End: line.Beat(i+1) * bar})
	}
	return ex
}

// minute returns options that make the exercise last about a minute.
func minute(ex *exercise.Exercise) Options {
	o := DefaultOptions()
	o.Loops = int(60/(ex.Length.Quarters()*60/ex.Tempo)) - 0
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
	}{{"funk", gMinorVamp(), FunkVamp}, {"swing", bluesInA(), SwingVamp}, {"ballad", gMinorVamp(), BalladVamp}, {"drone", gMinorVamp(), DroneVamp}} {
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
