package take

import (
	"errors"
	"fmt"
	"io/fs"
	"net/http"
	"strings"
	"time"

	"heddle/bench/site"
	"heddle/bench/takes"
)

// How many kept takes are listed beside a new one, and on a page of their own.
const (
	keptBeside = 5
	keptOnPage = 20
)

// A keptList is some of the kept takes, newest first.
type keptList struct {
	Kept  []keptTake
	Older string // the address of those before them
	Fault string // why they can't be listed
}

// A keptTake is one take as lists and its own page show it.
type keptTake struct {
	Name    string
	When    string // as the clock showed it
	ISO     string
	Label   string
	Length  string
	Summary string
	Of      string // the sentence
	Fault   string // why it can't be read
}

// keptList lists the newest takes, or the newest before a name. It is nil where
// nothing can be kept.
func (ps *Pages) keptList(before string, most int) *keptList {
	if ps.folder == nil {
		return nil
	}
	names, more, err := ps.folder.Names(before, most)
	if err != nil {
		return &keptList{Fault: fmt.Sprintf("The folder of kept takes can’t be read: %v.", err)}
	}
	list := &keptList{}
	for _, name := range names {
		take, err := ps.folder.Open(name)
		if errors.Is(err, fs.ErrNotExist) && !ps.folder.Has(name) {
			continue // deleted meanwhile
		}
		list.Kept = append(list.Kept, keptOf(name, take, err))
	}
	if more {
		list.Older = "/takes?before=" + names[len(names)-1]
	}
	return list
}

// keptOf puts a take into words; err says why it could not be read.
func keptOf(name string, take *takes.Take, err error) keptTake {
	k := keptTake{Name: name, When: name}
	if err != nil {
		k.Fault = err.Error()
		return k
	}
	s := take.Report.Summary
	k.When, k.ISO = take.Taken.Format("Mon 2 Jan 2006, 15:04:05"), take.Taken.Format(time.RFC3339)
	k.Label, k.Length, k.Of = take.Label, lengthWords(take.LengthS), take.Sentence
	k.Summary = fmt.Sprintf("%d right, %d wrong, %d missed, %d extra", s.Right, s.Wrong, s.Missed, s.Extra)
	return k
}

// lengthWords is a length in minutes and seconds.
func lengthWords(s float64) string {
	whole := int(s + 0.5)
	if whole < 60 {
		return fmt.Sprintf("%d s", whole)
	}
	return fmt.Sprintf("%d min %d s", whole/60, whole%60)
}

func (ps *Pages) serveKeptList(w http.ResponseWriter, r *http.Request) {
	list := ps.keptList(r.URL.Query().Get("before"), keptOnPage)
	ps.site.Write(w, r, "kept.html", http.StatusOK, &page{Title: "Kept takes", Kept: list})
}

// serveKept answers with one kept take: what was heard over what was written.
func (ps *Pages) serveKept(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("name")
	take, err := ps.open(name)
	if errors.Is(err, fs.ErrNotExist) {
		ps.site.Missing(w, r)
		return
	}
	k, status := keptOf(name, take, err), http.StatusOK
	var p *page
	if err == nil {
		p, err = shownKept(take, site.RoomOf(r).Music)
	}
	if err != nil {
		p = &page{Fault: "This take can’t be shown: " + err.Error() + ".", Broken: true}
		status = http.StatusInternalServerError
	}
	p.Title, p.Take = "Kept take", &k
	if p.Sentence != "" {
		p.Title += ": " + p.Sentence
	}
	ps.write(w, r, partOf(r, "kept-take.html"), status, p)
}

// open reads a take. The error is [fs.ErrNotExist] only if there is none; a damaged
// take is another error.
func (ps *Pages) open(name string) (*takes.Take, error) {
	if ps.folder == nil || !ps.folder.Has(name) {
		return nil, fs.ErrNotExist
	}
	take, err := ps.folder.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, errors.New("its report is gone from its folder")
	}
	return take, err
}

// shownKept lays out a take as it looked just after it was played.
func shownKept(take *takes.Take, room int) (*page, error) {
	ex, err := take.Exercise()
	if err != nil {
		return nil, err
	}
	p, err := newPage(&request{Asked: &site.Asked{Spec: take.Spec, Exercise: ex}}, room)
	if err != nil {
		return nil, err
	}
	p.Report = newReport(ex, take.Report, room)
	return p, nil
}

// keptKinds are the types of a take's files.
var keptKinds = map[string]string{takes.RecordingFile: "audio/flac", takes.ReportFile: "application/json"}

func (ps *Pages) serveKeptFile(w http.ResponseWriter, r *http.Request) {
	name, part := r.PathValue("name"), r.PathValue("file")
	kind, ok := keptKinds[part]
	if !ok || ps.folder == nil {
		ps.site.Missing(w, r)
		return
	}
	file, err := ps.folder.OpenFile(name, part)
	if err != nil {
		ps.site.Missing(w, r)
		return
	}
	defer file.Close()
	w.Header().Set("Content-Type", kind)
	w.Header().Set("Cache-Control", "no-store")
	w.Header().Set("Content-Disposition", `attachment; filename="take-`+name+strings.TrimPrefix(part, "take")+`"`)
	http.ServeContent(site.SteadyWriter{ResponseWriter: w}, r, part, time.Time{}, file)
}

func (ps *Pages) serveDelete(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("name")
	take, err := ps.open(name)
	if errors.Is(err, fs.ErrNotExist) {
		ps.site.Missing(w, r)
		return
	}
	k := keptOf(name, take, err)
	ps.site.Write(w, r, "kept-delete.html", http.StatusOK, &page{Title: "Delete a take", Take: &k})
}

func (ps *Pages) serveDeleted(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("name")
	if ps.folder == nil {
		ps.site.Missing(w, r)
		return
	}
	err := ps.folder.Delete(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		// Another window was quicker. It is gone, as requested.
	case err != nil:
		http.Error(w, fmt.Sprintf("the take can't be deleted: %v", err), http.StatusInternalServerError)
		return
	}
	http.Redirect(w, r, "/takes", http.StatusSeeOther)
}
