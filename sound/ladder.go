package sound

import (
	"fmt"
	"strconv"
	"strings"

	"heddle/exercise"
	"heddle/pitch"
)

// A Ladder raises (or lowers) the tempo as the loops go by. The zero Ladder
// leaves it alone.
type Ladder struct {
	From, To float64 // quarter notes a minute
	Step     float64 // how much each rung adds, always positive
	Every    int     // loops on each rung
}

// ladderWant says how a ladder is written.
const ladderWant = `tempi and loops as in "60-96 by 6 every 2"`

// mostRungs bounds a ladder: 400 rungs climb from the slowest tempo to the
// fastest in steps of about one quarter note a minute.
const mostRungs = 400

// ParseLadder reads a ladder: "60-96 by 6 every 2"; "every" may be left out
// and is then 1. The empty string is no ladder.
func ParseLadder(s string) (Ladder, error) {
	bad := &pitch.InputError{What: "ladder", Value: s, Want: ladderWant}
	words := strings.Fields(strings.ToLower(strings.ReplaceAll(s, "–", "-")))
	if len(words) == 0 {
		return Ladder{}, nil
	}
	l := Ladder{Every: 1}
	from, to, found := strings.Cut(words[0], "-")
	if !found || len(words) != 3 && len(words) != 5 || words[1] != "by" {
		return Ladder{}, bad
	}
	for _, field := range []struct {
		text string
		into *float64
	}{{from, &l.From}, {to, &l.To}, {words[2], &l.Step}} {
		f, err := parseNumber("ladder", field.text, ladderWant)
		if err != nil {
			return Ladder{}, bad
		}
		*field.into = f
	}
	if len(words) == 5 {
		every, err := strconv.Atoi(words[4])
		if words[3] != "every" || err != nil {
			return Ladder{}, bad
		}
		l.Every = every
	}
	return l, l.check()
}

// String writes the ladder as ParseLadder reads it.
func (l Ladder) String() string {
	if l == (Ladder{}) {
		return ""
	}
	return fmt.Sprintf("%s-%s by %s every %d", number(l.From), number(l.To), number(l.Step), l.Every)
}

// check refuses a ladder that leads nowhere or out of the range of tempi.
func (l Ladder) check() error {
	if l == (Ladder{}) {
		return nil
	}
	want := ""
	switch {
	case !inTempoRange(l.From) || !inTempoRange(l.To):
		want = "both ends in " + tempoWant
	case !(l.Step > 0):
		want = "a step above 0"
	case l.Every < 1 || l.Every > mostLoops:
		want = fmt.Sprintf("every 1 to %d loops", mostLoops)
	case l.rungs() > mostRungs:
		want = fmt.Sprintf("at most %d rungs", mostRungs)
	default:
		return nil
	}
	return &pitch.InputError{What: "ladder", Value: l.String(), Want: want}
}

// inTempoRange reports whether a tempo is accepted.
func inTempoRange(t float64) bool { return t >= exercise.SlowestTempo && t <= exercise.FastestTempo }

// rungs returns how many tempi the ladder has. The last is To, even where
// the step before it is a short one.
func (l Ladder) rungs() int {
	way := max(l.To-l.From, l.From-l.To) / l.Step
	if way > mostRungs {
		return mostRungs + 1
	}
	whole := int(way)
	if float64(whole) < way {
		whole++
	}
	return whole + 1
}

// loops returns how many loops the whole ladder takes; 0 for no ladder.
func (l Ladder) loops() int {
	if l == (Ladder{}) {
		return 0
	}
	return l.rungs() * l.Every
}

// at returns the tempo of a loop; loops past the last rung stay there.
func (l Ladder) at(loop int, tempo float64) float64 {
	if l == (Ladder{}) {
		return tempo
	}
	rise := l.Step * float64(loop/l.Every)
	if l.To >= l.From {
		return min(l.From+rise, l.To)
	}
	return max(l.From-rise, l.To)
}
