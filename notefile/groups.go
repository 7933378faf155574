package notefile

import (
	"strings"

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

// What runs are called that belong to no scale: the notes that lead home, and
// the passing notes of a line from elsewhere.
const (
	landingLabel   = "landing"
	chromaticLabel = "chromatic"
)

// labels returns the word over each run: its scale's root, short enough to
// stand over two notes, if no other scale has the same root and the title or
// an earlier label tells the whole name; else the name.
func labels(ex *exercise.Exercise, runs []run) []string {
	owner := map[string]string{}
	shared := map[string]bool{}
	for _, s := range ex.Scales {
		root, name := ex.Naming.Name(s.Root), scaleName(ex, s)
		if other, ok := owner[root]; ok && other != name {
			shared[root] = true
		}
		owner[root] = name
	}
	told := map[string]bool{}
	for _, s := range titleScales(ex) {
		told[scaleName(ex, s)] = true
	}
	words := make([]string, len(runs))
	for i, r := range runs {
		words[i] = scaleNameOf(ex, r)
		if s, ok := scaleOf(ex, r); ok && told[words[i]] {
			if root := ex.Naming.Name(s.Root); !shared[root] {
				words[i] = root
			}
			continue
		}
		told[words[i]] = true
	}
	return words
}

// scaleOf returns the scale of a run; a landing has none.
func scaleOf(ex *exercise.Exercise, r run) (exercise.Scale, bool) {
	if r.Landing || r.Scale < 0 || r.Scale >= len(ex.Scales) {
		return exercise.Scale{}, false
	}
	return ex.Scales[r.Scale], true
}

// scaleNameOf returns the whole name of the scale of a run.
func scaleNameOf(ex *exercise.Exercise, r run) string {
	if s, ok := scaleOf(ex, r); ok {
		return scaleName(ex, s)
	}
	if r.Landing {
		return landingLabel
	}
	return chromaticLabel
}

// scaleName returns a scale's name in the exercise's naming.
func scaleName(ex *exercise.Exercise, s exercise.Scale) string {
	return ex.Naming.Name(s.Root) + " " + s.Type.Name
}

// titleScales returns the scales that the title names: home and those
// superimposed on it, of the first section.
func titleScales(ex *exercise.Exercise) []exercise.Scale {
	for i, s := range ex.Scales {
		if i > 0 && s.Home {
			return ex.Scales[:i]
		}
	}
	return ex.Scales
}

// titleOf names an exercise by its scales and its first chord: "G minor
// pentatonic with A♭ minor pentatonic over Gm7".
func titleOf(ex *exercise.Exercise) string {
	var names []string
	for _, s := range titleScales(ex) {
		names = append(names, scaleName(ex, s))
	}
	var title string
	if len(names) > 0 {
		title = names[0]
	}
	if len(names) > 1 {
		title += " with " + strings.Join(names[1:], " and ")
	}
	if len(ex.Chords) > 0 && ex.Chords[0].Symbol != "" {
		title += " over " + ex.Chords[0].Display(ex.Naming)
	}
	return title
}

// bracketLines are the lines over groups of home, of the first superimposed
// scale, of the second and of any further one, told apart without colour.
var bracketLines = [...]string{"solid", "dashed", "dotted", "wavy"}

// bracketLine returns the line over a run.
func bracketLine(ex *exercise.Exercise, r run) string {
	if _, ok := scaleOf(ex, r); !ok {
		return bracketLines[0]
	}
	away := 0
	for i := r.Scale; i > 0 && !ex.Scales[i].Home; i-- {
		away++
	}
	return bracketLines[min(away, len(bracketLines)-1)]
}
