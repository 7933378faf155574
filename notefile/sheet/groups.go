package sheet

import (
	"heddle/exercise"
	"heddle/finger"
	"heddle/line"
)

// A Run is a stretch of notes under one label: a group of the pattern, or the
// landing.
type Run struct {
	First, Last int // indices of notes
	Scale       int // of its first note that has one, or line.Chromatic
	Landing     bool
}

// Runs divides the notes of a line into its groups.
func Runs(notes []exercise.Note) []Run {
	var runs []Run
	for i, n := range notes {
		landing := n.Role == line.LandingRole
		if last := len(runs) - 1; last >= 0 && runs[last].Landing == landing && (landing || notes[i-1].Group == n.Group) {
			runs[last].Last = i
			if runs[last].Scale == line.Chromatic && !landing {
				runs[last].Scale = n.Scale
			}
			continue
		}
		runs = append(runs, Run{First: i, Last: i, Scale: n.Scale, Landing: landing})
	}
	return runs
}

// Labels of runs that belong to no scale: the landing, and the passing notes
// of an imported line.
const (
	LandingLabel   = "landing"
	chromaticLabel = "chromatic"
)

// Labels returns the label of each run: the scale's root, short enough for two
// notes, if no other scale has that root and the title or an earlier label has
// given the full name; otherwise the full name.
func Labels(ex *exercise.Exercise, runs []Run) []string {
	owner := map[string]string{}
	shared := map[string]bool{}
	for _, s := range ex.Scales {
		root, name := ex.Naming.Name(s.Root), ex.Naming.Scale(s.Scale)
		if other, ok := owner[root]; ok && other != name {
			shared[root] = true
		}
		owner[root] = name
	}
	named := map[string]bool{}
	for _, s := range ex.FirstScales() {
		named[ex.Naming.Scale(s.Scale)] = true
	}
	labels := make([]string, len(runs))
	for i, r := range runs {
		labels[i] = ScaleName(ex, r)
		if s, ok := ScaleOf(ex, r); ok && named[labels[i]] {
			if root := ex.Naming.Name(s.Root); !shared[root] {
				labels[i] = root
			}
			continue
		}
		named[labels[i]] = true
	}
	return labels
}

// ScaleOf returns the scale of a run. A landing has none.
func ScaleOf(ex *exercise.Exercise, r Run) (exercise.Scale, bool) {
	if r.Landing || r.Scale < 0 || r.Scale >= len(ex.Scales) {
		return exercise.Scale{}, false
	}
	return ex.Scales[r.Scale], true
}

// ScaleName returns the full name of the scale of a run, or what the run is
// called instead.
func ScaleName(ex *exercise.Exercise, r Run) string {
	if s, ok := ScaleOf(ex, r); ok {
		return ex.Naming.Scale(s.Scale)
	}
	if r.Landing {
		return LandingLabel
	}
	return chromaticLabel
}

// Legato reports whether a stroke is the fretting hand's own.
func Legato(s finger.Stroke) bool {
	return s == finger.HammerOn || s == finger.PullOff || s == finger.Slide
}
