package bench

import (
	"bytes"
	"cmp"
	"embed"
	"html/template"
	"net/http"
	"strconv"
	"strings"
	"sync"

	"heddle/deliver"
	"heddle/score"
	"heddle/sound"
)

//go:embed pages/*.html
var pageFiles embed.FS

// A benchPage is everything the bench's templates show.
type benchPage struct {
	Title       string
	Asked       *asked
	Query       string // of this exercise and view
	SpecQuery   string // of the exercise alone
	Pieces      []piece
	Rare        []control
	RareOpen    bool
	Suggestions []suggestions
	Root        string   // of the home scale, which the suggestions stand on
	Said        string   // the naming of the form's note names, where it is not the spec's
	Faults      []string // what is wrong beside the words of the sentence
	Broken      bool     // there is no picture to show

	Drawn    drawn
	Marks    marks
	Spots    string // where each note is played, by the ids of the neck's spots
	View     viewPage
	Together together
	Endings  []ending
	Places   []place
	Notes    int // of the line
	Rows     template.HTML
	Cycle    string
	Hand     string
	Tempo    string
	Vamps    []option
	Vamp     string
	Parts    []partStrip
	Formats  []deliver.Format
	Assets   assetNames
	Paper    paperPage // for a page without scripts

	shown map[string]string // marks of what the page that asks shows
}

// marks are short words for the parts of a page that are no pictures.
type marks struct{ Exercise, Rare, Cards, Rows, Suggestions, Pages, Downloads string }

// later stands for the mark of what the page that asks will ask for later.
const later = "later"

// Wants reports whether a part of the page with a mark is to be sent: not what
// the page that asks shows already, nor what it asks for later.
func (p *benchPage) Wants(place, mark string) bool {
	shown, told := p.shown[place]
	return !told || shown != mark && shown != later
}

// A viewPage is the view as the templates ask for it.
type viewPage struct {
	Labels, Necks []choice
	Names, Tab    bool // hidden
	Line          bool
	Class         string
}

// A partStrip is one part of the mix on the page.
type partStrip struct {
	Name, Label string
	On          bool
}

// page gathers what the bench shows for a request.
func (b *Bench) page(a *asked, r room, has map[string]string) (*benchPage, error) {
	sentence := a.sentence()
	p := &benchPage{
		Title: "Bench", Asked: a, Query: a.query(), SpecQuery: a.spec.Query(), Pieces: sentence, Rare: a.rare(sentence), Suggestions: a.suggest(), Root: a.root(), Said: said(a.exercise.Naming),
		Broken: len(a.errs) > 0, Formats: offered(), Assets: b.assets.names, shown: has,
	}
	shown := map[string]bool{}
	for _, piece := range p.Pieces {
		if piece.Control != nil {
			shown[piece.Control.Field] = true
		}
	}
	for _, c := range p.Rare {
		shown[c.Field] = true
		p.RareOpen = p.RareOpen || c.Error != ""
	}
	for _, w := range a.errs {
		if !shown[w.field] {
			p.Faults = append(p.Faults, w.err.Error())
		}
	}
	p.Tempo = strconv.FormatFloat(a.exercise.Tempo, 'f', -1, 64)
	p.View = viewPageOf(a.view)
	p.Vamp = string(cmp.Or(a.view.Sound.Vamp, sound.VampFor(a.exercise.Rhythm, a.exercise.Tempo)))
	for _, v := range sound.Vamps() {
		p.Vamps = append(p.Vamps, option{string(v), vampLabels[v]})
	}
	for _, part := range sound.Parts() {
		p.Parts = append(p.Parts, partStrip{part.String(), partLabels[part], part != sound.Click && part != sound.Voice})
	}
	if p.Broken {
		return p, nil
	}
	return p, p.picture(a, r)
}

// picture fills in all that needs a whole exercise.
func (p *benchPage) picture(a *asked, r room) (err error) {
	p.Marks = marks{
		Exercise: p.sentenceMark(), Rare: p.rareMark(), Cards: markOfTexts(p.Query), Rows: markOfTexts(p.SpecQuery), Suggestions: markOfTexts(p.Root), Pages: markOfTexts(p.Query), Downloads: markOfTexts(p.Query),
	}
	if p.Wants("cards", p.Marks.Cards) {
		if p.Places, err = a.places(); err != nil {
			return err
		}
		p.Together, p.Endings = a.together(), a.endings()
	}
	if p.Wants("rows", p.Marks.Rows) {
		p.Rows = a.noteRows()
	}
	if p.Drawn, err = p.draw(a.exercise, a.view, r); err != nil {
		return err
	}
	p.Title, p.Notes = a.exercise.Sentence, len(a.exercise.Notes)
	if c := a.exercise.Cycle; c.Notes > 0 {
		p.Cycle = "Group and bar line meet again after " + count(c.Notes, "note") + ", " + count(c.Bars, "bar") + "."
	}
	for i, n := range a.exercise.Notes {
		if i > 0 {
			p.Spots += " "
		}
		p.Spots += score.SpotID(n.Spot)
	}
	h := a.exercise.Hand
	p.Hand = "The fretting hand moves " + strconv.Itoa(int(h.TravelMM+0.5)) + " mm in all and opens to " + strconv.Itoa(int(h.WidestMM+0.5)) +
		" mm; " + count(h.Crossings, "string crossing") + "."
	return nil
}

func count(n int, noun string) string {
	if n != 1 {
		noun += "s"
	}
	return strconv.Itoa(n) + " " + noun
}

// viewPageOf shapes what was chosen to be seen for the templates.
func viewPageOf(v deliver.Choices) viewPage {
	p := viewPage{Names: v.Hides("names"), Tab: v.Hides("tab"), Line: v.Hides("line")}
	texts := map[string]string{"names": "names", "degrees": "degrees", "nothing": "nothing", "hand": "around the hand", "whole": "whole"}
	for _, key := range deliver.Keys() {
		for _, word := range key.Values() {
			switch key.Name {
			case "label":
				p.Labels = append(p.Labels, choice{word, texts[word], v.Label == word})
			case "neck":
				p.Necks = append(p.Necks, choice{word, texts[word], v.Neck == word})
			}
		}
	}
	var classes []string
	for _, hidden := range []struct {
		yes   bool
		class string
	}{{p.Line, "by-heart"}, {p.Names, "no-names"}, {p.Tab, "no-tab"}} {
		if hidden.yes {
			classes = append(classes, hidden.class)
		}
	}
	p.Class = strings.Join(classes, " ")
	return p
}

var vampLabels = map[sound.Vamp]string{
	sound.ClickVamp: "click alone", sound.DroneVamp: "held chord", sound.FunkVamp: "funk", sound.SwingVamp: "swing", sound.BalladVamp: "ballad",
}

var partLabels = map[sound.Part]string{
	sound.Line: "Line", sound.Chords: "Chords", sound.Bass: "Bass", sound.Drums: "Drums", sound.Click: "Click", sound.Voice: "Note names",
}

// serveBench answers with the page, or with the pieces of it that a changed
// word changes.
func (b *Bench) serveBench(w http.ResponseWriter, r *http.Request) {
	a, err := readAsked(r)
	if err != nil {
		b.refuse(w, r, err)
		return
	}
	p, err := b.page(a, roomOf(r), shownBy(r))
	if err != nil {
		b.refuse(w, r, err)
		return
	}
	name, status := "bench.html", http.StatusOK
	switch {
	case r.Header.Get("HX-Request") == "true":
		// A word that can't be read is answered with the sentence and what is
		// wrong in it: for the form that asked, that is a good answer.
		name = "update"
		if !p.Broken {
			w.Header().Set("Heddle-Address", "/?"+p.Query)
		}
	case p.Broken:
		status = http.StatusBadRequest
	default:
		p.Paper = a.unscripted()
	}
	b.write(w, r, name, status, p)
}

// shownHeader is how the page's script says what the page shows already, by
// places and their marks: "neck=3k2 system-0=9zj strip=later".
const shownHeader = "Heddle-Shown"

// shownBy returns the marks of what the page that asks shows.
func shownBy(r *http.Request) map[string]string {
	marks := map[string]string{}
	for word := range strings.FieldsSeq(r.Header.Get(shownHeader)) {
		if place, mark, _ := strings.Cut(word, "="); mark != "" {
			marks[place] = mark
		}
	}
	return marks
}

// write renders a template whole before the first byte leaves, so that an
// error never follows half a page.
func (b *Bench) write(w http.ResponseWriter, r *http.Request, name string, status int, data any) {
	page := pageBuffers.Get().(*bytes.Buffer)
	defer pageBuffers.Put(page)
	page.Reset()
	if err := b.templates.ExecuteTemplate(page, name, data); err != nil {
		http.Error(w, "this page could not be made: "+err.Error(), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	w.Header().Set("Vary", "HX-Request, "+widthHeader+", "+shownHeader+", Accept-Encoding")
	send(w, r, status, page.Bytes())
}

// pageBuffers are kept for the next page: one is larger than what the memory
// manager hands out quickly.
var pageBuffers = sync.Pool{New: func() any { return new(bytes.Buffer) }}

func parsePages() (*template.Template, error) {
	return template.New("").Funcs(template.FuncMap{"address": asAddress}).ParseFS(pageFiles, "pages/*.html")
}

// asAddress marks a query that exercise.Spec wrote, and so escaped, as one.
func asAddress(query string) template.URL { return template.URL(query) }
