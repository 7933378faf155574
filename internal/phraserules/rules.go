// Package phraserules checks phrases against the rules of package phrase, on the finished
// exercise, and draws random requests. The tests and the evaluation use it.
package phraserules

import (
	"fmt"
	"math/rand/v2"
	"slices"

	"heddle/exercise"
	"heddle/line"
	"heddle/pitch"
)

// Request draws a request for a phrase.
func Request(r *rand.Rand) exercise.Spec {
	pick := func(values ...string) string { return values[r.IntN(len(values))] }
	s := exercise.Spec{
		Form: "phrase", Home: pick("C", "F#", "G", "Bb", "A") + " " + pick("minor pentatonic", "minor blues", "dorian", "mixolydian", "major", "major pentatonic"),
		Superimpose: []string{pick("semitone up", "semitone down", "tritone", "whole tone up", "minor third up", "major third down")},
		Meter:       pick("4/4", "4/4", "4/4", "3/4", "6/8", "12/8", "5/4", "7/8", "2/4", "7/4"),
		Value:       pick("eighth", "eighth", "sixteenth"),
		Busy:        pick("sparse", "medium", "busy"), Direction: pick("down", "up", "down-up"), Follow: pick("first", "last"),
		Bars: 3 + r.IntN(6), Choice: 1 + r.IntN(3), Fret: 1 + r.IntN(12), Land: pick("", "third", "root", "third,fifth"),
	}
	if s.Meter == "4/4" || s.Meter == "3/4" {
		s.Value = pick("eighth", "eighth", "sixteenth", "eighth-triplet", "quintuplet", "sixteenth-triplet")
	}
	groups := 2 + r.IntN(3)
	s.Groups = []int{groups, groups}
	if s.Dips = r.IntN(4); s.Dips == 0 || s.Bars < 4 {
		s.Dips = []int{exercise.NoDips, 1}[r.IntN(2)]
	}
	if r.IntN(4) == 0 {
		s.Home, s.Changes = "C major", "Dm7 | G7 | Cmaj7 | Am7"
	}
	return s
}

// Broken lists the rules that a phrase does not keep, in words; none if it keeps all.
func Broken(ex *exercise.Exercise) (broken []string) {
	say := func(format string, arguments ...any) { broken = append(broken, fmt.Sprintf(format, arguments...)) }
	bar, notes := ex.Rhythm.Meter.Bar(), ex.Notes
	from, to := line.PulseOf(ex.Rhythm.Meter).Span(0)
	beat := to - from
	last := notes[len(notes)-1]
	if notes[0].Start >= bar || notes[0].Start < 0 {
		say("it starts at %v", notes[0].Start)
	}
	if last.Start != ex.Length-bar || last.Role != line.LandingRole {
		say("it ends at %v", last.Start)
	}
	for at := line.Beat(0); at+2*bar <= ex.Length; at += bar {
		if !restsWithin(notes, at, at+2*bar, beat) {
			say("no rest in the two bars from %v", at)
		}
	}
	top, tops := 0, 0
	small := 0
	for i, n := range notes {
		key := n.Pitch.MIDI()
		switch {
		case key > top:
			top, tops = key, 1
		case key == top:
			tops++
		}
		if i == 0 {
			continue
		}
		step := key - notes[i-1].Pitch.MIDI()
		if max(step, -step) <= 4 {
			small++
		}
		if i > 1 {
			before := notes[i-1].Pitch.MIDI() - notes[i-2].Pitch.MIDI()
			if step == 0 && before == 0 {
				say("note %d is the third in a row", i+1)
			}
			if max(before, -before) > 5 && (max(step, -step) > 2 || step*before >= 0) {
				say("a leap of %d before note %d is followed by %d", before, i+1, step)
			}
		}
		if n.Start < notes[i-1].End() {
			say("note %d overlaps", i+1)
		}
	}
	if tops != 1 {
		say("the highest note is played %d times", tops)
	}
	if 2*small < len(notes)-1 {
		say("%d of %d steps are a third or less", small, len(notes)-1)
	}
	broken = append(broken, brokenInside(ex)...)
	return append(broken, brokenDips(ex, beat)...)
}

func restsWithin(notes []exercise.Note, from, to, least line.Beat) bool {
	silent := from
	for _, n := range notes {
		if n.Start >= to {
			break
		}
		if n.End() > from {
			if n.Start-silent >= least {
				return true
			}
			silent = n.End()
		}
	}
	return to-silent >= least
}

func brokenInside(ex *exercise.Exercise) (broken []string) {
	strong := line.PulseOf(ex.Rhythm.Meter).Parts()
	bar := ex.Rhythm.Meter.Bar()
	for i, n := range ex.Notes {
		if ex.ScaleNumber(n.Scale) > 0 {
			continue
		}
		if n.Scale == line.Chromatic && n.Function != pitch.ChordTone {
			broken = append(broken, fmt.Sprintf("note %d, %v, is neither in home nor in the chord", i+1, n.Pitch))
		}
		if n.Duration >= line.Quarter && slices.Contains(strong, n.Start%bar) && (n.Function == pitch.Avoid || n.Function == pitch.Outside) {
			broken = append(broken, fmt.Sprintf("note %d, %v, is long, on a strong beat and %s", i+1, n.Pitch, n.Function))
		}
	}
	return broken
}

func brokenDips(ex *exercise.Exercise, beat line.Beat) (broken []string) {
	say := func(format string, arguments ...any) { broken = append(broken, fmt.Sprintf(format, arguments...)) }
	bar, notes := ex.Rhythm.Meter.Bar(), ex.Notes
	outside := func(i int) bool { return ex.ScaleNumber(notes[i].Scale) > 0 }
	dips, end := 0, line.Beat(-1)
	for i := 0; i < len(notes); i++ {
		if !outside(i) {
			continue
		}
		first := i
		for i+1 < len(notes) && outside(i+1) {
			i++
		}
		if first == 0 || i > len(notes)-4 {
			say("the dip at note %d has not enough inside around it", first+1)
			return broken
		}
		dips++
		into := notes[first].Pitch.MIDI() - notes[first-1].Pitch.MIDI()
		out := notes[i+1].Pitch.MIDI() - notes[i].Pitch.MIDI()
		size := ex.Spec.Groups[1]
		switch start := notes[first].Start; {
		case start%bar == 0 || start < bar || notes[i].End() > ex.Length-bar:
			say("a dip starts at %v", start)
		case into == 0 || max(into, -into) > 4:
			say("a step of %d leads into the dip at %v", into, start)
		case out == 0 || max(out, -out) > 2 || notes[i+1].Function != pitch.ChordTone || notes[i+1].Scale == line.Chromatic || notes[i+1].Start-notes[i].End() > beat:
			say("the dip at %v is left by %d to %v, a %s", start, out, notes[i+1].Pitch, notes[i+1].Function)
		case i-first+1 != size && i-first+1 != 2*size:
			say("the dip at %v has %d notes", start, i-first+1)
		case end >= 0 && start-end < bar:
			say("the dip at %v is %v after another", start, start-end)
		}
		end = notes[i].End()
	}
	if dips != max(0, ex.Spec.Dips) {
		say("%d dips, want %d", dips, ex.Spec.Dips)
	}
	landing := notes[len(notes)-1].Pitch.MIDI() - notes[len(notes)-2].Pitch.MIDI()
	if landing == 0 || max(landing, -landing) > 2 || notes[len(notes)-1].Function != pitch.ChordTone {
		say("it lands by %d on a %s", landing, notes[len(notes)-1].Function)
	}
	return broken
}
