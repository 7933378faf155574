package melody

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"heddle/exercise"
	"heddle/line"
	"heddle/pitch"
)

// A Part is the notes of one part of a file, in any order.
type Part struct {
	Name  string
	Notes []exercise.GivenNote
}

// melodic is the share of onsets with a single note from which a part counts
// as a melody: one chord in ten notes is an accent, not accompaniment.
const melodic = 0.9

// Choose returns the index of the part that holds the line: the one that is wanted by
// its name or its number, counted from 1; without a wish, the first that is a melody,
// or, if there is none, the one nearest to it. It returns −1 if no part has notes.
func Choose(parts []Part, wanted string) (int, error) {
	if wanted == "" || len(parts) == 0 {
		return likeliest(parts), nil
	}
	if number, err := strconv.Atoi(wanted); err == nil && number >= 1 && number <= len(parts) {
		return number - 1, nil
	}
	for i, p := range parts {
		if strings.EqualFold(p.Name, wanted) {
			return i, nil
		}
	}
	return -1, &pitch.InputError{What: "part", Value: wanted, Want: "a number or name of " + list(parts)}
}

// mostListed is how many parts a list names.
const mostListed = 12

// list names the parts with their numbers.
func list(parts []Part) string {
	var words []string
	for i, p := range parts[:min(len(parts), mostListed)] {
		words = append(words, fmt.Sprintf("%d %q", i+1, p.Name))
	}
	if len(parts) > mostListed {
		words = append(words, fmt.Sprintf("and %d more", len(parts)-mostListed))
	}
	return strings.Join(words, ", ")
}

// likeliest returns the part that is most like a melody.
func likeliest(parts []Part) int {
	best, bestShare := -1, -1.0
	for i, p := range parts {
		share := singleShare(p.Notes)
		if share >= melodic {
			return i
		}
		if share > bestShare {
			best, bestShare = i, share
		}
	}
	return best
}

// singleShare returns the share of onsets at which one note begins, or −1
// without notes.
func singleShare(notes []exercise.GivenNote) float64 {
	at := map[line.Beat]int{}
	for _, n := range notes {
		at[n.Start]++
	}
	single := 0
	for _, together := range at {
		if together == 1 {
			single++
		}
	}
	if len(at) == 0 {
		return -1
	}
	return float64(single) / float64(len(at))
}

// Take makes a part the line of the import. If there were others, a remark says
// which was taken.
func (im *Import) Take(parts []Part, chosen int) {
	for _, p := range parts {
		im.Parts = append(im.Parts, p.Name)
	}
	im.Part = parts[chosen].Name
	if len(parts) > 1 {
		im.Remark("the line is that of part %d of %d: %s", chosen+1, len(parts), list(parts))
	}
	im.Notes = im.melody(parts[chosen].Notes)
}

// melody makes one voice of notes: the highest of those that begin together is
// kept, and a note that still sounds when the next begins is cut short.
func (im *Import) melody(notes []exercise.GivenNote) []exercise.GivenNote {
	slices.SortStableFunc(notes, func(a, b exercise.GivenNote) int {
		return cmp.Or(cmp.Compare(a.Start, b.Start), cmp.Compare(b.Pitch.MIDI(), a.Pitch.MIDI()))
	})
	voice := notes[:0]
	chords, overlaps := 0, 0
	inChord := false
	for _, n := range notes {
		last := len(voice) - 1
		if last >= 0 && voice[last].Start == n.Start {
			if !inChord {
				chords++
			}
			inChord = true
			continue
		}
		inChord = false
		if last >= 0 && voice[last].End() > n.Start {
			voice[last].Duration = n.Start - voice[last].Start
			overlaps++
		}
		voice = append(voice, n)
	}
	if chords > 0 {
		im.Remark("the highest note of %s is kept", pitch.Count(chords, "chord"))
	}
	if overlaps > 0 {
		im.Remark("%s cut short where the next begins", pitch.Count(overlaps, "note"))
	}
	return voice
}

// AddChord appends a chord symbol. It replaces the one before if both begin at
// the same place.
func AddChord(chords []exercise.GivenChord, c exercise.GivenChord) []exercise.GivenChord {
	if last := len(chords) - 1; last >= 0 && chords[last].Start >= c.Start {
		chords = chords[:last]
	}
	return append(chords, c)
}
