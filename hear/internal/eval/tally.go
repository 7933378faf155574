package main

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"heddle/hear"
	"heddle/hear/internal/accuracy"
	"heddle/hear/internal/stats"
)

// A tally adds up what is counted over takes.
type tally struct {
	truth, heard, paired               int
	otherHeard, otherPaired            int
	blindHeard, blindPaired            int
	lateMS, offTune                    []float64
	marked                             map[hear.Verdict]map[hear.Verdict]int // by the verdict deserved
	extraTrue, extraMarked, extraFound int
	mistakes                           map[string]*mistakeTally
}

func newTally() *tally {
	return &tally{
		marked:   map[hear.Verdict]map[hear.Verdict]int{hear.Right: {}, hear.Wrong: {}, hear.Missed: {}},
		mistakes: map[string]*mistakeTally{},
	}
}

func (y *tally) add(one heardTake) {
	truth, heard := one.Notes(), notesOf(one.report.Heard)
	y.truth += len(truth)
	y.heard += len(heard)
	for i, j := range accuracy.Match(truth, heard) {
		if j >= 0 {
			y.paired++
			y.lateMS = append(y.lateMS, 1000*(heard[j].OnsetS-truth[i].OnsetS))
		}
	}
	y.otherHeard += len(one.other)
	y.otherPaired += accuracy.Paired(accuracy.Match(truth, prompt(truth, one.other)))
	y.blindHeard += len(one.blind)
	y.blindPaired += accuracy.Paired(accuracy.Match(truth, one.blind))
	y.offTune = append(y.offTune, math.Abs(one.report.TuningCents-one.Cents))
	y.addExtras(one, truth, heard)
	for i, deserved := range one.Verdicts {
		y.marked[deserved][one.report.Marks[i].Verdict]++
		y.addMistake(one.Mistakes[i], deserved, one.report.Marks[i])
	}
}

// addExtras pairs the extra notes that were played with those that were reported.
func (y *tally) addExtras(one heardTake, truth, heard []accuracy.Note) {
	var played, reported []accuracy.Note
	for i, n := range one.Played {
		if n.Index < 0 {
			played = append(played, truth[i])
		}
	}
	for _, j := range one.report.Extra {
		reported = append(reported, heard[j])
	}
	y.extraTrue += len(played)
	y.extraMarked += len(reported)
	y.extraFound += accuracy.Paired(accuracy.Match(played, reported))
}

// prompt takes off the delay with which another note finder names a note, the
// median over the take: it waits until the pitch has settled.
func prompt(truth, heard []accuracy.Note) []accuracy.Note {
	var delays []float64
	for _, n := range truth {
		for _, h := range heard {
			if d := h.OnsetS - n.OnsetS; math.Round(h.MIDI) == math.Round(n.MIDI) && d > 0 && d < 0.3 {
				delays = append(delays, d)
				break
			}
		}
	}
	delayS := stats.Median(delays)
	heard = slices.Clone(heard)
	for i := range heard {
		heard[i].OnsetS -= delayS
	}
	return heard
}

// lost is the share of right notes that are marked anything else; caught is the
// share of notes with another verdict that are not marked right.
func (y *tally) lost() float64 { return 1 - y.calledRight(hear.Right) }

func (y *tally) caught(deserved hear.Verdict) float64 { return 1 - y.calledRight(deserved) }

func (y *tally) calledRight(deserved hear.Verdict) float64 {
	return share(y.marked[deserved][hear.Right], y.count(deserved))
}

func (y *tally) count(deserved hear.Verdict) (of int) {
	for _, n := range y.marked[deserved] {
		of += n
	}
	return of
}

func (y *tally) f() float64 { return accuracy.F(y.paired, y.truth, y.heard) }

// offMS is the median distance of onsets from the true ones.
func (y *tally) offMS() float64 {
	off := make([]float64, len(y.lateMS))
	for i, l := range y.lateMS {
		off[i] = math.Abs(l)
	}
	return stats.Median(off)
}

func share(part, whole int) float64 { return float64(part) / float64(whole) }

// percent writes a share, and a dash where there is nothing to count.
func percent(share float64) string {
	if math.IsNaN(share) {
		return "–"
	}
	return fmt.Sprintf("%.1f %%", 100*share)
}

// A table has a row of tallies for each kind of take.
type table struct{ tallies map[string]*tally }

func newTable() *table { return &table{map[string]*tally{}} }

func (t *table) add(one heardTake, rows ...string) {
	for _, row := range rows {
		if t.tallies[row] == nil {
			t.tallies[row] = newTally()
		}
		t.tallies[row].add(one)
	}
}

const head = `F is the F measure of heard notes against the true ones; "blind" without knowing
the exercise; "aubio" that of aubionotes, where it is installed, with its own delay
taken off. Onset is the median distance from the true onset, and the median with its
sign. Lost are right notes marked anything else; caught are wrong and missed notes
not marked right. Extra is how many extra notes were played, how many were reported,
and how many of these were true. Tuning is what nine takes in ten are nearer than.

| takes | notes | F | blind F | aubio F | onset, ms | right lost | wrong caught | missed caught | extra: played, reported, true | tuning, cents |
| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |
`

// String is the table in Markdown.
func (t *table) String() string {
	var b strings.Builder
	b.WriteString(head)
	for _, row := range slices.Sorted(maps.Keys(t.tallies)) {
		y := t.tallies[row]
		fmt.Fprintf(&b, "| %s | %d | %.4f | %.4f | %.4f | %.1f, %+.1f | %s of %d | %s of %d | %s of %d | %d, %d, %d | %.1f |\n",
			row, y.truth, y.f(), accuracy.F(y.blindPaired, y.truth, y.blindHeard), accuracy.F(y.otherPaired, y.truth, y.otherHeard),
			y.offMS(), stats.Median(y.lateMS), percent(y.lost()), y.count(hear.Right), percent(y.caught(hear.Wrong)), y.count(hear.Wrong),
			percent(y.caught(hear.Missed)), y.count(hear.Missed), y.extraTrue, y.extraMarked, y.extraFound, stats.Quantile(y.offTune, 0.9))
	}
	return b.String()
}

// A mistakeTally counts the notes with one kind of mistake made on purpose.
type mistakeTally struct {
	notes, asDeserved, calledRight int
	timed, timedRightly            int
}

// timingShownMS is how early or late a note must be shown to count as shown.
const timingShownMS = 10

func (y *tally) addMistake(kind string, deserved hear.Verdict, mark hear.NoteMark) {
	switch {
	case kind == "" && deserved == hear.Missed:
		kind = "stopped"
	case kind == "":
		kind = "none"
	}
	if y.mistakes[kind] == nil {
		y.mistakes[kind] = &mistakeTally{}
	}
	m := y.mistakes[kind]
	m.notes++
	if mark.Verdict == deserved {
		m.asDeserved++
	}
	if mark.Verdict != hear.Right {
		return
	}
	m.calledRight++
	if kind == "early" || kind == "late" {
		m.timed++
		if kind == "early" && mark.TimingMS <= -timingShownMS || kind == "late" && mark.TimingMS >= timingShownMS {
			m.timedRightly++
		}
	}
}

func (y *tally) byMistake() string {
	var b strings.Builder
	fmt.Fprintf(&b, "Timing shown: by %d ms or more, of those called right.\n\n| mistake | notes | marked as deserved | called right | timing shown |\n| --- | --- | --- | --- | --- |\n", timingShownMS)
	for _, kind := range slices.Sorted(maps.Keys(y.mistakes)) {
		m := y.mistakes[kind]
		fmt.Fprintf(&b, "| %s | %d | %s | %s | %s |\n", kind, m.notes, percent(share(m.asDeserved, m.notes)), percent(share(m.calledRight, m.notes)), percent(share(m.timedRightly, m.timed)))
	}
	return b.String()
}
