package touch

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"heddle/pitch"
)

// A Touch is what is done to one note besides stopping and sounding it. The zero
// Touch is a plain note.
type Touch struct {
	// Bend is how far the string is pushed, in semitones. Half and Whole bends
	// begin below the note and reach it; a Quarter bend begins on it.
	Bend Bend `json:"bend,omitempty"`

	// Release lets a bent string go back before the note ends.
	Release bool `json:"release,omitempty"`

	Slide    Slide `json:"slide,omitempty"`
	Vibrato  bool  `json:"vibrato,omitempty"`
	Ghost    bool  `json:"ghost,omitempty"` // hardly sounded
	Accent   bool  `json:"accent,omitempty"`
	Staccato bool  `json:"staccato,omitempty"`
}

// A Bend is how far a string is pushed, in semitones.
type Bend float64

// The bends.
const (
	Quarter Bend = 0.5 // a quarter tone
	Half    Bend = 1   // a semitone
	Whole   Bend = 2   // a tone
)

// Below returns how many semitones below the note the string is stopped.
func (b Bend) Below() int { return int(b) }

// A Slide is how a finger moves along the string to a note that is picked. A slide
// that is not picked is a stroke, [finger.Slide].
type Slide string

// The slides.
const (
	Into    Slide = "into"    // from two frets below, heard as part of the note
	Between Slide = "between" // from the note before
)

// A word is one word of a touch as text, and how it is set.
type word struct {
	text string
	is   func(Touch) bool
	set  func(*Touch)
}

// words lists the words of a touch, in the order in which they are written.
var words = []word{
	bendWord(Quarter), bendWord(Half), bendWord(Whole),
	{"release", func(t Touch) bool { return t.Release }, func(t *Touch) { t.Release = true }},
	slideWord(Into), slideWord(Between),
	{"vibrato", func(t Touch) bool { return t.Vibrato }, func(t *Touch) { t.Vibrato = true }},
	{"ghost", func(t Touch) bool { return t.Ghost }, func(t *Touch) { t.Ghost = true }},
	{"accent", func(t Touch) bool { return t.Accent }, func(t *Touch) { t.Accent = true }},
	{"staccato", func(t Touch) bool { return t.Staccato }, func(t *Touch) { t.Staccato = true }},
}

func bendWord(b Bend) word {
	return word{"bend " + strconv.FormatFloat(float64(b), 'f', -1, 64),
		func(t Touch) bool { return t.Bend == b }, func(t *Touch) { t.Bend = b }}
}

func slideWord(s Slide) word {
	return word{"slide " + string(s), func(t Touch) bool { return t.Slide == s }, func(t *Touch) { t.Slide = s }}
}

// String returns the touch in words that [Parse] reads: "bend 2, release, accent".
// A plain note has none.
func (t Touch) String() string {
	var list []string
	for _, w := range words {
		if w.is(t) {
			list = append(list, w.text)
		}
	}
	return strings.Join(list, ", ")
}

// Parse reads a touch in words, separated by commas.
func Parse(s string) (t Touch, err error) {
	if strings.TrimSpace(s) == "" {
		return Touch{}, nil
	}
	for text := range strings.SplitSeq(s, ",") {
		at := slices.IndexFunc(words, func(w word) bool { return w.text == strings.TrimSpace(text) })
		if at < 0 {
			return Touch{}, &pitch.InputError{What: "touch", Value: s, Want: "some of " + allWords()}
		}
		words[at].set(&t)
	}
	return t, t.Check()
}

func allWords() string {
	list := make([]string, len(words))
	for i, w := range words {
		list[i] = w.text
	}
	return strings.Join(list, ", ")
}

// Check returns an error for a touch that no player can do.
func (t Touch) Check() error {
	wrong := func(what, value, want string) error {
		return &pitch.InputError{What: what, Value: value, Want: want}
	}
	switch {
	case t.Bend != 0 && t.Bend != Quarter && t.Bend != Half && t.Bend != Whole:
		return wrong("bend", fmt.Sprint(float64(t.Bend)), "semitones: 0.5, 1 or 2")
	case t.Release && t.Bend == 0:
		return wrong("release", "true", "a bend to release")
	case t.Slide != "" && t.Slide != Into && t.Slide != Between:
		return wrong("slide", string(t.Slide), "into or between")
	case t.Slide != "" && t.Bend != 0:
		return wrong("slide", string(t.Slide), "no bend on the same note")
	case t.Ghost && t.Accent:
		return wrong("ghost", "true", "no accent on the same note")
	}
	return nil
}
