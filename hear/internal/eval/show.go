package main

import (
	"fmt"
	"math"

	"heddle/hear"
	"heddle/hear/internal/accuracy"
)

// goodF is the mark below which a take without a wrong verdict is shown too.
const goodF = 0.985

// showTake shows a take that was not heard well.
func (e *evaluation) showTake(setting string, one heardTake) {
	y := newTally()
	y.add(one)
	if e.show == 0 || y.lost() == 0 && y.calledRight(hear.Wrong) == 0 && y.f() > goodF {
		return
	}
	fmt.Fprintf(e.remarks, "%s %s, program %d, %s, tempo %.0f: F %.4f, %s right lost\n", setting, one.Name, one.Program, one.Touch, one.Tempo, y.f(), percent(y.lost()))
	if e.show < 2 {
		return
	}
	for i, deserved := range one.Verdicts {
		if m := one.report.Marks[i]; m.Verdict != deserved {
			fmt.Fprintf(e.remarks, "  note %d, key %d: %s (%s), marked %s %+.0f cents\n", i, one.Exercise.Notes[i].Pitch.MIDI(), deserved, one.Mistakes[i], m.Verdict, m.Cents)
		}
	}
	truth, heard := one.Notes(), notesOf(one.report.Heard)
	for i, j := range accuracy.Match(truth, heard) {
		if j >= 0 {
			continue
		}
		fmt.Fprintf(e.remarks, "  not heard: %.3f s, key %d, velocity %d, slurred %v; near it", truth[i].OnsetS, one.Played[i].Key, one.Played[i].Velocity, one.Played[i].Legato)
		for _, h := range heard {
			if off := h.OnsetS - truth[i].OnsetS; math.Abs(off) < 0.1 {
				fmt.Fprintf(e.remarks, " %+.0f ms %.2f", 1000*off, h.MIDI-one.Cents/100)
			}
		}
		fmt.Fprintln(e.remarks)
	}
}
