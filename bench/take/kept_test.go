package take_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"heddle/audio"
	"heddle/audio/audiotest"
	"heddle/bench/benchtest"
	"heddle/bench/takes"
	"heddle/exercise"
	"heddle/hear"
)

func TestAKeptTakeIsListedOpenedAndDownloaded(t *testing.T) {
	data := t.TempDir()
	home, take := benchtest.Keep(t, data), benchtest.Faulty(t)
	status, location, list := benchtest.Call(t, "POST", home+"/takes?"+benchtest.LiveSpec+fmt.Sprintf("&first-bar=%g", take.LeadS), "application/octet-stream", bytes.NewReader(take.WAV()), benchtest.KeptPart)
	if status != http.StatusCreated || location != "/takes/20260716-182211" {
		t.Fatalf("answered %d at %q: %s", status, location, list)
	}
	length := fmt.Sprintf("%.0f s</span>", float64(len(take.Samples))/float64(take.Rate))
	const summary = "13 right, 1 wrong, 1 missed, 0 extra"
	for address, page := range map[string]string{"what comes back": list, "the take page": got(t, home+"/take"), "the list": got(t, home+"/takes")} {
		for _, want := range []string{`href="/takes/20260716-182211"`, "Thu 16 Jul 2026, 20:22:11", summary, "weave G minor pentatonic", length} {
			if !strings.Contains(page, want) {
				t.Errorf("%s lacks %q", address, want)
			}
		}
	}

	page := got(t, home+location)
	if got := benchtest.Counts(page); got != summary {
		t.Errorf("opened again it has %s, want %s", got, summary)
	}
	for _, want := range []string{"Take of", "Thu 16 Jul 2026, 20:22:11", `id="over-title"`, `class="take-note missed" data-note="11"`, "against the click", `data-recording="/takes/20260716-182211/take.flac"`, "Record it again"} {
		if !strings.Contains(page, want) {
			t.Errorf("the take's page lacks %q", want)
		}
	}

	recording, err := audio.Decode(strings.NewReader(got(t, home+location+"/take.flac")))
	if err != nil || recording.Rate != take.Rate {
		t.Fatalf("the recording: %v", err)
	}
	samples := make([]float32, len(take.Samples))
	for n := 0; n < len(samples); {
		read, err := recording.Read(samples[n:])
		if n += read; err != nil {
			t.Fatal(err)
		}
	}
	var kept struct {
		Taken    string
		Spec     exercise.Spec
		Sentence string
		Report   struct{ Summary hear.Summary }
	}
	if err := json.Unmarshal([]byte(got(t, home+location+"/take.json")), &kept); err != nil {
		t.Fatal(err)
	}
	if kept.Taken != "2026-07-16T20:22:11+02:00" || kept.Spec.Query() != take.Exercise.Spec.Query() || kept.Report.Summary.Right != 13 {
		t.Errorf("the report says %+v", kept)
	}
}

// got reads a page that must be there.
func got(t testing.TB, address string) string {
	t.Helper()
	status, _, page := benchtest.Call(t, "GET", address, "", nil)
	if status != http.StatusOK {
		t.Fatalf("%s is answered %d: %.300s", address, status, page)
	}
	return page
}

func TestAFormWithoutScriptsKeepsATake(t *testing.T) {
	home := benchtest.Keep(t, t.TempDir())
	if page := got(t, home+"/take?"+benchtest.TakeSpec); !strings.Contains(page, `formaction="/takes?`) || !strings.Contains(page, "No takes kept yet") {
		t.Error("the page offers no way to keep a take without scripts")
	}
	recording := benchtest.Play(t, benchtest.TakeSpec, 0.7, nil).WAV()
	kind, body := benchtest.Form("evening.wav", recording, [2]string{"label", " Ann & Björn, second try "})
	status, location, _ := benchtest.Call(t, "POST", home+"/takes?"+benchtest.TakeSpec, kind, body)
	if status != http.StatusSeeOther {
		t.Fatalf("answered %d, to %q", status, location)
	}
	for path, want := range map[string]string{
		location: "Ann &amp; Björn, second try: take of", "/takes": "<strong>Ann &amp; Björn, second try</strong>", location + "/delete": "Delete Ann &amp; Björn, second try, the take of",
	} {
		if page := got(t, home+path); !strings.Contains(page, want) {
			t.Errorf("%s lacks %q", path, want)
		}
	}
	for _, label := range []string{strings.Repeat("é", 81), "two\nlines", "\xff", strings.Repeat("x", 2000)} {
		kind, body := benchtest.Form("evening.wav", recording, [2]string{"label", label})
		if status, _, page := benchtest.Call(t, "POST", home+"/takes?"+benchtest.TakeSpec, kind, body, benchtest.KeptPart); status != http.StatusBadRequest || !strings.Contains(page, "at most 80 characters") {
			t.Errorf("the label %.20q is answered %d", label, status)
		}
	}
}

func TestATakeIsDeletedOnlyWhenAsked(t *testing.T) {
	data := t.TempDir()
	home := benchtest.Keep(t, data)
	name := keepQuickly(t, data, benchtest.Thursday)
	address := home + "/takes/" + name
	if page := got(t, address+"/delete"); !strings.Contains(page, "Delete the take of Thu 16 Jul 2026, 20:22:11?") || !strings.Contains(page, `method="post"`) {
		t.Errorf("it is not asked whether to delete: %s", page)
	}
	if status, _, _ := benchtest.Call(t, "POST", address+"/delete", "", nil, [2]string{"Origin", "http://elsewhere.example"}); status != http.StatusForbidden {
		t.Errorf("another site is answered %d, want 403", status)
	}
	if status, _, _ := benchtest.Call(t, "DELETE", address, "", nil); status != http.StatusMethodNotAllowed {
		t.Errorf("a method that is none of the page's is answered %d", status)
	}
	got(t, address)
	for range 2 { // the second from another window
		if status, location, _ := benchtest.Call(t, "POST", address+"/delete", "", nil); status != http.StatusSeeOther || location != "/takes" {
			t.Errorf("answered %d, to %q", status, location)
		}
	}
	for _, gone := range []string{"", "/delete", "/take.flac", "/take.json"} {
		if status, _, _ := benchtest.Call(t, "GET", address+gone, "", nil); status != http.StatusNotFound {
			t.Errorf("%s is answered %d after the take is deleted", gone, status)
		}
	}
}

// keepQuickly keeps a take of one second without listening to it.
func keepQuickly(t testing.TB, data string, when time.Time) (name string) {
	t.Helper()
	ex := benchtest.Play(t, benchtest.LiveSpec, 0, nil).Exercise
	draft, err := takes.In(data).Draft(when)
	if err != nil {
		t.Fatal(err)
	}
	defer draft.Drop()
	source, err := audio.Decode(bytes.NewReader(audiotest.WAV(8000, make([]float32, 8000))))
	if err != nil {
		t.Fatal(err)
	}
	if err := draft.Record(source); err != nil {
		t.Fatal(err)
	}
	name, err = draft.Keep(&takes.Take{
		Taken: when, Spec: ex.Spec, Sentence: ex.Sentence, Written: takes.Keys(ex), Report: hear.Mark(nil, 0, ex, hear.TakeOptions{}),
	})
	if err != nil {
		t.Fatal(err)
	}
	return name
}

func TestKeptTakesAreListedPageByPage(t *testing.T) {
	data := t.TempDir()
	home := benchtest.Keep(t, data)
	for day := range 22 {
		keepQuickly(t, data, benchtest.Thursday.AddDate(0, 0, day))
	}
	for address, want := range map[string]int{"/take": 5, "/takes": 20, "/takes?before=20260718-182211": 2, "/takes?before=nothing": 20} {
		page := got(t, home+address)
		if n := strings.Count(page, `<p class="when">`); n != want {
			t.Errorf("%s lists %d takes, want %d", address, n, want)
		}
		if older := strings.Contains(page, "Older takes"); older != (want != 2) {
			t.Errorf("%s: older takes are offered: %v", address, older)
		}
	}
	if page := got(t, home+"/takes"); strings.Index(page, "Thu 6 Aug") > strings.Index(page, "Wed 5 Aug") || !strings.Contains(page, "/takes?before=20260718-182211") {
		t.Error("the newest do not stand first")
	}
}

func TestWhatIsNotKeptIsSaidInOneLineAndLeavesNothing(t *testing.T) {
	data := t.TempDir()
	inTheWay := filepath.Join(data, "file")
	if err := os.WriteFile(inTheWay, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	whole := benchtest.Play(t, benchtest.TakeSpec, 0.5, nil)
	silent := whole
	silent.Samples = make([]float32, 3*whole.Rate)
	for name, c := range map[string]struct {
		data   string
		file   []byte
		status int
		want   string
	}{
		"silence":                 {data, silent.WAV(), http.StatusBadRequest, "silence"},
		"half a file":             {data, whole.WAV()[:50000], http.StatusBadRequest, "breaks off"},
		"no recording":            {data, []byte("Dear diary"), http.StatusBadRequest, "an unknown kind of file"},
		"a folder that can't be":  {inTheWay, whole.WAV(), http.StatusInsufficientStorage, "takes can't be kept in " + inTheWay},
		"a bench without folders": {"", whole.WAV(), http.StatusNotFound, "--data"},
	} {
		home := benchtest.Keep(t, c.data)
		status, _, says := benchtest.Call(t, "POST", home+"/takes?"+benchtest.TakeSpec, "application/octet-stream", bytes.NewReader(c.file), benchtest.KeptPart)
		if says = strings.TrimSpace(says); status != c.status || !strings.HasPrefix(says, "Not kept: ") || !strings.Contains(says, c.want) || strings.Contains(says, "\n") {
			t.Errorf("%s: answered %d %q, want %d with %q", name, status, says, c.status, c.want)
		}
		kind, body := benchtest.Form("take.wav", c.file)
		if status, _, page := benchtest.Call(t, "POST", home+"/takes?"+benchtest.TakeSpec, kind, body); status != c.status || !strings.Contains(page, "Not kept: ") || !strings.Contains(page, "<!doctype html>") {
			t.Errorf("%s, by a form: answered %d", name, status)
		}
	}
	if entries, err := os.ReadDir(filepath.Join(data, "takes")); err != nil || len(entries) > 0 {
		t.Errorf("what was not kept left %v, %v", entries, err)
	}
}

func TestNothingIsMadeBeforeSomethingIsKept(t *testing.T) {
	data := filepath.Join(t.TempDir(), "heddle")
	home := benchtest.Keep(t, data)
	for _, path := range []string{"/", "/take?" + benchtest.TakeSpec, "/takes"} {
		got(t, home+path)
	}
	for _, path := range []string{"/takes/20260716-182211", "/takes/x/delete", "/takes/20260716-182211/secret"} {
		if status, _, _ := benchtest.Call(t, "GET", home+path, "", nil); status != http.StatusNotFound {
			t.Errorf("%s is answered %d", path, status)
		}
	}
	if _, err := os.Stat(data); !os.IsNotExist(err) {
		t.Errorf("reading pages made the data folder: %v", err)
	}
}

func TestADamagedTakeIsSaidToBeSoAndCanBeDeleted(t *testing.T) {
	data := t.TempDir()
	home := benchtest.Keep(t, data)
	name := keepQuickly(t, data, benchtest.Thursday)
	report := filepath.Join(data, "takes", name, takes.ReportFile)
	for what, damage := range map[string]func() error{
		"cut short": func() error { return os.WriteFile(report, []byte(`{"version":1,`), 0o600) },
		"removed":   func() error { return os.Remove(report) },
	} {
		if err := damage(); err != nil {
			t.Fatal(err)
		}
		if page := got(t, home+"/takes"); !strings.Contains(page, "This take can’t be read") || !strings.Contains(page, "Delete…") {
			t.Errorf("%s: the list does not say so", what)
		}
		if status, _, page := benchtest.Call(t, "GET", home+"/takes/"+name, "", nil); status != http.StatusInternalServerError || !strings.Contains(page, "This take can’t be shown") {
			t.Errorf("%s: its page is answered %d", what, status)
		}
	}
	got(t, home+"/takes/"+name+"/delete")
	if status, _, _ := benchtest.Call(t, "POST", home+"/takes/"+name+"/delete", "", nil); status != http.StatusSeeOther {
		t.Errorf("it can't be deleted: %d", status)
	}
}
