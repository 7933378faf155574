package practice

import (
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"heddle/exercise"
	"heddle/pitch"
)

// An Item is something on the shelf.
type Item struct {
	ID      int64  // of this data folder
	UID     string // the same in every folder that the item was sent to
	Kind    Kind
	Title   string
	Spec    exercise.Spec
	Tags    []string
	Note    string
	Made    time.Time
	From    string // where it came from, in words; may be empty
	Scope   Scope
	Target  float64   // the tempo to reach
	Dropped time.Time // when it was taken off the shelf; zero while it is on it
}

// A Kind says what an item is.
type Kind string

// The kinds.
const (
	Line   Kind = "line"
	Cell   Kind = "cell"
	Phrase Kind = "phrase"
	Solo   Kind = "solo"
)

// Bounds of what an item is labelled with.
const (
	mostTitle = 80 // characters
	mostTags  = 20
	mostTag   = 30
	mostNote  = 2000
)

// Check refuses an item that can't be kept, and fills in what is unset: the
// kind, the scope and the target, which is the spec's own tempo.
func (it *Item) Check() error {
	it.Title = strings.Join(strings.Fields(it.Title), " ")
	if it.Title == "" || !plain(it.Title, mostTitle) {
		return &pitch.InputError{What: "title", Value: it.Title, Want: "plain text of 1 to 80 characters"}
	}
	if !plain(strings.ReplaceAll(it.Note, "\n", " "), mostNote) {
		return &pitch.InputError{What: "note", Value: it.Note, Want: "plain text of at most 2000 characters"}
	}
	if len(it.Tags) > mostTags {
		return &pitch.InputError{What: "tags", Value: strings.Join(it.Tags, " "), Want: "at most 20 tags"}
	}
	for _, tag := range it.Tags {
		if tag == "" || !plain(tag, mostTag) || strings.ContainsFunc(tag, unicode.IsSpace) {
			return &pitch.InputError{What: "tag", Value: tag, Want: "one word of at most 30 characters"}
		}
	}
	switch it.Kind {
	case "":
		it.Kind = kindOf(it.Spec)
	case Line, Cell, Phrase, Solo:
	default:
		return &pitch.InputError{What: "kind", Value: string(it.Kind), Want: "line, cell, phrase or solo"}
	}
	if it.Scope == "" {
		it.Scope = One
	}
	if _, err := parseScope(string(it.Scope)); err != nil {
		return err
	}
	if it.Target == 0 {
		it.Target = it.Spec.Tempo
	}
	return checkTempo("target", it.Target)
}

// kindOf is what a spec makes: a phrase, a cell cut out of a line, or a line.
func kindOf(s exercise.Spec) Kind {
	switch {
	case s.Form == "phrase":
		return Phrase
	case s.Cut != "":
		return Cell
	}
	return Line
}

// plain reports whether text can be shown as it is and is not too long.
func plain(text string, most int) bool {
	broken := func(r rune) bool { return r == utf8.RuneError || unicode.IsControl(r) }
	return utf8.RuneCountInString(text) <= most && !strings.ContainsFunc(text, broken)
}

// TitleOf suggests a title for an exercise: the scales and the groups.
func TitleOf(ex *exercise.Exercise) string {
	var b strings.Builder
	for i, s := range ex.Scales {
		if i > 0 {
			b.WriteString(" and ")
		}
		b.WriteString(ex.Naming.Name(s.Root) + " " + s.Type.Name)
	}
	title := []rune(b.String())
	return string(title[:min(len(title), mostTitle)])
}
