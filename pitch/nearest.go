package pitch

// Nearest returns the valid spelling closest to what was typed, or "" if none is
// close enough. Distance is the number of letters added, dropped or changed, or
// of neighbours swapped (optimal string alignment distance). In a tie, the
// earlier spelling wins.
func Nearest(typed string, valid []string) string {
	best, bestSlips := "", nearEnough(typed)+1
	for _, v := range valid {
		if slips := slipsBetween(typed, v, bestSlips); slips < bestSlips {
			best, bestSlips = v, slips
		}
	}
	return best
}

// longestTyped is the longest input, in bytes, for which a nearest spelling is
// looked for. The longest name is half as long, and the search takes time in
// proportion to both lengths.
const longestTyped = 80

// nearEnough returns how many slips leave a word recognisable: one in three
// letters, and one in any word of two letters or more.
func nearEnough(typed string) int {
	if len(typed) > longestTyped || len([]rune(typed)) < 2 {
		return 0
	}
	return max(1, len([]rune(typed))/3)
}

// slipsBetween returns the number of slips that turn a into b, or limit if the
// lengths alone make it that many.
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
