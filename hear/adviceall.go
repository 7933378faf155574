package hear

import (
	"fmt"
	"slices"
)

// unheard tells of written notes beyond what is listened for: they count as
// missed however they were played.
func (a *adviser) unheard() {
	beyond := 0
	for _, n := range a.ex.Notes {
		if key := n.Pitch.MIDI(); key < lowestHeard || key > highestHeard {
			beyond++
		}
	}
	if beyond > 0 {
		a.say("Only E1 to E6 is listened for: %s beyond and can't be marked.", counted(beyond, "note lies", "notes lie"))
	}
}

// began tells of a player who began in mid-line, or whose recording did, and
// returns the index of the first note that was played.
func (a *adviser) began() int {
	first := slices.IndexFunc(a.Marks, func(m NoteMark) bool { return m.Verdict != Missed })
	if first < stoppedAfter {
		return 0
	}
	a.say("You began at note %d, %s.", first+1, a.place(first))
	return first
}

// wentBack tells that notes were played again.
func (a *adviser) wentBack() {
	if n := len(a.Retried); n > 0 {
		a.say("You went back: %s played again, and the last attempt counts.", counted(n, "note was", "notes were"))
	}
}

func counted(n int, one, many string) string {
	switch n {
	case 0:
		return "none " + one
	case 1:
		return "one " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
