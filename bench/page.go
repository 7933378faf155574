package bench

import (
	"bytes"
	"cmp"
	"embed"
	"fmt"
	"html/template"
	"net/http"
	"strconv"
	"strings"
	"sync"

	"heddle/deliver"
	"heddle/exercise"
	"heddle/score"
	"heddle/sound"
)

//go:embed pages/*.html
var pageFiles embed.FS

// A benchPage is everything the bench's templates show.
type benchPage struct {
	Title     string
	Asked     *asked
	Query     string // of this exercise and view
	SpecQuery string // of the exercise alone
	Broken    bool   // a word can't be read: there is no picture to show
	Assets    assetNames
	Paper     paperPage // for a page without scripts

	Pieces   []piece
	Said     string // the naming of the form's note names, where it is not the spec's
	Rare     []control
	RareOpen bool
	Faults   []string // what is wrong beside the words of the sentence

	View        viewPage
	Suggestions []suggestions
	Together    together
	Endings     []ending
	Places      []place
	Map         template.HTML
	Rows        template.HTML
	Cycle       string
	Hand        string
	Sheet       sheetFacts
	Systems     []string // ids of their regions
	Vamps       []option
	Parts       []partStrip
	Formats     []deliver.Format

	regions []region
	shown   map[string]string // marks of the regions that the page shows
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
func (b *Bench) page(a *asked, r room, shown map[string]string) (*benchPage, error) {
	p := &benchPage{
		Title: "Bench", Asked: a, Query: a.query(), SpecQuery: a.spec.Query(), Pieces: a.sentence(), Said: said(a.exercise.Naming),
		Broken: len(a.errs) > 0, Assets: b.assets.names, View: viewPageOf(a.view), Suggestions: a.suggest(), Formats: offered(), shown: shown,
	}
	p.Rare = a.rare(p.Pieces)
	p.findFaults()
	p.Sheet.Tempo, p.Sheet.Vamp = decimal(a.exercise.Tempo), string(cmp.Or(a.view.Sound.Vamp, sound.VampFor(a.exercise)))
	for _, v := range sound.Vamps() {
		p.Vamps = append(p.Vamps, option{string(v), vampLabels[v]})
	}
	for _, part := range sound.Parts() {
		p.Parts = append(p.Parts, partStrip{part.String(), partLabels[part], part != sound.Click && part != sound.Voice})
	}
	return p, p.fill(b, r)
}

// findFaults says what is wrong where no control does.
func (p *benchPage) findFaults() {
	controls := map[string]bool{}
	for _, piece := range p.Pieces {
		if piece.Control != nil {
			controls[piece.Control.Field] = true
		}
	}
	for _, c := range p.Rare {
		controls[c.Field] = true
		p.RareOpen = p.RareOpen || c.Error != ""
	}
	for _, w := range p.Asked.errs {
		if !controls[w.field] {
			p.Faults = append(p.Faults, w.err.Error())
		}
	}
}

// fill makes the page's regions.
func (p *benchPage) fill(b *Bench, r room) error {
	for _, id := range []string{"sentence", "faults", "rare"} {
		if err := p.place(id, "", p.part(b, id)); err != nil {
			return err
		}
	}
	if p.Broken {
		if len(p.shown) > 0 {
			return nil // the rest of the page stays with the last good sentence
		}
		return p.place("pages", "", p.part(b, "pages"))
	}
	p.describe()
	if err := p.draw(r); err != nil {
		return err
	}
	for _, part := range []struct{ id, key string }{
		{"cards", p.Query}, {"rows", p.SpecQuery}, {"suggestions", p.Asked.root()}, {"neck-tools", p.View.key()}, {"line-tools", p.View.key()},
		{"pages", p.Query}, {"downloads", p.Query},
	} {
		if err := p.place(part.id, part.key, func() (template.HTML, error) {
			if err := p.prepare(part.id); err != nil {
				return "", err
			}
			return p.part(b, part.id)()
		}); err != nil {
			return err
		}
	}
	return nil
}

// prepare gathers what only one region shows.
func (p *benchPage) prepare(id string) (err error) {
	switch id {
	case "cards":
		if p.Places, err = p.Asked.places(); err != nil {
			return err
		}
		p.Together, p.Endings = p.Asked.together(), p.Asked.endings()
		p.Map, err = p.placesMap()()
	case "rows":
		p.Rows = p.Asked.noteRows()
	}
	return err
}

// describe says what is known about the exercise as a whole.
func (p *benchPage) describe() {
	ex := p.Asked.exercise
	p.Title = ex.Sentence
	p.Sheet.Sound, p.Sheet.Notes = p.SpecQuery, strconv.Itoa(len(ex.Notes))
	if c := ex.Cycle; c.Notes > 0 {
		p.Cycle = "Group and bar line meet again after " + count(c.Notes, "note") + ", " + count(c.Bars, "bar") + "."
	}
	spots := make([]string, len(ex.Notes))
	for i, n := range ex.Notes {
		spots[i] = score.SpotID(n.Spot)
	}
	p.Sheet.Spots = strings.Join(spots, " ")
	h := ex.Hand
	p.Hand = "The fretting hand moves " + strconv.Itoa(int(h.TravelMM+0.5)) + " mm in all and opens to " + strconv.Itoa(int(h.WidestMM+0.5)) +
		" mm; " + count(h.Crossings, "string crossing") + "."
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

// key is the same for the same view.
func (v viewPage) key() string { return fmt.Sprint(v) }

var vampLabels = map[sound.Vamp]string{
	sound.ClickVamp: "click alone", sound.DroneVamp: "held chord", sound.FunkVamp: "funk", sound.SwingVamp: "swing", sound.BalladVamp: "ballad",
}

var partLabels = map[sound.Part]string{
	sound.Line: "Line", sound.Chords: "Chords", sound.Bass: "Bass", sound.Drums: "Drums", sound.Click: "Click", sound.Voice: "Note names",
}

// serveBench answers with the page, or with what a changed word changes.
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
	status := http.StatusOK
	switch {
	case r.Header.Get(shownHeader) != "":
		// For the form that asked, the explanation of a wrong word is a good answer.
		b.writeUpdate(w, r, p)
		return
	case p.Broken:
		status = http.StatusBadRequest
	default:
		p.Paper = a.unscripted()
	}
	b.write(w, r, "bench.html", status, p)
}

// pageVary names the headers that a page depends on.
const pageVary = widthHeader + ", " + shownHeader + ", Accept-Encoding"

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
	w.Header().Set("Vary", pageVary)
	send(w, r, status, page.Bytes())
}

// pageBuffers are kept for the next page: one is larger than what the memory
// manager hands out quickly.
var pageBuffers = sync.Pool{New: func() any { return new(bytes.Buffer) }}

func parsePages() (*template.Template, error) {
	return template.New("").Funcs(template.FuncMap{
		"address": asAddress,
		"slowest": func() int { return exercise.SlowestTempo }, "fastest": func() int { return exercise.FastestTempo },
	}).ParseFS(pageFiles, "pages/*.html")
}

// asAddress marks a query that exercise.Spec wrote, and so escaped, as one.
func asAddress(query string) template.URL { return template.URL(query) }
