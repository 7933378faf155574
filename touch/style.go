package touch

import (
	"strings"

	"heddle/pitch"
)

// A Style is a set of what a player may do to the notes of a line. The zero Style
// is plain.
type Style uint8

// What a style may hold.
const (
	Accents      Style = 1 << iota // on the first note of each group
	Bends                          // of a semitone or a tone
	QuarterBends                   // of minor thirds
	Slides                         // into and between notes
	Vibrato                        // on long notes
	GhostNotes                     // on weak notes
	Staccato                       // on the last note of each group
)

// A name is a style or a part of one as it is typed.
type name struct {
	text  string
	style Style
}

// parts are the parts of a style, in the order in which they are written.
var parts = []name{
	{"accents", Accents}, {"bends", Bends}, {"quarter bends", QuarterBends}, {"slides", Slides},
	{"vibrato", Vibrato}, {"ghost notes", GhostNotes}, {"staccato", Staccato},
}

// styles are what players in each style of music do most (common practice; the
// choice is heddle's own).
var styles = []name{
	{"plain", 0},
	{"blues", Bends | QuarterBends | Slides | Vibrato},
	{"rock", Accents | Bends | Slides | Vibrato},
	{"jazz", Accents | Slides | GhostNotes},
	{"funk", Accents | GhostNotes | Staccato},
	{"ballad", Slides | Vibrato},
}

// Styles returns the names of the styles, plain first.
func Styles() []string { return texts(styles) }

// Parts returns the names of what a style may hold.
func Parts() []string { return texts(parts) }

func texts(names []name) []string {
	list := make([]string, len(names))
	for i, n := range names {
		list[i] = n.text
	}
	return list
}

// ParseStyle reads a style by its name, or as a list of its parts separated by
// commas or "and". Case does not matter.
func ParseStyle(s string) (style Style, err error) {
	all := append(styles[:len(styles):len(styles)], parts...)
	lower := strings.ReplaceAll(strings.ToLower(s), " and ", ",")
	for text := range strings.SplitSeq(lower, ",") {
		text = strings.Join(strings.Fields(text), " ")
		found := false
		for _, n := range all {
			if text == n.text {
				style, found = style|n.style, true
			}
		}
		if !found {
			return 0, &pitch.InputError{What: "touch", Value: s, Nearest: pitch.Nearest(text, texts(all)),
				Want: "one of " + strings.Join(Styles(), ", ") + "; or some of " + strings.Join(Parts(), ", ")}
		}
	}
	return style, nil
}

// String returns the style's name, or its parts separated by commas.
func (s Style) String() string {
	for _, n := range styles {
		if n.style == s {
			return n.text
		}
	}
	return strings.Join(s.Parts(), ", ")
}

// Named reports whether the style has a name of its own.
func (s Style) Named() bool {
	for _, n := range styles {
		if n.style == s {
			return true
		}
	}
	return false
}

// Parts returns the style's parts by name.
func (s Style) Parts() []string {
	var list []string
	for _, n := range parts {
		if s&n.style != 0 {
			list = append(list, n.text)
		}
	}
	return list
}
