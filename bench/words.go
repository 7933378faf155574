package bench

import (
	"slices"

	"heddle/bench/site"
	"heddle/exercise"
	"heddle/line"
	"heddle/pitch"
)

// shape gives a control its kind, its choices and its bounds.
func (a asked) shape(c *control, f exercise.Field) {
	c.Kind = "text"
	switch {
	case f.High > 0:
		c.Kind, c.Min, c.Max, c.Step = "number", site.Decimal(f.Low), site.Decimal(f.High), "any"
		if f.Whole() {
			c.Step = "1"
		}
	case f.Switch:
		c.Kind = "check"
	case len(f.Choices) > 0 && f.Choices[0].Words != "":
		c.Kind = "select"
		for _, word := range f.Choices {
			value := word.Value
			if f.Rare && value == f.Default {
				value = "" // a rare word that is as usual is left out of the address
			}
			c.Choices = append(c.Choices, choice{Value: value, Text: word.Words})
		}
	case len(f.Suggested(a.root())) > 0:
		c.List = "suggest-" + f.Name
	}
	if c.Field == "superimpose" && c.Value == "" {
		c.Hint = "no other scale"
	}
	if c.Kind == "select" && !slices.ContainsFunc(c.Choices, func(o choice) bool { return o.Value == c.Value }) {
		c.Choices = append(c.Choices, choice{Value: c.Value, Text: pitch.Signs(c.Value)})
	}
}

// A suggestions list is offered to a text control.
type suggestions struct {
	ID     string
	Values []string
}

// suggest lists what is offered to text controls, on the home scale's root.
func (a asked) suggest() (lists []suggestions) {
	for _, f := range exercise.Fields() {
		var c control
		if a.shape(&c, f); c.List != "" {
			lists = append(lists, suggestions{c.List, f.Suggested(a.root())})
		}
	}
	return lists
}

// root is the home scale's root in the reader's naming.
func (a asked) root() string { return a.Exercise.Naming.Plain(a.Exercise.Scales[0].Root) }

// groupSizes returns the sizes as asked, one for each scale, or the word for a run.
func (a asked) groupSizes() []string {
	sizes := a.Exercise.Spec.Groups
	if parsed, err := line.ParseGroups(a.Typed.Get("groups")); err == nil && len(parsed) == len(sizes) {
		sizes = parsed
	}
	words := make([]string, len(sizes))
	for i := range sizes {
		words[i] = line.FormatGroups(sizes[i : i+1])
	}
	return words
}
