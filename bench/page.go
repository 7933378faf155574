package bench

import (
	"cmp"
	"fmt"
	"html/template"
	"math"
	"net/http"
	"strconv"
	"strings"

	"heddle/bench/site"
	"heddle/deliver"
	"heddle/pitch"
	"heddle/score/fretboard"
	"heddle/sound"
)

// A benchPage is everything the bench's templates show.
type benchPage struct {
	Title     string
	Asked     asked
	Query     string    // of this exercise and view
	SpecQuery string    // of the exercise alone
	Broken    bool      // a word can't be read: there is no picture to show
	Paper     paperPage // for a page without scripts

	Starters []starter // on a first visit

	Pieces   []piece
	Said     string // the naming of the form's note names, where it is not the spec's
	Rare     []control
	RareOpen bool
	Faults   []string // what is wrong beside the words of the sentence

	View        viewPage
	Suggestions []suggestions
	Together    together
	Endings     []ending
	Landing     string // where the first ending lands
	Places      []place
	Map         template.HTML
	Rows        template.HTML
	Cycle       string
	Hand        string
	Sheet       sheetFacts
	Systems     []string // ids of their regions
	Vamps       []choice
	Tones       []choice

	Articulations []choice
	Parts         []partStrip
	Usual         map[string]string // what the selects of the transport say where nothing was chosen
	Formats       []deliver.Format

	regions []region
	shown   map[string]string // marks of the regions that the page shows
}

// A viewPage is what can be chosen for the pictures.
type viewPage struct {
	Labels, Necks, Hides []choice
	Class                string // of the page, by what is hidden
}

// A partStrip is one part of the mix on the page.
type partStrip struct {
	Name, Label string
	On          bool
	Level       int // in dB
}

func (b *Bench) page(a asked, r site.Room, shown map[string]string) (*benchPage, error) {
	p := &benchPage{
		Title: "Bench", Asked: a, Query: a.Query(), SpecQuery: a.Spec.Query(), Pieces: a.sentence(), Said: a.Said(),
		Broken: len(a.Errors) > 0, View: viewPageOf(a.View), shown: shown,
	}
	p.Rare = a.rare(p.Pieces)
	p.findFaults()
	p.Sheet.Tempo = site.Decimal(a.Exercise.Tempo)
	p.Usual = map[string]string{
		"vamp": string(sound.VampFor(a.Exercise)), "tone": string(sound.ToneFor(a.Exercise.Instrument)), "articulation": string(sound.Ringing),
	}
	vamp := cmp.Or(a.View.Sound.Vamp, sound.VampFor(a.Exercise))
	for _, v := range sound.Vamps() {
		p.Vamps = append(p.Vamps, choice{string(v), cmp.Or(vampLabels[v], string(v)), v == vamp})
	}
	tone := cmp.Or(a.View.Sound.Tone, sound.ToneFor(a.Exercise.Instrument))
	for _, t := range sound.Tones() {
		p.Tones = append(p.Tones, choice{string(t), string(t), t == tone})
	}
	for _, how := range sound.Articulations() {
		p.Articulations = append(p.Articulations, choice{string(how), string(how), how == cmp.Or(a.View.Sound.Articulation, sound.Ringing)})
	}
	for _, part := range sound.Parts() {
		strip := partStrip{part.String(), partLabels[part], !a.View.Sound.Mix[part].Mute, int(math.Round(a.View.Sound.Mix[part].LevelDB))}
		switch part {
		case sound.Click:
			strip.On = a.View.Sound.ClickOn != "" || a.View.Sound.Vamp == sound.ClickVamp
		case sound.Voice:
			strip.On = a.View.Sound.Voice
		}
		p.Parts = append(p.Parts, strip)
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
	for _, w := range p.Asked.Errors {
		if !controls[w.Field] {
			p.Faults = append(p.Faults, w.Err.Error())
		}
	}
}

func (p *benchPage) fill(b *Bench, r site.Room) error {
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
		if ex := p.Asked.Exercise; len(ex.Endings) > 0 {
			p.Landing = ex.BarBeat(ex.Endings[0].At)
		}
		p.Map, err = p.placesMap()()
	case "rows":
		p.Rows = p.Asked.noteRows()
	case "suggestions":
		p.Suggestions = p.Asked.suggest()
	case "downloads":
		p.Formats = offered()
	}
	return err
}

func (p *benchPage) describe() {
	ex := p.Asked.Exercise
	p.Title = ex.Sentence
	p.Sheet.Sound, p.Sheet.Notes = p.SpecQuery, strconv.Itoa(len(ex.Notes))
	if c := ex.Cycle; c.Notes > 0 {
		p.Cycle = "Group and bar line meet again after " + pitch.Count(c.Notes, "note") + ", " + pitch.Count(c.Bars, "bar") + "."
	}
	spots := make([]string, len(ex.Notes))
	for i, n := range ex.Notes {
		spots[i] = fretboard.SpotID(n.Spot)
	}
	p.Sheet.Spots = strings.Join(spots, " ")
	h := ex.Hand
	p.Hand = "The fretting hand moves " + strconv.Itoa(int(h.TravelMM+0.5)) + " mm in all and opens to " + strconv.Itoa(int(h.WidestMM+0.5)) +
		" mm; " + pitch.Count(h.Crossings, "string crossing") + "."
}

// viewTexts are the choices of the view that the page says in other words.
var viewTexts = map[string]string{"hand": "around the hand", "whole": "the whole neck", "tab": "tablature", "line": "the line, until it plays", "courtesy": "courtesy naturals"}

// hiddenClasses are the classes of the page by what is hidden.
var hiddenClasses = map[string]string{"names": "no-names", "tab": "no-tab", "line": "by-heart"}

func viewPageOf(v deliver.Choices) (p viewPage) {
	for _, key := range deliver.Keys() {
		for _, word := range key.Values() {
			c := choice{Value: word, Text: cmp.Or(viewTexts[word], word)}
			switch key.Name {
			case "label":
				c.Chosen = v.Label == word
				p.Labels = append(p.Labels, c)
			case "neck":
				c.Chosen = v.Neck == word
				p.Necks = append(p.Necks, c)
			case "hide":
				c.Chosen = v.Hides(word)
				p.Hides = append(p.Hides, c)
				if c.Chosen {
					p.Class = strings.TrimSpace(p.Class + " " + hiddenClasses[word])
				}
			}
		}
	}
	return p
}

func (v viewPage) key() string { return fmt.Sprint(v) }

var vampLabels = map[sound.Vamp]string{
	sound.ClickVamp: "click alone", sound.DroneVamp: "held chord", sound.BalladVamp: "brush ballad",
}

var partLabels = map[sound.Part]string{
	sound.Line: "Line", sound.Chords: "Chords", sound.Bass: "Bass", sound.Drums: "Drums", sound.Click: "Click", sound.Voice: "Note names",
}

func (b *Bench) serveBench(w http.ResponseWriter, r *http.Request) {
	query, err := site.Query(r)
	if err != nil {
		site.Refuse(w, r, err)
		return
	}
	a := asked{site.Read(query)}
	p, err := b.page(a, site.RoomOf(r), shownBy(r))
	if err != nil {
		site.Refuse(w, r, err)
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
		p.Paper = unscripted(a.Asked)
		if len(query) == 0 {
			p.Starters = starters
		}
	}
	w.Header().Add("Vary", shownHeader)
	b.site.Write(w, r, "bench.html", status, p)
}
