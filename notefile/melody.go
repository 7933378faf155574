package notefile

import (
	"cmp"
	"slices"
)

// A part is the notes of one part of a file, in any order.
type part struct {
	Name  string
	Notes []Note
}

// melodic is the share of onsets with a single note from which a part is
// taken for a melody: one chord in ten notes is an accent, not accompaniment.
const melodic = 0.9

// choosePart returns the index of the part that holds the line: the first that
// is a melody, or, if there is none, the one nearest to it; −1 if no part has
// notes.
func choosePart(parts []part) int {
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
func singleShare(notes []Note) float64 {
	at := map[int]int{}
	for _, n := range notes {
		at[int(n.Start)]++
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

// take makes a part the import's line, and says which it is where there was a
// choice.
func (im *Import) take(parts []part, chosen int) {
	for _, p := range parts {
		im.Parts = append(im.Parts, p.Name)
	}
	im.Part = parts[chosen].Name
	if len(parts) > 1 {
		im.remark("the line is that of %q, one of %d parts", im.Part, len(parts))
	}
	im.Notes = im.melody(parts[chosen].Notes)
}

// melody makes one voice of notes: of those that begin together the highest
// stays, and a note that still sounds when the next begins is cut short.
func (im *Import) melody(notes []Note) []Note {
	slices.SortStableFunc(notes, func(a, b Note) int {
		return cmp.Or(cmp.Compare(a.Start, b.Start), cmp.Compare(b.Pitch.MIDI(), a.Pitch.MIDI()))
	})
	var voice []Note
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
		im.remark("the highest note of %s is kept", count(chords, "chord"))
	}
	if overlaps > 0 {
		im.remark("%s cut short where the next begins", count(overlaps, "note"))
	}
	return voice
}

// addChord appends a chord symbol in time; one that begins where the one
// before does takes its place.
func addChord(chords []ChordSymbol, c ChordSymbol) []ChordSymbol {
	if last := len(chords) - 1; last >= 0 && chords[last].Start >= c.Start {
		chords = chords[:last]
	}
	return append(chords, c)
}
