package practising

import (
	"html/template"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"time"

	"heddle/bench/site"
	"heddle/exercise"
	"heddle/pitch"
	"heddle/practice"
	"heddle/practice/chart"
	"heddle/practice/store"
	"heddle/score"
)

// mostRows is how many items are listed at once; typing narrows.
const mostRows = 100

// A row is an item on the shelf.
type row struct {
	practice.Item
	Sentence string
	Strip    template.HTML
	Last     string // when it was last played, in words
	Due      int
}

// serveShelf lists the shelf, or what is found on it.
func (ps *Pages) serveShelf(w http.ResponseWriter, r *http.Request, mine store.Store) error {
	words := r.URL.Query().Get("find")
	items, err := mine.Find(r.Context(), words)
	if err != nil {
		return err
	}
	record, err := mine.Record(r.Context())
	if err != nil {
		return err
	}
	p := struct {
		page
		Find  string
		Rows  []row
		More  int
		Empty bool // the whole shelf
	}{page: ps.page("Shelf", "shelf"), Find: words, More: max(0, len(items)-mostRows), Empty: len(record.Items) == 0}
	slices.Reverse(items)
	if words != "" {
		slices.Reverse(items) // the best match first
	}
	progress := practice.ProgressOf(record, nil, nil, ps.now())
	for _, it := range items[:min(mostRows, len(items))] {
		row, err := ps.row(it, record, progress)
		if err != nil {
			return err
		}
		p.Rows = append(p.Rows, row)
	}
	ps.site.Write(w, r, "shelf.html", http.StatusOK, p)
	return nil
}

func (ps *Pages) row(it practice.Item, record *practice.Record, progress *practice.Progress) (row, error) {
	out := row{Item: it, Last: "never played"}
	if ex, err := exercise.Build(it.Spec); err == nil {
		out.Sentence = ex.Sentence
	}
	_, out.Due = record.Due(it.ID, ps.now())
	var last time.Time
	for _, s := range record.Standings {
		if s.Item == it.ID && s.Played.After(last) {
			last = s.Played
		}
	}
	if !last.IsZero() {
		out.Last = "last played " + last.Format("2 Jan 2006")
	}
	for _, grid := range progress.Items {
		if grid.Item == it.ID {
			var err error
			d := chart.Strip(grid)
			d.Prefix = "i" + strconv.FormatInt(it.ID, 10) + "-"
			out.Strip, err = site.Picture(d)
			return out, err
		}
	}
	return out, nil
}

// serveKeep asks what to call a line that is to be kept.
func (ps *Pages) serveKeep(w http.ResponseWriter, r *http.Request, mine store.Store) error {
	asked, err := site.Valid(r)
	if err != nil {
		return err
	}
	known := int64(0)
	items, err := mine.Items(r.Context(), false)
	if err != nil {
		return err
	}
	for _, it := range items {
		if it.Spec.Query() == asked.Exercise.Spec.Query() {
			known = it.ID
		}
	}
	ps.site.Write(w, r, "keep.html", http.StatusOK, struct {
		page
		Suggested, Sentence, Spec string
		Scopes                    []exercise.Choice
		Known                     int64
	}{ps.page("Keep", "shelf"), practice.TitleOf(asked.Exercise), asked.Exercise.Sentence, asked.Exercise.Spec.Query(), practice.Scopes(), known})
	return nil
}

// serveKept keeps a line.
func (ps *Pages) serveKept(w http.ResponseWriter, r *http.Request, mine store.Store) error {
	values, err := form(r)
	if err != nil {
		return err
	}
	spec, err := exercise.ParseQuery(values.Get("spec"))
	if err != nil {
		return err
	}
	ex, err := exercise.Build(spec)
	if err != nil {
		return err
	}
	item := practice.Item{Title: values.Get("title"), Spec: ex.Spec, Made: ps.now(), From: "the bench", Scope: practice.Scope(values.Get("scope")), Tags: strings.Fields(values.Get("tags")), Note: values.Get("note")}
	kept, _, err := mine.Keep(r.Context(), item)
	if err != nil {
		return err
	}
	if values.Get("then") == "practise" {
		return see(w, r, "/practise/"+strconv.FormatInt(kept.ID, 10))
	}
	return see(w, r, "/shelf/"+strconv.FormatInt(kept.ID, 10))
}

// serveDemo puts three items on the shelf and goes on to a plan.
func (ps *Pages) serveDemo(w http.ResponseWriter, r *http.Request, mine store.Store) error {
	for _, it := range practice.Demo(ps.now()) {
		ex, err := exercise.Build(it.Spec)
		if err != nil {
			return err
		}
		it.Spec = ex.Spec
		is, _, err := mine.Keep(r.Context(), it)
		if err != nil {
			return err
		}
		if err := mine.Restore(r.Context(), is.ID); err != nil {
			return err
		}
	}
	return see(w, r, "/today")
}

// A unitRow is one key and place of an item.
type unitRow struct {
	Words, Link string
	Fastest     string
	Next        float64
	Runs        int
	Due         string
	Latest      string
}

// serveItem shows an item.
func (ps *Pages) serveItem(w http.ResponseWriter, r *http.Request, mine store.Store) error {
	number, err := id(r, "id")
	if err != nil {
		return err
	}
	it, err := mine.Item(r.Context(), number)
	if err != nil {
		return err
	}
	record, err := mine.Record(r.Context())
	if err != nil {
		return err
	}
	shown, err := ps.row(it, record, practice.ProgressOf(record, nil, nil, ps.now()))
	if err != nil {
		return err
	}
	runs, err := mine.Runs(r.Context(), store.Which{Item: it.ID, Most: 20})
	if err != nil {
		return err
	}
	p := struct {
		page
		row
		Query  template.URL
		Tagged string
		Scopes []exercise.Choice
		Units  []unitRow
		Log    []practice.Run
	}{page: ps.page(it.Title, "shelf"), row: shown, Query: query(it.Spec.Query()), Tagged: strings.Join(it.Tags, " "), Scopes: practice.Scopes(), Log: runs}
	p.page.Title = it.Title
	for _, s := range record.Standings {
		if s.Item != it.ID {
			continue
		}
		unit := unitRow{Words: s.Words(), Link: unitLink(s.Unit), Next: s.Next(it.Target), Runs: s.Runs, Latest: s.Latest.String(), Fastest: "–"}
		if s.Fastest > 0 {
			unit.Fastest = site.Decimal(s.Fastest)
		}
		if s.Reps > 0 {
			unit.Due = s.Due.In(ps.now().Location()).Format("2 Jan")
		}
		p.Units = append(p.Units, unit)
	}
	ps.site.Write(w, r, "item.html", http.StatusOK, p)
	return nil
}

// unitLink is where a unit is practised.
func unitLink(u practice.Unit) string {
	return "/practise/" + strconv.FormatInt(u.Item, 10) + "?" + url.Values{"key": {u.Key}, "fret": {strconv.Itoa(u.Fret)}}.Encode()
}

// serveChange changes what an item is called and where it is practised.
func (ps *Pages) serveChange(w http.ResponseWriter, r *http.Request, mine store.Store) error {
	number, err := id(r, "id")
	if err != nil {
		return err
	}
	values, err := form(r)
	if err != nil {
		return err
	}
	it, err := mine.Item(r.Context(), number)
	if err != nil {
		return err
	}
	it.Title, it.Tags, it.Note, it.Scope = values.Get("title"), strings.Fields(values.Get("tags")), strings.ReplaceAll(values.Get("note"), "\r\n", "\n"), practice.Scope(values.Get("scope"))
	if it.Target, err = strconv.ParseFloat(values.Get("target"), 64); err != nil {
		return &pitch.InputError{What: "target", Value: values.Get("target"), Want: "quarter notes a minute from 20 to 400"}
	}
	if err := mine.Change(r.Context(), it); err != nil {
		return err
	}
	return see(w, r, r.URL.Path)
}

// serveDrop takes an item off the shelf; its page offers to put it back.
func (ps *Pages) serveDrop(w http.ResponseWriter, r *http.Request, mine store.Store) error {
	number, err := id(r, "id")
	if err != nil {
		return err
	}
	if err := mine.Drop(r.Context(), number, ps.now()); err != nil {
		return err
	}
	return see(w, r, "/shelf/"+r.PathValue("id"))
}

func (ps *Pages) serveRestore(w http.ResponseWriter, r *http.Request, mine store.Store) error {
	number, err := id(r, "id")
	if err != nil {
		return err
	}
	if err := mine.Restore(r.Context(), number); err != nil {
		return err
	}
	return see(w, r, "/shelf/"+r.PathValue("id"))
}

// A playing is what a block or a unit shows to play from.
type playing struct {
	Sentence string
	Sheet    template.HTML
	Bench    template.URL // query of the line on the bench
	Sound    template.URL // query of the line with its vamp, as often as fills the minutes
	Tempo    float64
}

func play(spec exercise.Spec, minutes, room int) (playing, error) {
	ex, err := exercise.Build(spec)
	if err != nil {
		return playing{}, err
	}
	p := playing{Sentence: ex.Sentence, Bench: query(spec.Query()), Tempo: ex.Tempo,
		Sound: query(spec.Query() + "&count-in=1&loops=" + strconv.Itoa(practice.Loops(ex, minutes)))}
	for i, system := range score.Systems(ex, score.Options{Width: float64(room) * site.MMPerPixel, Space: site.StaffSpace(room), Prefix: "s", Repeat: true}) {
		system.Prefix = "s" + strconv.Itoa(i) + "-"
		html, err := site.Picture(system)
		if err != nil {
			return p, err
		}
		p.Sheet += html
	}
	return p, nil
}

// servePractise shows one unit to play, at the tempo that is next.
func (ps *Pages) servePractise(w http.ResponseWriter, r *http.Request, mine store.Store) error {
	it, unit, err := ps.asked(r, mine, r.URL.Query())
	if err != nil {
		return err
	}
	record, err := mine.Record(r.Context())
	if err != nil {
		return err
	}
	tempo := practice.FirstTempo(it.Target)
	for _, s := range record.Standings {
		if s.Unit == unit {
			tempo = s.Next(it.Target)
		}
	}
	spec, err := unit.Spec(it.Spec)
	if err != nil {
		return err
	}
	spec.Tempo = tempo
	shown, err := play(spec, 3, site.RoomOf(r).Music)
	if err != nil {
		return err
	}
	ps.site.Write(w, r, "practise.html", http.StatusOK, struct {
		page
		playing
		Item    practice.Item
		Unit    practice.Unit
		Words   []string
		Minutes int
		Began   int64
	}{ps.page("Practise", "shelf"), shown, it, unit, practice.WentWords(), 3, ps.now().UnixMilli()})
	return nil
}

// asked reads which unit of an item a request is about.
func (ps *Pages) asked(r *http.Request, mine store.Store, values url.Values) (it practice.Item, u practice.Unit, err error) {
	number, err := id(r, "id")
	if err != nil {
		return it, u, err
	}
	if it, err = mine.Item(r.Context(), number); err != nil {
		return it, u, err
	}
	u, err = practice.UnitOf(it, values.Get("key"), values.Get("fret"))
	return it, u, err
}

// serveRun logs a run.
func (ps *Pages) serveRun(w http.ResponseWriter, r *http.Request, mine store.Store) error {
	values, err := form(r)
	if err != nil {
		return err
	}
	it, unit, err := ps.asked(r, mine, values)
	if err != nil {
		return err
	}
	run, err := ps.run(unit, values)
	if err != nil {
		return err
	}
	if _, err := mine.Add(r.Context(), run); err != nil {
		return err
	}
	return see(w, r, "/shelf/"+strconv.FormatInt(it.ID, 10))
}

// run reads a run from a form: the word, the tempo and when it was begun. Its UID
// is the form's, so that a form that is sent twice counts once.
func (ps *Pages) run(u practice.Unit, values url.Values) (r practice.Run, err error) {
	r = practice.Run{Unit: u, At: ps.now()}
	if r.Went, err = practice.ParseWent(values.Get("went")); err != nil {
		return r, err
	}
	if r.Tempo, err = strconv.ParseFloat(values.Get("tempo"), 64); err != nil {
		return r, &pitch.InputError{What: "tempo", Value: values.Get("tempo"), Want: "a number"}
	}
	minutes, err := strconv.ParseFloat(values.Get("minutes"), 64)
	if err != nil {
		return r, &pitch.InputError{What: "minutes", Value: values.Get("minutes"), Want: "a number"}
	}
	r.Seconds = minutes * 60
	if began, err := strconv.ParseInt(values.Get("began"), 10, 64); err == nil {
		at := time.UnixMilli(began).In(r.At.Location())
		if spent := r.At.Sub(at).Seconds(); spent >= 10 && spent <= 2*r.Seconds {
			r.At, r.Seconds = at, spent
		}
		r.UID = "page-" + strconv.FormatInt(began, 36) + "-" + u.Key + strconv.Itoa(u.Fret) + "-" + strconv.FormatInt(u.Item, 10) + "-" + values.Get("block")
	}
	return r, r.Check(ps.now())
}

// serveStrike strikes a run out.
func (ps *Pages) serveStrike(w http.ResponseWriter, r *http.Request, mine store.Store) error {
	number, err := id(r, "run")
	if err != nil {
		return err
	}
	if err := mine.Strike(r.Context(), number); err != nil {
		return err
	}
	values, err := form(r)
	if err != nil {
		return err
	}
	if back, err := strconv.ParseInt(values.Get("item"), 10, 64); err == nil {
		return see(w, r, "/shelf/"+strconv.FormatInt(back, 10))
	}
	return see(w, r, "/shelf")
}

// serveTakeRun makes a run of a kept take. The take's line must be on the shelf;
// where it is not, the player is asked to keep it first.
func (ps *Pages) serveTakeRun(w http.ResponseWriter, r *http.Request, mine store.Store) error {
	name := r.PathValue("name")
	if ps.take == nil || !ps.take.Has(name) {
		return store.ErrNone
	}
	take, err := ps.take.Open(name)
	if err != nil {
		return err
	}
	ex, err := take.Exercise()
	if err != nil {
		return err
	}
	record, err := mine.Record(r.Context())
	if err != nil {
		return err
	}
	unit, found, err := record.UnitOf(ex)
	if err != nil {
		return err
	}
	if !found {
		return see(w, r, "/shelf/keep?"+take.Spec.Query())
	}
	run := practice.Run{UID: "take-" + name, Unit: unit, At: take.Taken, Take: name}
	run.Fill(ex, take.Report, take.LengthS)
	if err := run.Check(ps.now()); err != nil {
		return err
	}
	if _, err := mine.Add(r.Context(), run); err != nil {
		return err
	}
	return see(w, r, "/shelf/"+strconv.FormatInt(unit.Item, 10))
}
