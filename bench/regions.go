package bench

import (
	"bytes"
	"encoding/json"
	"hash/crc32"
	"html/template"
	"net/http"
	"strconv"
	"strings"

	"heddle/bench/site"
	"heddle/score/surface"
)

// The page is made of regions, the parts that a changed word can change. The page's
// script sends the marks of the regions that it shows. The answer holds the regions
// whose marks differ, as JSON, and the script puts in those in sight first.

// A region is the content of the element with its id.
type region struct {
	ID   string        `json:"id"`
	Mark string        `json:"mark"` // equal for equal contents
	HTML template.HTML `json:"html"`
}

// A sheetFacts is what scripts need to know about the line that is shown: the
// data attributes of the sheet.
type sheetFacts struct {
	Room    string `json:"room"`  // of the music in pixels, as the page asked
	Sound   string `json:"sound"` // the spec's query
	Tempo   string `json:"tempo"`
	Notes   string `json:"notes"`
	Systems string `json:"systems"`
	Spots   string `json:"spots"` // where each note is played, by the ids of the neck's spots
}

// An update is the answer to a changed word. A word that can't be read brings
// only the form's regions.
type update struct {
	Address string      `json:"address,omitempty"`
	Title   string      `json:"title,omitempty"`
	View    string      `json:"view,omitempty"` // the class of what is shown
	Sheet   *sheetFacts `json:"sheet,omitempty"`
	Regions []region    `json:"regions"`
}

// shownHeader lists the regions that the page shows, with their marks:
// "neck=3k2 system-0=9zj". A request with it is answered with an update.
const shownHeader = "Heddle-Shown"

func shownBy(r *http.Request) map[string]string {
	marks := map[string]string{}
	for word := range strings.FieldsSeq(r.Header.Get(shownHeader)) {
		if id, mark, ok := strings.Cut(word, "="); ok {
			marks[id] = mark
		}
	}
	return marks
}

// Region returns a region by its id, for the templates.
func (p *benchPage) Region(id string) region {
	for _, r := range p.regions {
		if r.ID == id {
			return r
		}
	}
	return region{ID: id}
}

// place adds a region. Its mark is made from the key, or from the content
// itself where that costs little to make.
func (p *benchPage) place(id, key string, html func() (template.HTML, error)) error {
	r := region{ID: id}
	if key != "" {
		r.Mark = markOf(key)
		if p.shown[id] == r.Mark {
			p.regions = append(p.regions, r)
			return nil
		}
	}
	var err error
	if r.HTML, err = html(); err != nil {
		return err
	}
	if key == "" {
		r.Mark = markOf(string(r.HTML))
	}
	p.regions = append(p.regions, r)
	return nil
}

// part returns a template as the content of a region.
func (p *benchPage) part(b *Bench, name string) func() (template.HTML, error) {
	return func() (template.HTML, error) { return b.site.Part(name, p) }
}

// pictureOf returns a drawing as the content of a region.
func pictureOf(d surface.Drawing) func() (template.HTML, error) {
	return func() (template.HTML, error) { return site.Picture(d) }
}

func (p *benchPage) update() update {
	u := update{Regions: []region{}}
	for _, r := range p.regions {
		if p.shown[r.ID] != r.Mark {
			u.Regions = append(u.Regions, r)
		}
	}
	if !p.Broken {
		u.Address, u.Title, u.View, u.Sheet = "/?"+p.Query, p.Title, p.View.Class, &p.Sheet
	}
	return u
}

func (b *Bench) writeUpdate(w http.ResponseWriter, r *http.Request, p *benchPage) {
	var body bytes.Buffer
	encoder := json.NewEncoder(&body)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(p.update()); err != nil {
		site.Refuse(w, r, err)
		return
	}
	w.Header().Add("Vary", site.WidthHeader+", "+shownHeader)
	site.Send(w, r, http.StatusOK, "application/json", body.Bytes())
}

// markOf is a short word that is the same for the same text.
func markOf(text string) string {
	return strconv.FormatUint(uint64(len(text))<<32|uint64(crc32.Checksum([]byte(text), castagnoli)), 36)
}

var castagnoli = crc32.MakeTable(crc32.Castagnoli) // the polynomial that processors compute themselves
