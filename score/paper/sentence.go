package paper

import (
	"strings"

	"heddle/exercise"
	"heddle/score/surface"
)

// A textRun is a line of text in several faces.
type textRun []textWord

type textWord struct {
	text  string
	face  surface.Face
	glued bool // follows the word before without a space
}

// sentenceLines breaks the exercise's sentence into lines no wider than
// width, the words that a person can change in bold.
func sentenceLines(ex *exercise.Exercise, width float64) []textRun {
	var lines []textRun
	var line textRun
	for _, unit := range unbroken(sentenceWords(ex)) {
		longer := append(line[:len(line):len(line)], unit...)
		if len(line) > 0 && longer.width() > width {
			lines = append(lines, line)
			longer = append(textRun{}, unit...)
		}
		line = longer
	}
	if len(line) > 0 {
		lines = append(lines, line)
	}
	return lines
}

// sentenceWords cuts the sentence into words with their faces.
func sentenceWords(ex *exercise.Exercise) []textWord {
	phrases := ex.Phrases
	if len(phrases) == 0 {
		phrases = []exercise.Phrase{{Text: ex.Sentence}}
	}
	var words []textWord
	spaced := true
	for _, p := range phrases {
		face := surface.Serif
		if p.Field != "" {
			face = surface.SerifBold
		}
		for i, word := range strings.Fields(p.Text) {
			glued := i == 0 && !spaced && !strings.HasPrefix(p.Text, " ")
			words = append(words, textWord{word, face, glued})
		}
		if p.Text != "" {
			spaced = strings.HasSuffix(p.Text, " ")
		}
	}
	return words
}

// unbroken joins words without a space between them, such as a bold word and the
// comma after it.
func unbroken(words []textWord) []textRun {
	var units []textRun
	for _, w := range words {
		if w.glued && len(units) > 0 {
			last := len(units) - 1
			units[last] = append(units[last], w)
			continue
		}
		units = append(units, textRun{w})
	}
	return units
}

// joined returns the run with neighbouring words of one face as one piece, so
// that a reader can search for them together.
func (r textRun) joined() textRun {
	var out textRun
	for i, w := range r {
		if i > 0 && !w.glued {
			w.text = " " + w.text
		}
		if n := len(out); n > 0 && out[n-1].face == w.face {
			out[n-1].text += w.text
			continue
		}
		out = append(out, w)
	}
	return out
}

// width returns how wide the run is in mm.
func (r textRun) width() (w float64) {
	for _, piece := range r.joined() {
		w += piece.face.Width(piece.text, sentenceSize)
	}
	return w
}

// at sets the run at a point.
func (r textRun) at(p surface.Point) []surface.Item {
	var items []surface.Item
	for _, piece := range r.joined() {
		width := piece.face.Width(piece.text, sentenceSize)
		text := strings.TrimPrefix(piece.text, " ")
		lead := width - piece.face.Width(text, sentenceSize)
		items = append(items, surface.Text{Text: text, At: surface.Pt(p.X+lead, p.Y), Size: sentenceSize, Face: piece.face, Paint: surface.Ink})
		p.X += width
	}
	return items
}
