package pitch

import (
	"slices"
	"strings"
)

// A draft is a chord while its symbol is being read: its quality and extension,
// changed by each further word. A word that changes nothing, or contradicts an
// earlier one, makes the symbol unreadable.
type draft struct {
	quality   string // as in qualityWords
	extension string
	degrees   []Degree
}

// modify reads everything after the quality and extension.
func (d *draft) modify(rest string) bool {
	open, separated := false, false
	for rest != "" {
		switch rest[0] {
		case '(':
			if open {
				return false
			}
			open, separated, rest = true, true, rest[1:]
			continue
		case ')':
			if !open || separated {
				return false
			}
			open, rest = false, rest[1:]
			continue
		case ',', '/':
			if separated || len(rest) == 1 {
				return false
			}
			separated, rest = true, rest[1:]
			continue
		}
		var ok bool
		if rest, ok = d.word(rest, separated); !ok {
			return false
		}
		separated = false
	}
	return !open && !separated
}

// word reads one word at the beginning of rest; separated reports whether a
// bracket, comma or slash comes before it.
func (d *draft) word(rest string, separated bool) (tail string, ok bool) {
	if tail, found := cutFold(rest, "sus"); found {
		return d.suspend(tail)
	}
	if tail, found := cutFold(rest, "add"); found {
		return d.addNumber(tail)
	}
	for _, omit := range []string{"no", "omit"} {
		if tail, found := cutFold(rest, omit); found {
			return d.omit(tail)
		}
	}
	if tail, found := cutFold(rest, "alt"); found {
		return tail, d.alter()
	}
	if tail, found := cutFold(rest, "aug"); found {
		return tail, d.put(Degree{Number: 5, Alter: 1})
	}
	for _, major := range majorWords {
		if tail, found := strings.CutPrefix(rest, major); found {
			if tail, ok := d.majorSeventh(tail); ok {
				return tail, true
			}
		}
	}
	if tail, ok := d.tension(rest); ok {
		return tail, true
	}
	if separated {
		return d.addNumber(rest)
	}
	return rest, false
}

// cutFold cuts a word off the beginning, in any case.
func cutFold(s, word string) (tail string, found bool) {
	if len(s) < len(word) || !strings.EqualFold(s[:len(word)], word) {
		return s, false
	}
	return s[len(word):], true
}

// put adds an altered degree in place of the natural one.
func (d *draft) put(altered Degree) bool {
	natural := Degree{Number: altered.Number}
	if altered.Number == 5 && d.isDim() || d.sounds(altered) {
		return false
	}
	d.degrees = slices.DeleteFunc(d.degrees, func(x Degree) bool { return x == natural })
	d.degrees = append(d.degrees, altered)
	return true
}

// add adds a degree.
func (d *draft) add(degree Degree) bool {
	if d.sounds(degree) || d.number(degree.Number) {
		return false
	}
	d.degrees = append(d.degrees, degree)
	return true
}

// drop removes every degree with the number and reports whether there was one.
func (d *draft) drop(number int) bool {
	before := len(d.degrees)
	d.degrees = slices.DeleteFunc(d.degrees, func(x Degree) bool { return x.Number == number })
	return len(d.degrees) < before
}

func (d *draft) number(number int) bool {
	return slices.ContainsFunc(d.degrees, func(x Degree) bool { return x.Number == number })
}

func (d *draft) has(number, alter int) bool {
	return slices.Contains(d.degrees, Degree{Number: number, Alter: alter})
}

// sounds reports whether the chord already has the degree's pitch class.
func (d *draft) sounds(degree Degree) bool {
	return slices.ContainsFunc(d.degrees, func(x Degree) bool { return x.Class() == degree.Class() })
}

// isDim reports whether the quality is diminished or half-diminished, whose
// third and fifth are fixed.
func (d *draft) isDim() bool { return d.quality == "dim" || d.quality == "ø" }
