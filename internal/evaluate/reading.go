package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"heddle/exercise"
	"heddle/line"
	"heddle/pitch"
	"heddle/weave"
)

// A tally counts notes by the scale they are heard in. A note is exact if that is the
// scale it was woven from. It is right if it is exact, or if the two do not differ
// audibly: the scale it is heard in has every note that the line plays from the scale it
// was woven from, or is another of the line's scales and has this note too.
type tally struct{ notes, exact, right int }

func (t *tally) add(other tally) {
	t.notes += other.notes
	t.exact += other.exact
	t.right += other.right
}

func percent(part, whole int) float64 { return 100 * float64(part) / float64(max(1, whole)) }

// readBack reads an exercise's notes without its names and scales, and counts the notes
// that are heard in the scale they were woven from.
func readBack(ex *exercise.Exercise) tally {
	notes := make([]line.Note, len(ex.Notes))
	for i, n := range ex.Notes {
		key := n.Pitch.MIDI()
		notes[i] = line.Note{Pitch: pitch.Named(pitch.PlainName(key%12, true), key), Start: n.Start, Duration: n.Duration}
	}
	reading := weave.Read(weave.Request{Notes: notes})[0]
	played := make([][]pitch.Name, len(ex.Scales))
	for _, n := range ex.Notes {
		if n.Scale != line.Chromatic {
			played[n.Scale] = append(played[n.Scale], n.Pitch.Name)
		}
	}
	var t tally
	for _, segment := range reading.Segments {
		for _, n := range ex.Notes[segment.From-1 : segment.To] {
			if n.Scale == line.Chromatic {
				continue
			}
			t.notes++
			woven := ex.Scales[n.Scale].Scale
			switch {
			case same(segment.Scale, woven):
				t.exact++
				t.right++
			case hasAll(segment.Scale, played[n.Scale]), hasAll(segment.Scale, []pitch.Name{n.Pitch.Name}) && isOneOf(segment.Scale, ex):
				t.right++
			}
		}
	}
	return t
}

func same(a, b pitch.Scale) bool { return hasAll(a, b.Notes) && len(a.Notes) == len(b.Notes) }

func isOneOf(s pitch.Scale, ex *exercise.Exercise) bool {
	return slices.ContainsFunc(ex.Scales, func(own exercise.Scale) bool { return same(s, own.Scale) })
}

func hasAll(s pitch.Scale, names []pitch.Name) bool {
	for _, n := range names {
		if _, in := s.Named(n.Class()); !in {
			return false
		}
	}
	return true
}

// The lines that are read: each home with each scale at each distance, in each kind of
// groups, cut to each length. Lengths of 0 are the whole line.
var (
	readHomes     = []string{"G minor pentatonic", "A minor blues", "D dorian", "C major"}
	readDistances = []string{"semitone up", "semitone down", "whole tone up", "whole tone down", "minor third up", "minor third down", "major third up", "major third down", "fourth up", "fourth down", "tritone"}
	readShapes    = []exercise.Spec{
		{Groups: []int{1, 1}},
		{Groups: []int{2, 2}},
		{Groups: []int{3, 3}},
		{Groups: []int{3, 3}, Order: "1 3 2", Direction: "up"},
		{Groups: []int{4, 4}, Follow: "last"},
		{Groups: []int{3, 2}, Direction: "down-up"},
	}
	readLengths = []int{12, 16, 24, 0}
)

// readLine builds one line of the evaluation; nil where the hand does not join its scales
// or it is shorter than its length.
func readLine(home, away string, shape exercise.Spec, length int, land string) *exercise.Exercise {
	spec := shape
	spec.Home, spec.Superimpose, spec.Land = home, []string{away}, land
	if slices.Equal(shape.Groups, []int{1, 1}) && !strings.Contains(home, "pentatonic") {
		return nil // nearly a chromatic scale, in which no ear finds two others
	}
	if length > 0 {
		spec.Land, spec.Cut = "none", fmt.Sprintf("1-%d", length)
	}
	ex, err := exercise.Build(spec)
	if err != nil {
		return nil
	}
	return ex
}

// writeReading writes the tables of the reading.
func writeReading(w io.Writer) {
	byDistance, byLength, byShape := map[string]*tally{}, map[string]*tally{}, map[string]*tally{}
	at := func(m map[string]*tally, key string) *tally {
		if m[key] == nil {
			m[key] = &tally{}
		}
		return m[key]
	}
	var all tally
	for _, home := range readHomes {
		for _, away := range readDistances {
			for _, shape := range readShapes {
				for _, length := range readLengths {
					ex := readLine(home, away, shape, length, "third")
					if ex == nil {
						continue
					}
					t := readBack(ex)
					all.add(t)
					at(byDistance, away).add(t)
					at(byLength, lengthName(length)).add(t)
					at(byShape, shapeName(shape)).add(t)
				}
			}
		}
	}
	fmt.Fprintf(w, "%d notes: %.1f %% right, %.1f %% exact.\n\n", all.notes, percent(all.right, all.notes), percent(all.exact, all.notes))
	table := func(head string, rows []string, m map[string]*tally) {
		fmt.Fprintf(w, "| %s | notes | right | exact |\n| --- | ---: | ---: | ---: |\n", head)
		for _, row := range rows {
			if t := m[row]; t != nil {
				fmt.Fprintf(w, "| %s | %d | %.1f %% | %.1f %% |\n", row, t.notes, percent(t.right, t.notes), percent(t.exact, t.notes))
			}
		}
		fmt.Fprintln(w)
	}
	table("distance", readDistances, byDistance)
	var lengths, shapes []string
	for _, l := range readLengths {
		lengths = append(lengths, lengthName(l))
	}
	for _, s := range readShapes {
		shapes = append(shapes, shapeName(s))
	}
	table("length", lengths, byLength)
	table("groups", shapes, byShape)
}

func lengthName(length int) string {
	if length == 0 {
		return "whole line, landed"
	}
	return fmt.Sprintf("%d notes", length)
}

func shapeName(s exercise.Spec) string {
	words := []string{line.FormatGroups(s.Groups)}
	for _, word := range []string{s.Order, s.Direction} {
		if word != "" {
			words = append(words, word)
		}
	}
	if s.Follow != "" {
		words = append(words, "follow "+s.Follow)
	}
	return strings.Join(words, ", ")
}
