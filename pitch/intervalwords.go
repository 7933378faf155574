package pitch

import (
	"strconv"
	"strings"
)

// The widest interval that is read, in letters and semitones: three octaves.
// Scales further apart do not share a neck.
const (
	widestSteps     = 21
	widestSemitones = 36
)

// nearestInterval returns the interval whose usual words are closest to s.
func nearestInterval(s string) string {
	var plain []string
	for steps := range 8 {
		for _, alter := range []int{0, -1, 1} {
			i := Interval{Steps: steps, Semitones: rise(steps) + alter}
			if steps > 0 && i.Semitones > 0 {
				plain = append(plain, i.size()+" up", i.size()+" down")
			}
		}
	}
	plain = append(plain, "tritone", "tritone up", "tritone down", "unison")
	return Nearest(strings.TrimPrefix(strings.ToLower(strings.Join(strings.Fields(s), " ")), "a "), plain)
}

// cutInterval reads an interval at the beginning of a text, in a player's words,
// and returns the words after it: a semitone, a whole tone, a tritone, a quality
// and an ordinal ("minor third", "perfect 4th"), their short forms ("m3", "P4",
// "aug4"), or a number of semitones; then up or down (up if neither is given).
// It also reads a leading "a" and "up a minor third". A unison, fourth, fifth or
// octave needs no quality.
func cutInterval(words []string) (i Interval, rest []string, ok bool) {
	words = splitHyphens(words)
	down, found := false, false
	if len(words) > 0 {
		if down, found = direction(words[0]); found {
			words = words[1:]
		}
	}
	if len(words) > 1 && (words[0] == "a" || words[0] == "an") {
		words = words[1:]
	}
	i, rest, ok = cutSize(words)
	if !ok {
		return Interval{}, nil, false
	}
	if !found && len(rest) > 0 {
		if down, found = direction(rest[0]); found {
			rest = rest[1:]
		}
	}
	if down {
		i = i.inverse()
	}
	return i, rest, true
}

// splitHyphens turns "half-step" into two words but leaves "4-fold" whole.
func splitHyphens(words []string) []string {
	var split []string
	for _, w := range words {
		if strings.HasSuffix(w, "-fold") {
			split = append(split, w)
			continue
		}
		split = append(split, strings.FieldsFunc(w, func(r rune) bool { return r == '-' })...)
	}
	return split
}

// direction reads a word for up or down.
func direction(word string) (down, ok bool) {
	switch strings.ToLower(word) {
	case "up", "above", "higher":
		return false, true
	case "down", "below", "lower":
		return true, true
	}
	return false, false
}

// cutSize reads the size of a rising interval at the beginning of words.
func cutSize(words []string) (i Interval, rest []string, ok bool) {
	if len(words) == 0 {
		return Interval{}, nil, false
	}
	first, second := strings.ToLower(words[0]), ""
	if len(words) > 1 {
		second = strings.ToLower(words[1])
	}
	switch first {
	case "semitone", "halfstep":
		return Interval{Steps: 1, Semitones: 1}, words[1:], true
	case "tone", "wholestep":
		return Interval{Steps: 1, Semitones: 2}, words[1:], true
	case "tritone":
		return Interval{Steps: 3, Semitones: 6, AnyLetter: true}, words[1:], true
	case "half", "whole":
		if second == "step" || second == "tone" {
			semitones := map[string]int{"half": 1, "whole": 2}[first]
			return Interval{Steps: 1, Semitones: semitones}, words[2:], true
		}
		return Interval{}, nil, false
	}
	if i, ok := counted(first, second); ok {
		return i, words[2:], true
	}
	if i, ok := shortInterval(words[0]); ok {
		return i, words[1:], true
	}
	return cutQuality(words)
}

// counted reads "3 semitones", "four semitones" or "2 octaves".
func counted(number, unit string) (Interval, bool) {
	n, ok := smallNumber(number)
	if !ok {
		return Interval{}, false
	}
	switch unit {
	case "semitone", "semitones":
	case "octave", "octaves":
		n *= 12
	default:
		return Interval{}, false
	}
	if n > widestSemitones {
		return Interval{}, false
	}
	// The letters that players give a bare number of semitones.
	steps := [12]int{0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6}[n%12] + 7*(n/12)
	return Interval{Steps: steps, Semitones: n, AnyLetter: n%12 == 6}, true
}

// smallNumber reads a count in digits, or in words up to twelve.
func smallNumber(s string) (int, bool) {
	for i, word := range []string{"one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"} {
		if s == word {
			return i + 1, true
		}
	}
	n, err := strconv.Atoi(s)
	return n, err == nil && n >= 0 && n <= widestSemitones && s[0] != '+'
}

// shortInterval reads a quality and a number in one word: "m3", "P4", "aug4".
// Case matters only for a single letter: m is minor, M major.
func shortInterval(word string) (Interval, bool) {
	head := strings.TrimRight(word, "0123456789")
	steps, ok := ordinalSteps(word[len(head):])
	if !ok {
		return Interval{}, false
	}
	long := map[string]string{"m": "minor", "M": "major", "P": "perfect", "p": "perfect", "A": "augmented", "d": "diminished"}[head]
	if long == "" {
		if len(head) < 3 {
			return Interval{}, false
		}
		long = strings.ToLower(head)
	}
	return qualified(long, 1, steps)
}

// cutQuality reads a quality and an ordinal: "doubly augmented fourth",
// "minor 3rd", "fifth".
func cutQuality(words []string) (i Interval, rest []string, ok bool) {
	if steps, ok := ordinalSteps(words[0]); ok && perfect(steps) && words[0] != strconv.Itoa(steps+1) {
		return Interval{Steps: steps, Semitones: rise(steps)}, words[1:], true
	}
	fold := 1
	switch first := strings.ToLower(words[0]); {
	case first == "doubly":
		fold, words = 2, words[1:]
	case first == "triply":
		fold, words = 3, words[1:]
	case strings.HasSuffix(first, "-fold"):
		n, ok := smallNumber(strings.TrimSuffix(first, "-fold"))
		if !ok || n < 4 {
			return Interval{}, nil, false
		}
		fold, words = n, words[1:]
	}
	if len(words) < 2 {
		return Interval{}, nil, false
	}
	steps, ok := ordinalSteps(words[1])
	if !ok {
		return Interval{}, nil, false
	}
	i, ok = qualified(strings.ToLower(words[0]), fold, steps)
	return i, words[2:], ok
}

// ordinalSteps reads "third", "3rd" or "3" as a number of letters.
func ordinalSteps(word string) (steps int, ok bool) {
	word = strings.ToLower(word)
	for i, o := range ordinals {
		if word == o {
			return i, true
		}
	}
	for _, ending := range []string{"st", "nd", "rd", "th"} {
		word = strings.TrimSuffix(word, ending)
	}
	n, err := strconv.Atoi(word)
	return n - 1, err == nil && n >= 1 && n <= widestSteps+1
}

// qualified builds an interval from a quality in words; fold counts how often
// it is augmented or diminished.
func qualified(quality string, fold, steps int) (Interval, bool) {
	alter := 0
	switch quality {
	case "perfect", "perf":
		if !perfect(steps) {
			return Interval{}, false
		}
	case "major", "maj":
		if perfect(steps) {
			return Interval{}, false
		}
	case "minor", "min":
		alter = -1
		if perfect(steps) {
			return Interval{}, false
		}
	case "augmented", "aug":
		alter = fold
	case "diminished", "dim":
		alter = -fold
		if !perfect(steps) {
			alter--
		}
	default:
		return Interval{}, false
	}
	if fold > 1 && alter > -fold && alter < fold {
		return Interval{}, false
	}
	return Interval{Steps: steps, Semitones: rise(steps) + alter}, true
}
