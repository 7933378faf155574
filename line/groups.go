package line

import (
	"strconv"
	"strings"

	"heddle/pitch"
)

// MostInGroup is the most notes in a group: beyond an octave of any scale, a group
// is a run.
const MostInGroup = 12

// mostScales is how many scales can take turns: one on each of the twelve notes.
const mostScales = 12

// Run, in place of the sizes, is the plain run through the union of the scales.
const Run = 0

// run is how Run is written.
const run = "run"

// IsRun reports whether sizes are those of a run.
func IsRun(sizes []int) bool { return len(sizes) == 1 && sizes[0] == Run }

// checkGroup returns an error for a group size outside 1 to 12.
func checkGroup(size int) error {
	if size < 1 || size > MostInGroup {
		return groupsError(strconv.Itoa(size))
	}
	return nil
}

// ParseGroups reads the notes taken from each scale in turn, "3,3" or "3 2", or "run".
func ParseGroups(s string) ([]int, error) {
	if foldWord(s) == run {
		return []int{Run}, nil
	}
	fields := strings.Fields(s)
	if strings.Contains(s, ",") {
		fields = strings.Split(s, ",")
	}
	if len(fields) == 0 || len(fields) > mostScales {
		return nil, groupsError(s)
	}
	sizes := make([]int, len(fields))
	for i, field := range fields {
		n, ok := parseCount(strings.TrimSpace(field))
		if !ok || checkGroup(n) != nil {
			return nil, groupsError(s)
		}
		sizes[i] = n
	}
	return sizes, nil
}

// FormatGroups returns what ParseGroups reads: "3,3".
func FormatGroups(sizes []int) string {
	if IsRun(sizes) {
		return run
	}
	return joinInts(sizes, ",")
}

func groupsError(typed string) error {
	return &pitch.InputError{What: "groups", Value: typed, Want: "1 to 12 notes for each scale, such as 3,3, or run", Nearest: pitch.Nearest(foldWord(typed), []string{run})}
}

func joinInts(ns []int, between string) string {
	words := make([]string, len(ns))
	for i, n := range ns {
		words[i] = strconv.Itoa(n)
	}
	return strings.Join(words, between)
}
