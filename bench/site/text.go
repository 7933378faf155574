package site

import "strconv"

// Decimal writes a number with as many digits as it has.
func Decimal(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
