package bench

import (
	"heddle/exercise"
	"slices"
	"strconv"
)

// sentenceMark is a short word for all of the form but the rare controls and
// what the others hold.
func (p *benchPage) sentenceMark() string {
	texts := []string{p.Said}
	for _, piece := range p.Pieces {
		texts = append(texts, piece.Text)
		if piece.Control != nil {
			texts = append(texts, piece.Control.texts()...)
		}
	}
	return markOfTexts(texts...)
}

// rareMark is a short word for the rare controls but for what they hold.
func (p *benchPage) rareMark() string {
	var texts []string
	for _, c := range p.Rare {
		texts = append(texts, c.texts()...)
	}
	return markOfTexts(texts...)
}

// texts returns all that a page shows of a control but what it holds.
func (c *control) texts() []string {
	texts := []string{c.ID, c.Label, c.Kind, c.Min, c.Max, c.Step, c.Hint, c.List}
	if c.Kind == "text" {
		texts = append(texts, strconv.Itoa(c.Size))
	}
	for _, o := range c.Choices {
		texts = append(texts, o.Value, o.Text)
	}
	return texts
}

// settled reports whether the form holds just what was submitted, so that one
// of the same marks need not be sent.
func (p *benchPage) settled() bool {
	holds := map[string][]string{}
	add := func(c *control) {
		if c.Kind != "check" || c.Value == "true" {
			holds[c.Field] = append(holds[c.Field], c.Value)
		}
	}
	for _, piece := range p.Pieces {
		if piece.Control != nil {
			add(piece.Control)
		}
	}
	for i := range p.Rare {
		add(&p.Rare[i])
	}
	for _, f := range exercise.Fields() {
		if f.Name != "ending" && !slices.Equal(holds[f.Name], p.Asked.submitted[f.Name]) { // endings are links
			return false
		}
	}
	return true
}

// SendsForm reports whether the answer holds the form, the rare controls
// included. One with something wrong in it has no mark and is always sent.
func (p *benchPage) SendsForm() bool {
	return p.Broken || p.Wants("exercise", p.Marks.Exercise) || p.shown["exercise"] != later && !p.settled()
}
