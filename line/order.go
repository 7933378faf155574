package line

import (
	"fmt"
	"slices"
	"strings"

	"heddle/pitch"
)

// An order is the digital pattern of a group: the scale steps it plays, one for
// each note, counted in the direction of the line from 1. Step 1 is where the group
// starts by the rules of the line, even if it is played later or not at all. Steps
// may repeat (1 2 1 3) and skip (1 3 5). The nil order is straight: 1 2 3 and so on.

// mostSteps is the farthest step of an order: two octaves of the twelve notes.
const mostSteps = 24

const straight = "straight"

// ParseOrder reads one order for all scales, or one for each with "/" between
// them: "straight", "1 3 2", "1 3 2/1 2". It returns one order for each group size;
// a straight one is nil. An order must have as many steps as its group has notes.
func ParseOrder(s string, sizes []int) ([][]int, error) {
	typed := strings.Split(s, "/")
	if len(typed) != 1 && len(typed) != len(sizes) {
		return nil, &pitch.InputError{What: "order", Value: s,
			Want: fmt.Sprintf("one order for all, or %d with / between them, one for each scale", len(sizes))}
	}
	orders := make([][]int, len(sizes))
	for i, size := range sizes {
		one := typed[0]
		if len(typed) > 1 {
			one = typed[i]
		}
		order, ok := parseSteps(one)
		if !ok {
			return nil, orderError(s, size)
		}
		if err := checkOrder(order, size); err != nil {
			return nil, orderError(s, size)
		}
		if !isStraight(order) {
			orders[i] = order
		}
	}
	return orders, nil
}

// FormatOrder returns what ParseOrder reads: "straight" if every order is, one order
// if all are the same, otherwise one for each with "/".
func FormatOrder(orders [][]int) string {
	words := make([]string, len(orders))
	for i, order := range orders {
		words[i] = straight
		if !isStraight(order) {
			words[i] = joinInts(order, " ")
		}
	}
	if len(words) == 0 {
		return straight
	}
	for _, word := range words {
		if word != words[0] {
			return strings.Join(words, "/")
		}
	}
	return words[0]
}

// parseSteps reads one order; "straight" is nil.
func parseSteps(s string) ([]int, bool) {
	if foldWord(s) == straight {
		return nil, true
	}
	fields := strings.FieldsFunc(s, func(r rune) bool { return r == ',' || r == ' ' })
	if len(fields) == 0 || len(fields) > MostInGroup {
		return nil, false
	}
	steps := make([]int, len(fields))
	for i, field := range fields {
		n, ok := parseCount(field)
		if !ok {
			return nil, false
		}
		steps[i] = n
	}
	return steps, true
}

// checkOrder returns an error for an order that does not fit a group of the size.
func checkOrder(order []int, size int) error {
	if order == nil {
		return nil
	}
	if len(order) != size || slices.Min(order) < 1 || slices.Max(order) > mostSteps {
		return orderError(joinInts(order, " "), size)
	}
	return nil
}

func orderError(typed string, size int) error {
	notes := fmt.Sprintf("%d steps for a group of %d notes", size, size)
	if size == 1 {
		notes = "1 step for a group of 1 note"
	}
	return &pitch.InputError{What: "order", Value: typed,
		Want:    fmt.Sprintf("straight, or %s, each from 1 to %d", notes, mostSteps),
		Nearest: pitch.Nearest(foldWord(typed), []string{straight})}
}

// isStraight reports whether the order plays 1 2 3 and so on.
func isStraight(order []int) bool {
	for i, step := range order {
		if step != i+1 {
			return false
		}
	}
	return true
}

// farthest returns the step of the order farthest in the direction.
func farthest(order []int, size int) int {
	if order == nil {
		return size
	}
	return slices.Max(order)
}
