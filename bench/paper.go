package bench

import (
	"bytes"
	"cmp"
	"html/template"
	"net/http"
	"strconv"

	"heddle/bench/site"
	"heddle/exercise"
	"heddle/pitch"
	"heddle/score"
	"heddle/score/fretboard"
	"heddle/score/surface"
)

// Pictures drawn for a window have the wrong size for paper. The print is a part
// of the page that only paper shows: the sentence, the neck, and the systems of
// the line, in the handout's size and each unbroken. A browser fetches it when it
// begins to print. Without scripts it can't, and loads the pictures with the page.

// paperWidth is what the handout's margins leave of an A4 page, in mm. On
// narrower paper the style sheet shrinks the pictures.
const paperWidth = 180

// A paperPage is what the template of the print shows.
type paperPage struct {
	Title    string
	Phrases  []exercise.Phrase
	Note     string // to the student
	Pictures []template.HTML
	Numbers  []int  // of the pictures that are loaded by address
	Query    string // of those
}

func newPaperPage(a *site.Asked) paperPage {
	return paperPage{Title: cmp.Or(a.View.Title, a.Exercise.Title()), Phrases: a.Exercise.Phrases, Note: a.View.Note}
}

// paper returns the drawings of the print: the neck, then the systems.
func paper(a *site.Asked) []surface.Drawing {
	options := a.View.Drawing()
	music, neck := options.Music, options.Neck
	music.Prefix, music.Width = "paper-", paperWidth
	neck.Prefix, neck.Width, neck.Title, neck.Paper = "paper-", paperWidth, "The neck", true
	drawings := append([]surface.Drawing{fretboard.Draw(a.Exercise, neck)}, score.Systems(a.Exercise, music)...)
	for i := range drawings {
		a.View.HideLine(&drawings[i])
	}
	return drawings
}

func (b *Bench) servePaper(w http.ResponseWriter, r *http.Request) {
	a, err := site.Valid(r)
	if err != nil {
		site.Refuse(w, r, err)
		return
	}
	drawings := paper(a)
	if r.PathValue("picture") != "" {
		b.servePaperPicture(w, r, drawings)
		return
	}
	p := newPaperPage(a)
	for _, d := range drawings {
		picture, err := site.Picture(d)
		if err != nil {
			site.Refuse(w, r, err)
			return
		}
		p.Pictures = append(p.Pictures, picture)
	}
	b.site.Write(w, r, "paper", http.StatusOK, p)
}

// servePaperPicture sends one picture, numbered from 0, the neck.
func (b *Bench) servePaperPicture(w http.ResponseWriter, r *http.Request, drawings []surface.Drawing) {
	word := r.PathValue("picture")
	number, err := strconv.Atoi(word)
	if err != nil || number < 0 || number >= len(drawings) {
		site.Refuse(w, r, &pitch.InputError{What: "picture", Value: word, Want: "0 to " + strconv.Itoa(len(drawings)-1)})
		return
	}
	var svg bytes.Buffer
	if err := surface.WriteSVG(&svg, drawings[number]); err != nil {
		site.Refuse(w, r, err)
		return
	}
	site.Send(w, r, http.StatusOK, "image/svg+xml", svg.Bytes())
}

// unscripted is the print as a page without scripts loads it.
func unscripted(a *site.Asked) paperPage {
	p := newPaperPage(a)
	p.Query = a.Query()
	for i := range paper(a) {
		p.Numbers = append(p.Numbers, i)
	}
	return p
}
