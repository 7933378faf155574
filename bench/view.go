package bench

import (
	"net/url"
	"slices"
	"strings"

	"heddle/pitch"
	"heddle/score"
)

// A view says what of an exercise is shown. It stands in the address beside
// the spec's fields.
type view struct {
	label string   // what stands on the spots of the neck
	neck  string   // how much of it is seen
	hide  []string // what is left for the player to know by heart
}

// viewKeys are the query keys that are no fields of a spec.
var viewKeys = []string{"label", "neck", "hide"}

// The words of a view; the first of each list is the usual one.
var (
	labelWords = []string{"names", "degrees", "nothing"}
	neckWords  = []string{"hand", "whole"}
	hideWords  = []string{"names", "tab", "line"}
)

// readView takes the view's keys out of a query.
func readView(query url.Values) (v view, err error) {
	v.label, err = chosen(query, "label", labelWords)
	if err != nil {
		return v, err
	}
	if v.neck, err = chosen(query, "neck", neckWords); err != nil {
		return v, err
	}
	for _, word := range query["hide"] {
		switch {
		case word == "" || slices.Contains(v.hide, word):
		case slices.Contains(hideWords, word):
			v.hide = append(v.hide, word)
		default:
			return v, notOneOf("hide", word, hideWords)
		}
	}
	slices.Sort(v.hide)
	return v, nil
}

// chosen reads a key whose value is one of some words.
func chosen(query url.Values, key string, words []string) (string, error) {
	word := query.Get(key)
	if word == "" {
		return words[0], nil
	}
	if !slices.Contains(words, word) {
		return words[0], notOneOf(key, word, words)
	}
	return word, nil
}

func notOneOf(what, word string, words []string) error {
	return &pitch.InputError{What: what, Value: word, Want: "one of " + strings.Join(words, ", "), Nearest: pitch.Nearest(word, words)}
}

// query writes what differs from the usual view, to be added to a spec's.
func (v view) query() string {
	var b strings.Builder
	if v.label != "" && v.label != labelWords[0] {
		b.WriteString("&label=" + v.label)
	}
	if v.neck != "" && v.neck != neckWords[0] {
		b.WriteString("&neck=" + v.neck)
	}
	for _, word := range v.hide {
		b.WriteString("&hide=" + word)
	}
	return b.String()
}

func (v view) hides(word string) bool { return slices.Contains(v.hide, word) }

// labels returns what the drawing of the neck shows.
func (v view) labels() score.Labels {
	switch {
	case v.label == "degrees":
		return score.DegreeLabels
	case v.label == "nothing" || v.hides("names"):
		return score.NoLabels
	}
	return score.NameLabels
}

// without returns what the drawing of the line leaves out. The line itself is
// hidden by the page's style sheet, so that its notes can come back one by one
// as they sound.
func (v view) without() score.Part {
	var parts score.Part
	if v.hides("names") {
		parts |= score.NoteNames
	}
	if v.hides("tab") {
		parts |= score.Tablature | score.Fingers
	}
	return parts
}
