package bench

import (
	"slices"
	"strconv"
	"strings"

	"heddle/bench/site"
	"heddle/exercise"
	"heddle/pitch"
)

// An asked is a request's exercise as the bench shows it.
type asked struct{ *site.Asked }

// A piece of the sentence is plain text or a control.
type piece struct {
	Text    string
	Control *control
}

// A control is a native control for one value of one field.
type control struct {
	ID, Field, Label string
	Kind             string // select, number, text or check
	Value            string
	Choices          []choice // of a select
	List             string   // id of its suggestions
	Min, Max, Step   string
	Hint             string // shown while it is empty
	Size             int    // of a text, in characters
	Error            string
	Nearest          string // a spelling that was likely meant
	Fix              string // address with that spelling
}

// A choice is an option of a select, or a check box.
type choice struct {
	Value, Text string
	Chosen      bool
}

// sentence turns the exercise's phrases into pieces: every word that can change
// is a control. So are two that it does not always say: a scale to lay over, and
// where to land.
func (a asked) sentence() []piece {
	w := &sentenceWriter{asked: a}
	for i, phrase := range a.Exercise.Phrases {
		if phrase.Text == "." && i == len(a.Exercise.Phrases)-1 {
			w.unsaid()
		}
		w.phrase(phrase)
		if phrase.Field == "home" && len(a.Exercise.Spec.Superimpose) == 0 {
			w.say(" with ")
			w.control(a.control("superimpose", 0, ""))
		}
	}
	return w.pieces
}

type sentenceWriter struct {
	asked  asked
	pieces []piece
	landed bool
}

func (w *sentenceWriter) say(text string) {
	if n := len(w.pieces); n > 0 && w.pieces[n-1].Control == nil {
		w.pieces[n-1].Text += text
		return
	}
	if text != "" {
		w.pieces = append(w.pieces, piece{Text: text})
	}
}

func (w *sentenceWriter) control(c control) { w.pieces = append(w.pieces, piece{Control: &c}) }

func (w *sentenceWriter) phrase(p exercise.Phrase) {
	switch p.Field {
	case "":
		w.say(p.Text)
	case "superimpose":
		w.superimposed(p)
	case "land":
		w.landed = true
		w.control(w.asked.control("land", 0, ""))
	default:
		w.control(w.asked.control(p.Field, p.Index, p.Text))
	}
}

// superimposed keeps the words around a distance: "a [semitone up]", "on the [b5]". A
// scale given by its own name is the whole phrase.
func (w *sentenceWriter) superimposed(p exercise.Phrase) {
	c := w.asked.control("superimpose", p.Index, p.Text)
	before, after, distance := strings.Cut(p.Text, pitch.Signs(c.Value))
	if !distance || c.Value == "" {
		before, after = "", ""
		if n := len(w.pieces); n > 0 && w.pieces[n-1].Control == nil {
			w.pieces[n-1].Text = strings.TrimSuffix(w.pieces[n-1].Text, "the same scale ")
		}
	}
	w.say(before)
	w.control(c)
	w.say(after)
}

// unsaid offers where to land when the sentence says nothing of it.
func (w *sentenceWriter) unsaid() {
	if !w.landed {
		w.say(", landing on ")
		w.control(w.asked.control("land", 0, ""))
	}
}

// rare returns the controls of the fields behind "more": those that the
// sentence does not say.
func (a asked) rare(said []piece) []control {
	var list []control
	for _, f := range exercise.Fields() {
		if f.Rare && !slices.ContainsFunc(said, func(p piece) bool { return p.Control != nil && p.Control.Field == f.Name }) {
			list = append(list, a.control(f.Name, 0, ""))
		}
	}
	extra := a.control("superimpose", len(a.Exercise.Spec.Superimpose), "")
	if len(a.Exercise.Spec.Superimpose) > 0 && extra.Value == "" {
		list = append([]control{extra}, list...)
	}
	return list
}

func controlID(field string, index int) string {
	if index == 0 {
		return "word-" + field
	}
	return "word-" + field + "-" + strconv.Itoa(index+1)
}

// control returns the control of one value of a field. It shows what was typed,
// or else the exercise's value, which the sentence may word differently. A rare
// field that was neither typed nor said stays empty, with its value as a hint.
func (a asked) control(field string, index int, said string) control {
	f, _ := exercise.FieldNamed(field)
	c := control{ID: controlID(field, index), Field: field, Label: f.Label}
	canonical := f.Get(a.Exercise.Spec)
	if field == "groups" {
		canonical = a.groupSizes()
	}
	if index < len(canonical) {
		c.Value = canonical[index]
	}
	if typed := a.Typed[field]; field != "groups" && index < len(typed) {
		c.Value = typed[index]
	} else if field == "superimpose" && said != "" {
		c.Value = canonical[index]
	} else if f.Rare && said == "" {
		c.Hint, c.Value = c.Value, ""
	} else if a.lacks(field) {
		c.Value = "" // the sentence is built with a stand-in
	}
	if index > 0 {
		c.Label += " " + strconv.Itoa(index+1)
	}
	reader := func(value string) string { return f.Rename(value, pitch.English, a.Exercise.Naming) }
	c.Value, c.Hint = reader(c.Value), reader(c.Hint)
	a.shape(&c, f)
	c.Size = max(4, len([]rune(c.Value)), len([]rune(c.Hint)))
	for _, w := range a.Errors {
		if w.Field == field && w.Index == index {
			if c.Kind == "select" && c.Value != w.Err.Value {
				c.Value, c.Choices = w.Err.Value, append(c.Choices, choice{Value: w.Err.Value, Text: w.Err.Value})
			}
			c.Error, c.Nearest = "Want "+w.Err.Want+".", reader(w.Err.Nearest)
			c.Fix = a.fixed(field, index, w.Err.Nearest)
		}
	}
	for i := range c.Choices {
		o := &c.Choices[i]
		if o.Chosen = o.Value == c.Value; o.Chosen && f.Rare && said != "" {
			o.Text = said
		}
	}
	return c
}

// lacks reports whether a field is wrong for being empty.
func (a asked) lacks(field string) bool {
	return slices.ContainsFunc(a.Errors, func(w site.WordError) bool { return w.Field == field && len(a.Typed[field]) == 0 })
}

// fixed returns the address with one value put right.
func (a asked) fixed(field string, index int, value string) string {
	if value == "" {
		return ""
	}
	values := slices.Clone(a.Typed[field])
	if index < len(values) {
		values[index] = value
	}
	return a.Link(field, values...)
}
