// Package site holds what the bench's pages share: which exercise a request is
// about, the room there is for pictures, the templates and built files, and how
// a request is answered or refused. A group of pages with a folder of its own,
// such as package take, has a Site and adds its routes to the bench's.
package site

import (
	"bytes"
	"fmt"
	"html/template"
	"io/fs"
	"net/http"
	"runtime"
	"strings"
	"sync"

	"heddle/exercise"
)

// A Site renders pages. Make one with New.
type Site struct {
	Renders Turns // for sound and other long work

	templates *template.Template
	assets    *assets
}

// New returns a site with the templates pages/*.html and the built scripts and
// styles built/* of a folder.
func New(files fs.FS) (*Site, error) {
	assets, err := loadAssets(files)
	if err != nil {
		return nil, fmt.Errorf("reading the pages' scripts and styles: %w", err)
	}
	templates, err := template.New("").Funcs(template.FuncMap{
		// A query that exercise.Spec wrote is escaped already.
		"address": func(query string) template.URL { return template.URL(query) },
		"asset":   func(name string) string { return assets.addresses[name] },
		"slowest": func() int { return exercise.SlowestTempo }, "fastest": func() int { return exercise.FastestTempo },
	}).ParseFS(files, "pages/*.html")
	if err != nil {
		return nil, fmt.Errorf("reading the pages: %w", err)
	}
	return &Site{Renders: NewTurns(runtime.NumCPU()), templates: templates, assets: assets}, nil
}

// Write answers with a page. It renders the whole template before it sends the
// first byte, so that an error never follows half a page.
func (s *Site) Write(w http.ResponseWriter, r *http.Request, name string, status int, data any) {
	page := pageBuffers.Get().(*bytes.Buffer)
	defer pageBuffers.Put(page)
	page.Reset()
	if err := s.templates.ExecuteTemplate(page, name, data); err != nil {
		http.Error(w, "this page could not be made: "+err.Error(), http.StatusInternalServerError)
		return
	}
	w.Header().Add("Vary", WidthHeader)
	Send(w, r, status, "text/html; charset=utf-8", page.Bytes())
}

// pageBuffers are reused: a page is too large to allocate quickly.
var pageBuffers = sync.Pool{New: func() any { return new(bytes.Buffer) }}

// Part renders a template as a part of a page.
func (s *Site) Part(name string, data any) (template.HTML, error) {
	var text strings.Builder
	err := s.templates.ExecuteTemplate(&text, name, data)
	return template.HTML(text.String()), err
}

// Missing answers that an address has no page.
func (s *Site) Missing(w http.ResponseWriter, r *http.Request) {
	s.Write(w, r, "missing.html", http.StatusNotFound, struct{ Title string }{"Not here"})
}
