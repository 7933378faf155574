package exercise_test

import (
	"fmt"
	"runtime"
	"strconv"
	"testing"

	"heddle/exercise"
)

// BenchmarkBuild is the budget for one exercise: 64 notes, fingered and
// landed, in 0.5 ms on one core.
func BenchmarkBuild(b *testing.B) {
	for _, name := range []string{"plain", "landed"} {
		spec := exercise.Spec{Home: "G minor pentatonic", Superimpose: []string{"semitone up"}, Groups: []int{4, 4}, Fret: 10, Value: "sixteenth"}
		if name == "landed" {
			spec.Land = "third"
		}
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			notes := 0
			for b.Loop() {
				ex, err := exercise.Build(spec)
				if err != nil {
					b.Fatal(err)
				}
				notes = len(ex.Notes)
			}
			b.ReportMetric(float64(notes), "notes")
		})
	}
}

// sweep lists the 13,200 exercises of the budget: all 12 keys, 11 intervals,
// 5 placements, 5 group sizes, 2 directions and 2 follows.
func sweep(each func(exercise.Spec)) {
	keys := []string{"C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"}
	intervals := []string{"semitone up", "whole tone up", "minor third up", "major third up", "fourth up", "tritone",
		"fourth down", "major third down", "minor third down", "whole tone down", "semitone down"}
	for _, key := range keys {
		for _, interval := range intervals {
			for _, fret := range []int{3, 5, 8, 10, 12} {
				for size := 1; size <= 5; size++ {
					for _, direction := range []string{"down", "up"} {
						for _, follow := range []string{"first", "last"} {
							each(exercise.Spec{Home: key + " minor pentatonic", Superimpose: []string{interval}, Groups: []int{size},
								Fret: fret, Direction: direction, Follow: follow})
						}
					}
				}
			}
		}
	}
}

// BenchmarkSweep is the budget for all of them: 10 s on two cores, with flat
// memory. It reports the live heap after the sweep beside the time.
func BenchmarkSweep(b *testing.B) {
	for b.Loop() {
		specs := make(chan exercise.Spec)
		done := make(chan error)
		for range runtime.GOMAXPROCS(0) {
			go func() {
				var first error
				for spec := range specs {
					if _, err := exercise.Build(spec); err != nil && first == nil {
						first = fmt.Errorf("%s: %w", spec.Text(), err)
					}
				}
				done <- first
			}()
		}
		count := 0
		sweep(func(s exercise.Spec) { specs <- s; count++ })
		close(specs)
		for range runtime.GOMAXPROCS(0) {
			if err := <-done; err != nil {
				b.Fatal(err)
			}
		}
		if count != 13200 {
			b.Fatal("the sweep has " + strconv.Itoa(count) + " exercises")
		}
	}
	var m runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&m)
	b.ReportMetric(float64(m.HeapAlloc)/1e6, "live-MB")
}
