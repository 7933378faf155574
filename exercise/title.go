package exercise

import "strings"

// Title names an exercise by its scales and its first chord: "G minor
// pentatonic with A♭ minor pentatonic over Gm7".
func (e *Exercise) Title() string {
	var names []string
	for _, s := range e.FirstScales() {
		names = append(names, e.Naming.Scale(s.Scale))
	}
	title := strings.Replace(strings.Join(names, " and "), " and ", " with ", 1)
	if len(e.Chords) > 0 && e.Chords[0].Symbol != "" {
		title += " over " + e.Chords[0].Display(e.Naming)
	}
	return title
}

// FirstScales returns home and the scales superimposed on it in the first
// section; without changes, all scales.
func (e *Exercise) FirstScales() []Scale {
	for i, s := range e.Scales {
		if i > 0 && s.Home {
			return e.Scales[:i]
		}
	}
	return e.Scales
}
