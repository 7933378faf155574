package pitch

import (
	"math/bits"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// A mask is a set of pitch classes, bit n for class n.
type mask uint16

// chromaticMask holds all twelve classes.
const chromaticMask mask = 1<<12 - 1

// A setClass holds the facts about a set of pitch classes, up to transposition
// and inversion.
type setClass struct {
	forte          string
	prime, rahn    mask
	vector         [6]int
	transpositions int
	messiaen       int
}

// setClasses returns the class of every set of pitch classes, by mask. It is
// computed once and never changed.
var setClasses = sync.OnceValue(func() *[1 << 12]setClass {
	numbers := map[mask]string{}
	for _, row := range forteRows {
		m := primeMask(row.prime)
		numbers[primeForm(m, packedLeft)] = row.number
		size, ordinal, _ := strings.Cut(row.number, "-")
		if size != "6" {
			rest := chromaticMask &^ m
			numbers[primeForm(rest, packedLeft)] = strconv.Itoa(rest.size()) + "-" + ordinal
		}
	}
	numbers[0], numbers[chromaticMask] = "0-1", "12-1"
	var classes [1 << 12]setClass
	for m := range mask(1 << 12) {
		c := &classes[m]
		c.prime, c.rahn = primeForm(m, packedLeft), primeForm(m, packedRight)
		c.forte = numbers[c.prime]
		c.vector, c.transpositions = intervalVector(m), transpositions(m)
		c.messiaen = slices.Index(messiaenClasses[:], c.forte) + 1
	}
	return &classes
})

// primeMask reads a prime form of the table.
func primeMask(prime string) mask {
	var m mask
	for _, digit := range prime {
		m |= 1 << strings.IndexRune("0123456789te", digit)
	}
	return m
}

// maskOf returns the set of the names' classes.
func maskOf(names []Name) mask {
	var m mask
	for _, n := range names {
		m |= 1 << n.Class()
	}
	return m
}

// maskOfDegrees returns the set of the degrees' classes above the root.
func maskOfDegrees(degrees []Degree) mask {
	var m mask
	for _, d := range degrees {
		m |= 1 << d.Class()
	}
	return m
}

// size returns the number of classes in the set.
func (m mask) size() int { return bits.OnesCount16(uint16(m)) }

// has reports whether a class is in the set.
func (m mask) has(class int) bool { return m>>mod12(class)&1 == 1 }

// above returns the set counted from a class, so that the class becomes 0.
func (m mask) above(class int) mask {
	class = mod12(class)
	return (m>>class | m<<(12-class)) & chromaticMask
}

// inverted returns the set mirrored about class 0.
func (m mask) inverted() mask {
	var inverse mask
	for class := range 12 {
		if m.has(class) {
			inverse |= 1 << mod12(-class)
		}
	}
	return inverse
}

// classes returns the set's members, rising.
func (m mask) classes() []int {
	classes := make([]int, 0, 12)
	for class := range 12 {
		if m.has(class) {
			classes = append(classes, class)
		}
	}
	return classes
}

// primeForm returns the most compact of the set's rotations and inversions,
// counted from 0: the one with the smallest span or, in a tie, the tighter one.
func primeForm(m mask, tighter func(a, b mask) bool) mask {
	if m == 0 {
		return 0
	}
	best := chromaticMask
	for _, side := range [2]mask{m, m.inverted()} {
		for class := range 12 {
			form := side.above(class)
			if !form.has(0) {
				continue
			}
			span, bestSpan := bits.Len16(uint16(form)), bits.Len16(uint16(best))
			if span < bestSpan || span == bestSpan && tighter(form, best) {
				best = form
			}
		}
	}
	return best
}

// packedLeft is Forte's rule (1973): of two forms with the same span, the tighter
// has its notes further left, compared from the left.
func packedLeft(a, b mask) bool {
	differ := a ^ b
	return a&differ&-differ != 0
}

// packedRight is Rahn's rule (Basic Atonal Theory, 1980): the same, compared
// from the right.
func packedRight(a, b mask) bool { return a < b }

// intervalVector counts the intervals of 1 to 6 semitones between the set's
// members, each pair once.
func intervalVector(m mask) [6]int {
	var vector [6]int
	for i := range vector {
		vector[i] = (m & m.above(i+1)).size()
	}
	vector[5] /= 2 // a tritone is seen from both ends
	return vector
}

// transpositions counts the distinct transpositions of a set.
func transpositions(m mask) int {
	for by := 1; by < 12; by++ {
		if m.above(by) == m {
			return by
		}
	}
	return 12
}
