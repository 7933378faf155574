package bench

import (
	"html/template"
	"math"
	"net/http"
	"net/url"
	"strconv"
	"time"

	"heddle/audio"
	"heddle/bench/takes"
	"heddle/exercise"
	"heddle/pitch"
	"heddle/score"
)

// The take page records what a player plays of an exercise, or takes in a
// recording, and shows what was heard over what was written. A recording is
// read as it comes and not stored: it lies in the browser until the page is
// left, unless the player keeps it.

// firstBarKey is the query key beside the spec's fields that says how a take
// was recorded: how many seconds into the recording the click's first bar line
// fell. Without it tempo and start are found from the take itself.
const firstBarKey = "first-bar"

// rateKey is the query key that says how many samples a second a live take
// has.
const rateKey = "rate"

// takePartHeader asks for a part of the page alone: "sheet", "report", or
// "kept", the list of kept takes.
const takePartHeader = "Heddle-Part"

// Limits on a recording that is sent. The body is read as it comes, so its
// bound is not one on memory: it is the longest take at the highest rate, in
// two channels of 32 bits, and room for the head.
const (
	mostTakeBytes   = int64(audio.LongestS)*audio.HighestHz*2*4 + 1<<20
	takeReadTime    = 2 * time.Minute // for a body that is heard while it is read
	takeFieldsRead  = 8               // of a form, with its recording
	mostLabelBytes  = 4*takes.MostLabel + 4
	takePagesAtOnce = 4 // live takes
)

// bodyBound is how large a request's body may be in bytes.
func bodyBound(r *http.Request) int64 {
	if r.Method == http.MethodPost && (r.URL.Path == "/take" || r.URL.Path == "/takes") {
		return mostTakeBytes
	}
	return mostBody
}

// A takeAsked is a request for a take page: the exercise and what is known of
// how it was recorded.
type takeAsked struct {
	*asked
	firstBarS float64
	clicked   bool // firstBarS is known
	rate      int  // of a live take, 0 where not said
}

// readTake reads a request's query. What is wrong with the exercise is an
// error here: a take of half an exercise can't be marked.
func readTake(r *http.Request) (*takeAsked, error) {
	query, err := url.ParseQuery(r.URL.RawQuery)
	if err != nil || len(r.URL.RawQuery) > mostQuery {
		query = nil // readAsked says what is wrong
	}
	t := &takeAsked{}
	if t.firstBarS, t.clicked, err = readFirstBar(query.Get(firstBarKey)); err != nil {
		return nil, err
	}
	if t.rate, err = readRate(query.Get(rateKey)); err != nil {
		return nil, err
	}
	of := *r
	if query != nil {
		query.Del(firstBarKey)
		query.Del(rateKey)
		address := *r.URL
		address.RawQuery = query.Encode()
		of.URL = &address
	}
	if t.asked, err = readAsked(&of); err != nil {
		return nil, err
	}
	if len(t.errs) > 0 {
		return t, t.errs[0].err
	}
	return t, nil
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

// A takePage is everything the take page shows.
type takePage struct {
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
	Report    *takeReport
	Kept      *keptList // nil where nothing can be kept
	Take      *keptTake // the kept take that is shown, nil for a new one
	Fault     string
	Broken    bool // the exercise itself can't be read
	Here      bool // the page for a new take
}

// takePage gathers the page without a report.
func (b *Bench) takePage(t *takeAsked, room int) (*takePage, error) {
	ex := t.exercise
	quarterS := 60 / ex.Tempo
	p := &takePage{
		Title: "Take: " + ex.Sentence, Sentence: ex.Sentence, SpecQuery: t.spec.Query(), Query: t.query(), Room: room, Notes: len(ex.Notes),
		Tempo: decimal(ex.Tempo), LineS: decimal(lineEnd(ex) * quarterS), BarS: decimal(ex.Rhythm.Meter.Bar().Quarters() * quarterS),
		Beats: ex.Rhythm.Meter.Beats, PickupS: decimal(ex.Rhythm.Pickup.Quarters() * quarterS),
	}
	var err error
	p.Sheet, err = takeSheet(ex, room)
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

// takeSheet draws the line for a column of room pixels: what a player reads
// from, without the rows that explain it.
func takeSheet(ex *exercise.Exercise, room int) (template.HTML, error) {
	space := screenSpace
	if room < narrowRoom {
		space = narrowSpace
	}
	return pictureOf(score.Sheet(ex, score.Options{Prefix: "sheet-", Width: float64(room) * mmPerPixel, Space: space}))()
}

func decimal(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// serveTake answers with the page for recording, or with its sheet alone.
func (b *Bench) serveTake(w http.ResponseWriter, r *http.Request) {
	if _, p, ok := b.askedTake(w, r); ok {
		b.writeTake(w, r, partOf(r, "take.html"), http.StatusOK, p)
	}
}

// askedTake reads what is to be taken, and answers itself where that can't be
// done.
func (b *Bench) askedTake(w http.ResponseWriter, r *http.Request) (t *takeAsked, p *takePage, ok bool) {
	t, err := readTake(r)
	if err != nil {
		b.refuseTake(w, r, t, err)
		return t, nil, false
	}
	if p, err = b.takePage(t, roomOf(r).music); err != nil {
		b.refuse(w, r, err)
		return t, nil, false
	}
	return t, p, true
}

// refuseTake says on a page of its own why an exercise can't be taken.
func (b *Bench) refuseTake(w http.ResponseWriter, r *http.Request, t *takeAsked, err error) {
	if t == nil || t.asked == nil {
		b.refuse(w, r, err)
		return
	}
	p := &takePage{Title: "Take", Fault: err.Error(), Broken: true, Query: r.URL.RawQuery}
	p.Query = encoded(t.typed) + t.view.Query()
	p.SpecQuery = p.Query
	b.writeTake(w, r, partOf(r, "take.html"), http.StatusBadRequest, p)
}

// partOf is the template for what a request asks for.
func partOf(r *http.Request, otherwise string) string {
	switch r.Header.Get(takePartHeader) {
	case "report":
		return "take-report"
	case "sheet":
		return "take-sheet"
	}
	return otherwise
}

func (b *Bench) writeTake(w http.ResponseWriter, r *http.Request, name string, status int, p *takePage) {
	if name == "take.html" {
		p.Here, p.Kept = true, b.keptList("", keptBeside)
	}
	w.Header().Add("Vary", takePartHeader)
	b.write(w, r, name, status, p)
}
