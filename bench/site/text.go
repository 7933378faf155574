package site

import "strconv"

// Count writes a number of things: "1 note", "3 notes".
func Count(n int, noun string) string {
	if n != 1 {
		noun += "s"
	}
	return strconv.Itoa(n) + " " + noun
}

// Decimal writes a number with as many digits as it has.
func Decimal(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
