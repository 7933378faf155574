package practising

import (
	"encoding/json"
	"html/template"
	"io"
	"net/http"
	"strconv"

	"heddle/bench/site"
	"heddle/practice"
	"heddle/practice/chart"
	"heddle/practice/store"
	"heddle/score/surface"
)

// A picture is one question with its answer.
type picture struct {
	Name, Question, Answer string
	SVG                    template.HTML
}

// serveProgress shows what the log adds up to.
func (ps *Pages) serveProgress(w http.ResponseWriter, r *http.Request, mine store.Store) error {
	progress, err := store.Progress(r.Context(), mine, ps.now())
	if err != nil {
		return err
	}
	p := struct {
		page
		Pictures []picture
		Year     int
	}{page: ps.page("Progress", "progress"), Year: ps.now().Year()}
	for _, c := range chart.Pictures(progress) {
		out := picture{Name: c.Name, Question: c.Question, Answer: c.Answer}
		if c.Drawing.Height > 0 {
			if out.SVG, err = site.Picture(c.Drawing); err != nil {
				return err
			}
		}
		p.Pictures = append(p.Pictures, out)
	}
	ps.site.Write(w, r, "progress.html", http.StatusOK, p)
	return nil
}

// progressDPI is the resolution of a PNG.
const progressDPI = 200

// progressFiles are the files that the pictures and numbers come as.
var progressFiles = map[string]struct {
	kind  string
	write func(io.Writer, *practice.Progress) error
}{
	"progress.svg": {"image/svg+xml", func(w io.Writer, p *practice.Progress) error { return surface.WriteSVG(w, chart.Sheet(p)) }},
	"progress.png": {"image/png", func(w io.Writer, p *practice.Progress) error { return surface.WritePNG(w, chart.Sheet(p), progressDPI) }},
	"progress.pdf": {"application/pdf", func(w io.Writer, p *practice.Progress) error {
		return surface.WritePDF(w, []surface.Drawing{chart.Sheet(p)})
	}},
	"progress.csv":  {"text/csv; charset=utf-8", func(w io.Writer, p *practice.Progress) error { return p.WriteCSV(w) }},
	"progress.json": {"application/json", func(w io.Writer, p *practice.Progress) error { return json.NewEncoder(w).Encode(p) }},
}

// serveProgressFile answers with a file of the pictures or the numbers, or with a
// year's page: year.pdf?year=2026.
func (ps *Pages) serveProgressFile(w http.ResponseWriter, r *http.Request, mine store.Store) error {
	file, known := progressFiles[r.PathValue("file")]
	if r.PathValue("file") == "year.pdf" {
		year, err := strconv.Atoi(r.URL.Query().Get("year"))
		if err != nil || year < 1970 || year > 9999 {
			return store.ErrNone
		}
		known, file.kind = true, "application/pdf"
		file.write = func(w io.Writer, p *practice.Progress) error {
			return surface.WritePDF(w, []surface.Drawing{chart.Year(p, year)})
		}
	}
	if !known {
		return store.ErrNone
	}
	progress, err := store.Progress(r.Context(), mine, ps.now())
	if err != nil {
		return err
	}
	w.Header().Set("Content-Type", file.kind)
	w.Header().Set("Cache-Control", "no-store")
	w.Header().Set("Content-Disposition", `attachment; filename="`+r.PathValue("file")+`"`)
	return file.write(site.SteadyWriter{ResponseWriter: w}, progress)
}
