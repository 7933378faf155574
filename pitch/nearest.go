package pitch

// Nearest returns the spelling among valid that is the fewest slips away from
// what was typed, or "" when none is near enough to be what was meant. A slip
// is a letter added, dropped or changed, or two neighbours swapped (optimal
// string alignment distance). A tie goes to the earlier spelling.
func Nearest(typed string, valid []string) string {
	best, bestSlips := "", nearEnough(typed)+1
	for _, v := range valid {
		if slips := slipsBetween(typed, v, bestSlips); slips < bestSlips {
			best, bestSlips = v, slips
		}
	}
	return best
}

// longestTyped bounds the length, in bytes, of input for which a nearest
// spelling is looked for: no name of the trade is half as long, and the search
// grows with the product of the lengths.
const longestTyped = 80

// nearEnough returns how many slips still leave a typed word recognisable: one
// in three letters, and always one of two or more.
func nearEnough(typed string) int {
	if len(typed) > longestTyped || len([]rune(typed)) < 2 {
		return 0
	}
	return max(1, len([]rune(typed))/3)
}

// slipsBetween counts the slips that turn a into b, or returns at least limit
// as soon as there must be that many.
func slipsBetween(a, b string, limit int) int {
	s, t := []rune(a), []rune(b)
	if len(s)-len(t) >= limit || len(t)-len(s) >= limit {
		return limit
	}
	before, last, row := make([]int, len(t)+1), make([]int, len(t)+1), make([]int, len(t)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(s); i++ {
		row[0] = i
		for j := 1; j <= len(t); j++ {
			change := 1
			if s[i-1] == t[j-1] {
				change = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+change)
			if i > 1 && j > 1 && s[i-1] == t[j-2] && s[i-2] == t[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(t)]
}
