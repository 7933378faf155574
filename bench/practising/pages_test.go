package practising_test

import (
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"heddle/bench"
	"heddle/practice"
	"heddle/practice/store"
)

var thursday = time.Date(2026, 7, 16, 20, 22, 11, 0, time.FixedZone("CEST", 2*3600))

const line = "home=G+minor+pentatonic&superimpose=semitone+up&groups=3%2C3&fret=10&tempo=100"

// A site is a bench with a data folder of its own.
type site struct {
	t    *testing.T
	dir  string
	h    http.Handler
	host string
}

func open(t *testing.T) *site {
	t.Helper()
	s := &site{t: t, dir: t.TempDir(), host: "127.0.0.1:7878"}
	b, err := bench.New(bench.Options{Data: s.dir, Now: func() time.Time { return thursday }})
	if err != nil {
		t.Fatal(err)
	}
	s.h = b.Handler([]string{s.host})
	return s
}

func (s *site) ask(method, address string, values url.Values) *http.Response {
	s.t.Helper()
	r := httptest.NewRequest(method, "http://"+s.host+address, strings.NewReader(values.Encode()))
	if method == http.MethodPost {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r.Header.Set("Sec-Fetch-Site", "same-origin")
	}
	w := httptest.NewRecorder()
	s.h.ServeHTTP(w, r)
	return w.Result()
}

// get returns a page that is there.
func (s *site) get(address string) string {
	s.t.Helper()
	answer := s.ask(http.MethodGet, address, nil)
	text, err := io.ReadAll(answer.Body)
	if err != nil || answer.StatusCode != http.StatusOK {
		s.t.Fatalf("%s: status %d, %.200s", address, answer.StatusCode, text)
	}
	return string(text)
}

// post sends a form and returns where it leads.
func (s *site) post(address string, values url.Values) string {
	s.t.Helper()
	answer := s.ask(http.MethodPost, address, values)
	if answer.StatusCode != http.StatusSeeOther {
		text, _ := io.ReadAll(answer.Body)
		s.t.Fatalf("%s: status %d, %.200s", address, answer.StatusCode, text)
	}
	return answer.Header.Get("Location")
}

// store opens what the pages have kept.
func (s *site) record() *practice.Record {
	s.t.Helper()
	db, err := store.Open(s.t.Context(), s.dir, thursday)
	if err != nil {
		s.t.Fatal(err)
	}
	defer db.Close()
	r, err := db.Of(store.Player).Record(s.t.Context())
	if err != nil {
		s.t.Fatal(err)
	}
	return r
}

func (s *site) holds(page string, words ...string) {
	s.t.Helper()
	for _, w := range words {
		if !strings.Contains(page, w) {
			s.t.Errorf("the page does not say %q", w)
		}
	}
}

// From an empty shelf to the first plan in three presses: Today on the bench,
// the three items, and Begin.
func TestTheFirstPlanIsThreePressesAway(t *testing.T) {
	s := open(t)
	s.holds(s.get("/"), `href="/today"`, `href="/shelf"`, `href="/ask"`, `href="/progress"`, `/shelf/keep?`)
	s.holds(s.get("/today"), `action="/shelf/demo"`)
	if at := s.post("/shelf/demo", nil); at != "/today" {
		t.Fatalf("leads to %s", at)
	}
	s.holds(s.get("/today"), ">Begin<", "warm-up", "not medical advice", "flash cards")
	if at := s.post("/today", url.Values{"minutes": {"15"}}); at != "/today" {
		t.Fatalf("leads to %s", at)
	}
	s.holds(s.get("/today"), "1 of ", "fell apart", "relaxed", "/line.opus?")
}

// Each block ends with a word and leads to the next; one sent twice counts once.
func TestAPlanIsPlayedThrough(t *testing.T) {
	s := open(t)
	s.post("/shelf/demo", nil)
	s.post("/today", url.Values{"minutes": {"30"}})
	began := regexp.MustCompile(`name="began" value="(\d+)"`)
	blocks := 0
	for range 40 {
		page := s.get("/today")
		number := regexp.MustCompile(`name="block" value="(\d+)"`).FindStringSubmatch(page)
		if number == nil {
			s.holds(page, "plan is done")
			break
		}
		blocks++
		values := url.Values{"block": {number[1]}, "began": {began.FindStringSubmatch(page)[1]}}
		if strings.Contains(page, `name="went"`) {
			values.Set("went", "clean")
		}
		s.post("/today/done", values)
		s.post("/today/done", values)
	}
	r := s.record()
	if blocks < 6 || len(r.Days) != 1 || r.Days[0].Runs >= blocks || r.Days[0].Runs < blocks-2 {
		t.Errorf("%d blocks, %+v", blocks, r.Days)
	}
}

func TestALineIsKeptChangedDroppedAndPutBack(t *testing.T) {
	s := open(t)
	s.holds(s.get("/shelf/keep?"+line), "G minor pentatonic and A♭ minor pentatonic", `name="spec"`)
	item := s.post("/shelf", url.Values{"spec": {line}, "title": {"Thursday's vamp"}, "scope": {"keys"}, "tags": {"outside vamp"}})
	s.holds(s.get(item), "Thursday&#39;s vamp", "A, fret 12", "Open on the bench")
	s.holds(s.get("/shelf/keep?"+line), "on your shelf already")
	s.holds(s.get("/shelf?find=thurs"), "Thursday&#39;s vamp", "<svg")
	if strings.Contains(s.get("/shelf?find=friday"), "Thursday&#39;s vamp") {
		t.Error("found what was not looked for")
	}
	s.post(item, url.Values{"title": {"Friday's vamp"}, "scope": {"one"}, "target": {"120"}, "tags": {""}, "note": {"slowly"}})
	s.holds(s.get(item), "Friday&#39;s vamp", "slowly", `value="120"`)
	s.post(item+"/drop", nil)
	s.holds(s.get(item), "Put it back")
	s.holds(s.get("/shelf"), "Nothing is on the shelf yet")
	s.post(item+"/restore", nil)
	s.holds(s.get("/shelf"), "Friday&#39;s vamp")
}

func TestARunIsLoggedAndStruckOut(t *testing.T) {
	s := open(t)
	practise := s.post("/shelf", url.Values{"spec": {line}, "title": {"Thursday's vamp"}, "scope": {"keys"}, "then": {"practise"}})
	page := s.get(practise + "?key=A&fret=12")
	s.holds(page, "in A, fret 12, at 60", `name="key" value="A"`)
	item := s.post(practise, url.Values{"key": {"A"}, "fret": {"12"}, "tempo": {"72"}, "minutes": {"3"}, "went": {"clean"}, "began": {"1784225000000"}})
	s.post(practise, url.Values{"key": {"A"}, "fret": {"12"}, "tempo": {"72"}, "minutes": {"3"}, "went": {"clean"}, "began": {"1784225000000"}})
	s.holds(s.get(item), "A, fret 12 at 72, clean", "Strike out")
	if r := s.record(); len(r.Days) != 1 || r.Days[0].Runs != 1 {
		t.Errorf("%+v", r.Days)
	}
	s.post("/log/strike/1", url.Values{"item": {"1"}})
	s.holds(s.get(item), "struck out")
	s.holds(s.get("/progress"), "Which keys can I play, and how fast?", "How long did I play?")
}

// A question comes back with its answer and why.
func TestAQuestionIsAnswered(t *testing.T) {
	s := open(t)
	field := func(page, name string) string {
		m := regexp.MustCompile(`name="` + name + `" value="([^"]*)"`).FindStringSubmatch(page)
		if m == nil {
			t.Fatalf("no field %s", name)
		}
		return strings.NewReplacer("&amp;", "&", "&#43;", "+", "&#39;", "'").Replace(m[1])
	}
	page := s.get("/ask?" + line)
	values := url.Values{"typed": {"?"}}
	for _, name := range []string{"spec", "kind", "region", "seed", "asked", "right", "item"} {
		values.Set(name, field(page, name))
	}
	answer := s.ask(http.MethodPost, "/ask", values)
	text, _ := io.ReadAll(answer.Body)
	s.holds(string(text), ": want ")
	values.Set("kind", "name")
	values.Set("typed", "C#") // in neither of the scales
	answer = s.ask(http.MethodPost, "/ask", values)
	text, _ = io.ReadAll(answer.Body)
	s.holds(string(text), "Next question", "String ")
	if r := s.record(); len(r.Topics) != 1 || r.Topics[0].Asked != 1 {
		t.Errorf("%+v", r.Topics)
	}
}

// A GET changes nothing, whatever it asks for.
func TestLookingChangesNothing(t *testing.T) {
	s := open(t)
	s.post("/shelf/demo", nil)
	before := s.record()
	for _, address := range []string{"/shelf", "/shelf/1", "/shelf/keep?" + line, "/practise/1", "/today", "/today?minutes=45&no-guitar=yes", "/ask", "/ask?item=2", "/progress",
		"/progress/progress.svg", "/progress/progress.png", "/progress/progress.pdf", "/progress/progress.csv", "/progress/progress.json", "/progress/year.pdf?year=2026"} {
		s.get(address)
	}
	after := s.record()
	if len(before.Items) != len(after.Items) || len(after.Days) != 0 || len(after.Topics) != 0 {
		t.Errorf("%+v", after)
	}
	for _, address := range []string{"/shelf/99", "/shelf/x", "/practise/99", "/progress/other.pdf", "/progress/year.pdf?year=1"} {
		if answer := s.ask(http.MethodGet, address, nil); answer.StatusCode != http.StatusNotFound {
			t.Errorf("%s: status %d", address, answer.StatusCode)
		}
	}
	for address, values := range map[string]url.Values{"/shelf": {"spec": {"home=x"}, "title": {"x"}}, "/practise/1": {"went": {"fine"}, "tempo": {"80"}, "minutes": {"3"}}, "/today": {"minutes": {"1"}}} {
		if answer := s.ask(http.MethodPost, address, values); answer.StatusCode != http.StatusBadRequest {
			t.Errorf("%s: status %d", address, answer.StatusCode)
		}
	}
}
