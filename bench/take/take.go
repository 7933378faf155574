// Package take serves the Take page: it records what a player plays of an
// exercise, or reads a recording, and shows what was heard over what was
// written. A recording is read as it arrives and is not stored: it stays in the
// browser until the page is left, unless the player keeps it (package takes).
package take

import (
	"html/template"
	"math"
	"net/http"
	"strconv"
	"time"

	"heddle/audio"
	"heddle/bench/site"
	"heddle/bench/takes"
	"heddle/exercise"
	"heddle/pitch"
	"heddle/score"
)

// Pages serves the Take page and the pages of the kept takes.
type Pages struct {
	site   *site.Site
	folder *takes.Folder // nil where nothing can be kept
	live   site.Turns    // takes that are followed while they are played
	now    func() time.Time
}

// New returns the pages of a site. Takes are kept in folder, which may be nil,
// and dated by now.
func New(s *site.Site, folder *takes.Folder, now func() time.Time) *Pages {
	if folder != nil {
		folder.Sweep(now())
	}
	return &Pages{s, folder, site.NewTurns(liveAtOnce), now}
}

// Route adds the pages to a server's.
func (ps *Pages) Route(mux *http.ServeMux) {
	mux.HandleFunc("GET /take", ps.serveTake)
	mux.HandleFunc("POST /take", ps.serveMark)
	mux.HandleFunc("GET /take/live", ps.serveLive)
	mux.HandleFunc("POST /takes", ps.serveKeep)
	mux.HandleFunc("GET /takes", ps.serveKeptList)
	mux.HandleFunc("GET /takes/{name}", ps.serveKept)
	mux.HandleFunc("GET /takes/{name}/{file}", ps.serveKeptFile)
	mux.HandleFunc("GET /takes/{name}/delete", ps.serveDelete)
	mux.HandleFunc("POST /takes/{name}/delete", ps.serveDeleted)
}

// Receives reports whether a path takes recordings.
func Receives(path string) bool { return path == "/take" || path == "/takes" }

// firstBarKey is the query key beside the spec's fields that says how a take
// was recorded: how many seconds into the recording the click's first bar line
// fell. Without it tempo and start are found from the take itself.
const firstBarKey = "first-bar"

// rateKey is the query key that says how many samples a second a live take
// has.
const rateKey = "rate"

// partHeader asks for a part of the page alone: "sheet", "report", or
// "kept", the list of kept takes.
const partHeader = "Heddle-Part"

// MostBytes bounds the recording in a request. It is read as it arrives, so this
// is not a bound on memory: it is the longest take at the highest rate, in two
// channels of 32 bits, and room for the head.
const MostBytes = int64(audio.LongestS)*audio.HighestHz*2*4 + 1<<20

// Further limits on a recording that is sent.
const (
	readTime       = 2 * time.Minute // for a body that is heard while it is read
	fieldsRead     = 8               // of a form, with its recording
	mostLabelBytes = 4*takes.MostLabel + 4
	liveAtOnce     = 4 // live takes
)

// A request is a request for a take page: the exercise and what is known of
// how it was recorded.
type request struct {
	*site.Asked
	firstBarS float64
	clicked   bool // firstBarS is known
	rate      int  // of a live take, 0 where not said
}

// readTake reads a request's query. A wrong word in the exercise is an error here:
// a take of half an exercise can't be marked.
func readTake(r *http.Request) (*request, error) {
	query, err := site.Query(r)
	if err != nil {
		return nil, err
	}
	t := &request{}
	if t.firstBarS, t.clicked, err = readFirstBar(query.Get(firstBarKey)); err != nil {
		return nil, err
	}
	if t.rate, err = readRate(query.Get(rateKey)); err != nil {
		return nil, err
	}
	query.Del(firstBarKey)
	query.Del(rateKey)
	t.Asked = site.Read(query)
	return t, t.Err()
}

func readFirstBar(word string) (s float64, known bool, err error) {
	if word == "" {
		return 0, false, nil
	}
	s, err = strconv.ParseFloat(word, 64)
	if err != nil || math.IsNaN(s) || math.Abs(s) > audio.LongestS {
		return 0, false, &pitch.InputError{What: firstBarKey, Value: word, Want: "seconds into the recording, at most 600"}
	}
	return s, true, nil
}

func readRate(word string) (int, error) {
	if word == "" {
		return 0, nil
	}
	rate, err := strconv.Atoi(word)
	if err != nil || rate < audio.LowestHz || rate > audio.HighestHz {
		return 0, &pitch.InputError{What: rateKey, Value: word, Want: "8000 to 192000 samples a second"}
	}
	return rate, nil
}

// A page is everything the take page shows.
type page struct {
	Title     string
	Sentence  string
	SpecQuery string
	Query     string // with the bench's view, for the way back
	Sheet     template.HTML
	Room      int
	Notes     int
	Tempo     string
	LineS     string // seconds from the first bar line to the line's end
	BarS      string // seconds in a bar
	Beats     int    // in a bar
	PickupS   string // seconds before the first bar line at which the line begins
	Report    *report
	Kept      *keptList // nil where nothing can be kept
	Take      *keptTake // the kept take that is shown, nil for a new one
	Fault     string
	Broken    bool // the exercise itself can't be read
	Here      bool // the page for a new take
}

func newPage(t *request, room int) (*page, error) {
	ex := t.Exercise
	quarterS := 60 / ex.Tempo
	p := &page{
		Title: "Take: " + ex.Sentence, Sentence: ex.Sentence, SpecQuery: t.Spec.Query(), Query: t.Query(), Room: room, Notes: len(ex.Notes),
		Tempo: site.Decimal(ex.Tempo), LineS: site.Decimal(lineEnd(ex) * quarterS), BarS: site.Decimal(ex.Rhythm.Meter.Bar().Quarters() * quarterS),
		Beats: ex.Rhythm.Meter.Beats, PickupS: site.Decimal(ex.Rhythm.Pickup.Quarters() * quarterS),
	}
	var err error
	p.Sheet, err = sheet(ex, room)
	return p, err
}

// lineEnd is where the last note ends, in quarter notes from the first bar
// line.
func lineEnd(ex *exercise.Exercise) float64 {
	end := 0.0
	for _, n := range ex.Notes {
		end = max(end, n.End().Quarters())
	}
	return end
}

// sheet draws the line for a column of room pixels: what a player reads
// from, without the rows that explain it.
func sheet(ex *exercise.Exercise, room int) (template.HTML, error) {
	return site.Picture(score.Sheet(ex, score.Options{Prefix: "sheet-", Width: float64(room) * site.MMPerPixel, Space: site.StaffSpace(room)}))
}

// serveTake answers with the page for recording, or with its sheet alone.
func (ps *Pages) serveTake(w http.ResponseWriter, r *http.Request) {
	if _, p, ok := ps.read(w, r); ok {
		ps.write(w, r, partOf(r, "take.html"), http.StatusOK, p)
	}
}

// read reads which exercise is to be recorded. Where it can't, it has answered the
// request.
func (ps *Pages) read(w http.ResponseWriter, r *http.Request) (t *request, p *page, ok bool) {
	t, err := readTake(r)
	if err != nil {
		ps.refuse(w, r, t, err)
		return t, nil, false
	}
	if p, err = newPage(t, site.RoomOf(r).Music); err != nil {
		site.Refuse(w, r, err)
		return t, nil, false
	}
	return t, p, true
}

// refuse explains on a page of its own why an exercise can't be recorded.
func (ps *Pages) refuse(w http.ResponseWriter, r *http.Request, t *request, err error) {
	if t == nil {
		site.Refuse(w, r, err)
		return
	}
	p := &page{Title: "Take", Fault: err.Error(), Broken: true, Query: t.TypedQuery()}
	p.SpecQuery = p.Query
	ps.write(w, r, partOf(r, "take.html"), http.StatusBadRequest, p)
}

// partOf returns the template for what a request asks for.
func partOf(r *http.Request, otherwise string) string {
	switch r.Header.Get(partHeader) {
	case "report":
		return "take-report"
	case "sheet":
		return "take-sheet"
	}
	return otherwise
}

func (ps *Pages) write(w http.ResponseWriter, r *http.Request, name string, status int, p *page) {
	if name == "take.html" {
		p.Here, p.Kept = true, ps.keptList("", keptBeside)
	}
	w.Header().Add("Vary", partHeader)
	ps.site.Write(w, r, name, status, p)
}
