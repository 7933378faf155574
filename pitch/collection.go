package pitch

import (
	"strconv"
	"strings"
)

// A Collection is the union of the notes of several scales.
type Collection struct {
	Notes          []Name // in rising order from the first scale's root
	Forte          string // "10-5"
	PrimeForm      []int  // Forte's
	PrimeFormRahn  []int
	IntervalVector [6]int
	Transpositions int              // distinct ones, 1 to 12
	Messiaen       int              // the number of the mode of limited transposition, 1 to 7, or 0
	Names          []CollectionName // most common first
	Missing        []Name           // what is missing from the twelve
}

// Collect returns the union of the scales. If two scales spell a note
// differently, the earlier scale's name is used.
func Collect(first Scale, more ...Scale) Collection {
	names := append([]Name(nil), first.Notes...)
	for _, s := range more {
		names = append(names, s.Notes...)
	}
	return collect(names, false)
}

// CollectNames returns the collection of the names, in rising order from the
// first, which is the bass of a chord. Of two names for one note, the earlier is used.
func CollectNames(names []Name) Collection { return collect(names, true) }

func collect(names []Name, bass bool) Collection {
	m := maskOf(names)
	class := &setClasses()[m]
	c := Collection{
		Forte:          class.forte,
		PrimeForm:      class.prime.classes(),
		PrimeFormRahn:  class.rahn.classes(),
		IntervalVector: class.vector,
		Transpositions: class.transpositions,
		Messiaen:       class.messiaen,
	}
	first := 0
	if len(names) > 0 {
		first = names[0].Class()
	}
	var named [12]*Name
	for i := len(names) - 1; i >= 0; i-- {
		named[names[i].Class()] = &names[i]
	}
	flats := leansFlat(names)
	for i := range 12 {
		at := mod12(first + i)
		if n := named[at]; n != nil {
			c.Notes = append(c.Notes, *n)
		} else {
			c.Missing = append(c.Missing, PlainName(at, flats))
		}
	}
	c.setNames(m, bass)
	return c
}

// Cardinality returns the number of different notes.
func (c Collection) Cardinality() int { return len(c.Notes) }

// leansFlat reports whether the names have at least as many flats as sharps.
func leansFlat(names []Name) bool { return (Scale{Notes: names}).accidentalSum() <= 0 }

// PlainName returns the name of a pitch class in the chromatic scale with flats,
// or with sharps.
func PlainName(class int, flat bool) Name {
	names := commonNames(class)
	if flat == (names[0].Accidental < 0) || len(names) == 1 {
		return names[0]
	}
	return names[1]
}

// Digits writes pitch classes or counts without spaces where each is one
// digit, and with spaces otherwise.
func Digits(numbers []int) string {
	sep, list := "", make([]string, len(numbers))
	for i, n := range numbers {
		list[i] = strconv.Itoa(n)
		if n > 9 {
			sep = " "
		}
	}
	return strings.Join(list, sep)
}
