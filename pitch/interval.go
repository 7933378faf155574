package pitch

import (
	"fmt"
	"strconv"
	"strings"
)

// An Interval is a distance between two names: a number of letters and a number
// of semitones, both negative when it goes down. A semitone up from G to A♭ is
// {1, 1}; to G♯ it would be {0, 1}, an augmented unison.
type Interval struct {
	Steps     int // letters
	Semitones int

	// AnyLetter is set if the player's word leaves the letter open: a tritone is
	// an augmented fourth or a diminished fifth, whichever [Relative] finds
	// easier to read. Steps is then the fourth's.
	AnyLetter bool
}

// Between returns the rising interval from a to the next b above it, within an
// octave.
func Between(a, b Name) Interval {
	steps := mod7(int(b.Letter - a.Letter))
	semitones := naturals[steps] + alteration(b.Class()-a.Class()-naturals[steps])
	return Interval{Steps: steps, Semitones: semitones}
}

// From returns the name at the interval from n.
func (i Interval) From(n Name) Name { return n.shift(i.Steps, i.Semitones) }

// down reports whether the interval goes down.
func (i Interval) down() bool { return i.Steps < 0 || i.Steps == 0 && i.Semitones < 0 }

// inverse returns the same interval in the other direction.
func (i Interval) inverse() Interval {
	return Interval{Steps: -i.Steps, Semitones: -i.Semitones, AnyLetter: i.AnyLetter}
}

// ordinals are the words for intervals by their number of letters; the index is
// Steps.
var ordinals = []string{
	"unison", "second", "third", "fourth", "fifth", "sixth", "seventh", "octave",
	"ninth", "tenth", "eleventh", "twelfth", "thirteenth", "fourteenth", "fifteenth",
}

// Words returns the interval as a player says it: "a semitone up", "a minor
// third down", "a tritone away", "in unison".
func (i Interval) Words() string {
	switch plain := i.plain(); plain {
	case "unison":
		return "in unison"
	case "tritone":
		return "a tritone away"
	default:
		return article(plain)
	}
}

// plain returns the shortest usual words for the interval, which [Relative] reads
// for up to three octaves: "semitone up", "minor third down", "tritone".
func (i Interval) plain() string {
	switch {
	case i == Interval{}:
		return "unison"
	case i.down():
		return i.inverse().size() + " down"
	case i.AnyLetter && i.Semitones == 6:
		return i.size()
	}
	return i.size() + " up"
}

// size names a rising interval without its direction.
func (i Interval) size() string {
	switch {
	case i.AnyLetter && i.Semitones == 6:
		return "tritone"
	case i.AnyLetter:
		return strconv.Itoa(i.Semitones) + " semitones"
	case i.Steps == 1 && i.Semitones == 1:
		return "semitone"
	case i.Steps == 1 && i.Semitones == 2:
		return "whole tone"
	}
	ordinal := strconv.Itoa(i.Steps+1) + "th"
	if i.Steps < len(ordinals) {
		ordinal = ordinals[i.Steps]
	}
	alter := i.Semitones - rise(i.Steps)
	if alter == 0 && perfect(i.Steps) {
		return ordinal // players say "a fourth up"
	}
	return quality(i.Steps, alter) + " " + ordinal
}

// perfect reports whether an interval of that many letters is perfect (unison,
// fourth, fifth, octave) and not major or minor.
func perfect(steps int) bool {
	switch steps % 7 {
	case 0, 3, 4:
		return true
	}
	return false
}

// quality returns the quality of an interval that is alter semitones wider than
// the perfect or major interval with the same number of letters.
func quality(steps, alter int) string {
	if perfect(steps) {
		switch {
		case alter == 0:
			return "perfect"
		case alter > 0:
			return times(alter) + "augmented"
		}
		return times(-alter) + "diminished"
	}
	switch {
	case alter == 0:
		return "major"
	case alter == -1:
		return "minor"
	case alter > 0:
		return times(alter) + "augmented"
	}
	return times(-alter-1) + "diminished"
}

// times returns how often an interval is augmented or diminished, in words.
func times(n int) string {
	switch n {
	case 1:
		return ""
	case 2:
		return "doubly "
	case 3:
		return "triply "
	}
	return fmt.Sprintf("%d-fold ", n)
}

// article puts "a" or "an" before a phrase that does not begin with a number.
func article(phrase string) string {
	switch {
	case phrase[0] >= '0' && phrase[0] <= '9':
		return phrase
	case strings.IndexByte("aeio", phrase[0]) >= 0:
		return "an " + phrase
	}
	return "a " + phrase
}
