package exercise

import (
	"fmt"

	"heddle/neck"
)

// intoReach moves a line by octaves onto the instrument: the whole line, by the fewest
// octaves that bring most of its notes there, and then each note that is still out of
// reach. It returns a remark, or nothing if the line stays where it is.
func (g *Given) intoReach(in neck.Instrument) (remark string) {
	best, most := 0, -1
	for _, octaves := range []int{0, -1, 1, -2, 2, -3, 3, -4, 4, -5, 5} {
		reached := 0
		for _, n := range g.Notes {
			if len(in.SpotsOf(n.Pitch.MIDI()+12*octaves)) > 0 {
				reached++
			}
		}
		if reached > most {
			best, most = octaves, reached
		}
	}
	if best == 0 && most == len(g.Notes) {
		return ""
	}
	notes, alone := make([]GivenNote, len(g.Notes)), 0
	for i, n := range g.Notes {
		n.Pitch.Octave += best
		if len(in.SpotsOf(n.Pitch.MIDI())) == 0 {
			alone++
			for _, octaves := range []int{-1, 1, -2, 2, -3, 3, -4, 4, -5, 5, -6, 6, -7, 7, -8, 8, -9, 9} {
				if len(in.SpotsOf(n.Pitch.MIDI()+12*octaves)) > 0 {
					n.Pitch.Octave += octaves
					break
				}
			}
		}
		notes[i] = n
	}
	g.Notes = notes
	if best != 0 {
		remark = "the line moved " + octavesWords(best) + " into the reach of the " + in.Name
	}
	switch {
	case alone > 0 && remark != "":
		remark += fmt.Sprintf(", and %d %s further", alone, plural(alone, "note"))
	case alone > 0:
		remark = fmt.Sprintf("%d %s moved by octaves into the reach of the %s", alone, plural(alone, "note"), in.Name)
	}
	return remark
}

// octavesWords says how far up or down: "two octaves down".
func octavesWords(octaves int) string {
	way := " up"
	if octaves < 0 {
		octaves, way = -octaves, " down"
	}
	if octaves == 1 {
		return "an octave" + way
	}
	return countWord(octaves) + " octaves" + way
}
