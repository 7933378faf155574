package notefile

import (
	"heddle/exercise"
	"heddle/line"
)

// A run is a stretch of consecutive notes that stand together: a group of the
// pattern, or the landing.
type run struct {
	First, Last int // indices of notes
	Scale       int // of its first note, or line.Chromatic
	Landing     bool
}

// runsOf cuts the notes of a line in its groups.
func runsOf(notes []exercise.Note) []run {
	var runs []run
	for i, n := range notes {
		landing := n.Role == line.LandingRole
		if last := len(runs) - 1; last >= 0 && runs[last].Landing == landing && (landing || notes[i-1].Group == n.Group) {
			runs[last].Last = i
			continue
		}
		runs = append(runs, run{First: i, Last: i, Scale: n.Scale, Landing: landing})
	}
	return runs
}

// landingLabel marks the notes that lead home.
const landingLabel = "landing"

// labels returns the words over each run: the scale's whole name the first
// time, then its root, if no other scale has the same root.
func labels(ex *exercise.Exercise, runs []run) []string {
	owner := map[string]string{}
	shared := map[string]bool{}
	for _, s := range ex.Scales {
		root := s.Root.Symbol()
		if name, ok := owner[root]; ok && name != s.Symbol() {
			shared[root] = true
		}
		owner[root] = s.Symbol()
	}
	words := make([]string, len(runs))
	told := map[string]bool{}
	for i, r := range runs {
		if r.Landing || r.Scale < 0 || r.Scale >= len(ex.Scales) {
			words[i] = landingLabel
			continue
		}
		s := ex.Scales[r.Scale]
		words[i] = s.Symbol()
		if root := s.Root.Symbol(); told[s.Symbol()] && !shared[root] {
			words[i] = root
		}
		told[s.Symbol()] = true
	}
	return words
}

// bracketLines are the lines over groups of home, of the first superimposed
// scale, of the second and of any further one, told apart without colour.
var bracketLines = [...]string{"solid", "dashed", "dotted", "wavy"}

// bracketLine returns the line over a run.
func bracketLine(ex *exercise.Exercise, r run) string {
	if r.Landing || r.Scale < 0 || r.Scale >= len(ex.Scales) {
		return bracketLines[0]
	}
	away := 0
	for i := r.Scale; i > 0 && !ex.Scales[i].Home; i-- {
		away++
	}
	return bracketLines[min(away, len(bracketLines)-1)]
}

// scaleNameOf returns the whole name of the scale of a run.
func scaleNameOf(ex *exercise.Exercise, r run) string {
	if r.Landing || r.Scale < 0 || r.Scale >= len(ex.Scales) {
		return landingLabel
	}
	return ex.Scales[r.Scale].Symbol()
}
