package deliver

import (
	"io"
	"slices"
	"strings"

	"heddle/score"
	"heddle/score/fretboard"
	"heddle/score/paper"
	"heddle/score/surface"
)

// pngDPI is the resolution of a PNG: fine enough to print, small enough to
// send.
const pngDPI = 200

func writePNG(w io.Writer, d surface.Drawing) error { return surface.WritePNG(w, d, pngDPI) }

func picture(write func(io.Writer, surface.Drawing) error) func(job) error {
	return func(j job) error {
		d, err := paper.Poster(j.exercise, j.choices.Drawing())
		if err != nil {
			return err
		}
		j.choices.HideLine(&d)
		return write(j.to, d)
	}
}

func writePDF(j job) error {
	pages, err := paper.Pages(j.exercise, j.choices.Drawing())
	if err != nil {
		return err
	}
	for i := range pages {
		j.choices.HideLine(&pages[i])
	}
	return surface.WritePDF(j.to, pages)
}

// Hides reports whether a word of the hide key was chosen.
func (c Choices) Hides(word string) bool { return slices.Contains(c.Hide, word) }

func (c Choices) labels() fretboard.Labels {
	switch {
	case c.Label == "degrees":
		return fretboard.DegreeLabels
	case c.Label == "nothing" || c.Hides("names"):
		return fretboard.NoLabels
	}
	return fretboard.NameLabels
}

// Fretboard returns how the neck is drawn.
func (c Choices) Fretboard() fretboard.Options {
	return fretboard.Options{Labels: c.labels(), Whole: c.Neck == "whole", NoNames: c.Hides("names")}
}

// Without returns what a drawing of the line leaves out. It does not hide the
// line itself, see [Choices.HideLine].
func (c Choices) Without() score.Part {
	var parts score.Part
	if c.Hides("names") {
		parts |= score.NoteNames
	}
	if c.Hides("tab") {
		parts |= score.Tablature | score.Fingers
	}
	if c.Hides("courtesy") {
		parts |= score.CourtesyNaturals
	}
	return parts
}

// Drawing returns how a picture on paper is drawn.
func (c Choices) Drawing() paper.Options {
	o := paper.Options{Title: c.Title, Note: c.Note, Music: score.Options{Without: c.Without()}, Neck: c.Fretboard()}
	if c.Paper == "letter" {
		o.Size = paper.Letter
	}
	if c.Hides("line") {
		o.Music.Without |= rowsOfNotes // empty rows would say nothing, and the gaps in a tablature's lines too much
	}
	return o
}

// rowsOfNotes are the parts of a system that say which notes it has.
const rowsOfNotes = score.Tablature | score.NoteNames | score.Degrees | score.Roughness | score.Fingers | score.Strokes

// HideLine takes the notes out of a picture on paper where the line is to be
// played by heart: nothing can appear there as it sounds.
func (c Choices) HideLine(d *surface.Drawing) {
	if c.Hides("line") {
		d.Items = withoutNotes(d.Items)
	}
}

func withoutNotes(items []surface.Item) []surface.Item {
	var left []surface.Item
	for _, item := range items {
		if g, ok := item.(surface.Group); ok {
			switch class, _, _ := strings.Cut(g.Class, " "); class {
			case "note", "rest", "joins":
				continue
			}
			g.Items = withoutNotes(g.Items)
			item = g
		}
		left = append(left, item)
	}
	return left
}
