package take_test

import (
	"bytes"
	"fmt"
	"io"
	"math/rand/v2"
	"net/http"
	"strings"
	"testing"

	"heddle/bench"
	"heddle/bench/benchtest"
	"heddle/exercise"
	"heddle/neck"
)

func TestTheTakePageShowsTheLineAndWaysToTakeIt(t *testing.T) {
	home := benchtest.Serve(t, bench.Options{})
	answer, err := http.Get(home + "/take?" + benchtest.TakeSpec)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	text, _ := io.ReadAll(answer.Body)
	page := string(text)
	for _, want := range []string{
		"weave G minor pentatonic", `data-note="0"`, `method="post" enctype="multipart/form-data"`, `name="recording"`,
		"NIOSH", "stop at pain", "Change it on the bench", `id="take-record"`,
	} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
	if strings.Contains(page, "style=") || strings.Contains(page, "onclick") {
		t.Error("something stands inline on the page, which its policy forbids")
	}
}

func TestAFormWithoutScriptsIsAnsweredWithTheMarks(t *testing.T) {
	p := benchtest.Play(t, benchtest.TakeSpec, 0.7, nil)
	kind, body := benchtest.Form("evening.wav", p.WAV())
	status, page := benchtest.Post(t, benchtest.Serve(t, bench.Options{}), benchtest.TakeSpec, kind, body)
	if status != http.StatusOK {
		t.Fatalf("answered %d", status)
	}
	if got, want := benchtest.Counts(page), fmt.Sprintf("%d right, 0 wrong, 0 missed, 0 extra", len(p.Exercise.Notes)); got != want {
		t.Errorf("%s, want %s", got, want)
	}
	for _, want := range []string{"<!doctype html>", `id="over-title"`, "Note by note", `class="take-note right"`, "Every note is right"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
}

func TestWhatIsWrongIsShownNoteByNote(t *testing.T) {
	const wrong, missed = 4, 10
	p := benchtest.Play(t, benchtest.TakeSpec, 0.5, func(notes []exercise.Note) {
		notes[wrong].Spot = neck.Spot{String: notes[wrong].String, Fret: notes[wrong].Fret + 1}
		notes[wrong].Pitch.Octave = 0 // what sounds is the fret
		notes[missed].Pitch.Octave = 0
	})
	// The missed note is silence: its neighbours' sound is cut away too.
	from, to := int(p.OnsetsS[missed]*float64(p.Rate)), int(p.OnsetsS[missed+1]*float64(p.Rate))
	for i := from - p.Rate/100; i < to-p.Rate/200; i++ {
		p.Samples[i] = 0
	}
	status, page := benchtest.Post(t, benchtest.Serve(t, bench.Options{}), benchtest.TakeSpec+fmt.Sprintf("&first-bar=%g", p.LeadS), "application/octet-stream", bytes.NewReader(p.WAV()), [2]string{"Heddle-Part", "report"})
	if status != http.StatusOK {
		t.Fatalf("answered %d: %s", status, page)
	}
	if strings.Contains(page, "<!doctype") {
		t.Error("a part was asked for and the whole page came")
	}
	if got, want := benchtest.Counts(page), fmt.Sprintf("%d right, 1 wrong, 1 missed, 0 extra", len(p.Exercise.Notes)-2); got != want {
		t.Errorf("%s, want %s", got, want)
	}
	for _, want := range []string{"1 semitone too high", "a fret too high", `class="take-note wrong"`, `class="take-note missed" data-note="10"`, "against the click"} {
		if !strings.Contains(page, want) {
			t.Errorf("the report lacks %q", want)
		}
	}
}

func TestTheFirstBarLineSaysWhatIsLate(t *testing.T) {
	p := benchtest.Play(t, benchtest.TakeSpec, 0.5, nil)
	// The click stood 40 ms before the player.
	_, page := benchtest.Post(t, benchtest.Serve(t, bench.Options{}), benchtest.TakeSpec+fmt.Sprintf("&first-bar=%g", p.LeadS-0.04), "audio/wav", bytes.NewReader(p.WAV()))
	for _, want := range []string{"behind the click", "ms late"} {
		if !strings.Contains(page, want) {
			t.Errorf("the report lacks %q", want)
		}
	}
}

func TestWhatCannotBeMarkedIsSaidInOneLine(t *testing.T) {
	home := benchtest.Serve(t, bench.Options{})
	take := benchtest.Play(t, benchtest.TakeSpec, 0.5, nil)
	whole := take.WAV()
	silent, noisy := take, take
	silent.Samples = make([]float32, 3*take.Rate)
	noisy.Samples = make([]float32, 3*take.Rate)
	chance := rand.New(rand.NewPCG(1, 2))
	for i := range noisy.Samples {
		noisy.Samples[i] = float32(chance.NormFloat64()) * 0.05
	}
	for _, c := range []struct {
		name string
		file []byte
		want string
	}{
		{"silence", silent.WAV(), "silence"},
		{"noise", noisy.WAV(), "noise"},
		{"an Ogg file", []byte("OggS\x00\x02 and so on and on"), "an Ogg file"},
		{"nothing", nil, "an empty file"},
		{"a file that breaks off", whole[:len(whole)/2], "breaks off"},
		{"no sound at all", []byte("Dear diary, today I played well."), "an unknown kind of file"},
	} {
		kind, body := benchtest.Form("take.wav", c.file)
		status, page := benchtest.Post(t, home, benchtest.TakeSpec, kind, body)
		_, fault, _ := strings.Cut(page, `<p class="fault" role="alert">`)
		fault, _, _ = strings.Cut(fault, "</p>")
		if status != http.StatusBadRequest || !strings.Contains(fault, c.want) || strings.Contains(fault, "\n") {
			t.Errorf("%s: answered %d with %q, want 400 with %q", c.name, status, fault, c.want)
		}
	}
}

func TestATakeWithoutAFileIsRefused(t *testing.T) {
	home := benchtest.Serve(t, bench.Options{})
	for name, kind := range map[string]string{"a plain form": "application/x-www-form-urlencoded", "no kind": "", "text": "text/plain"} {
		if status, page := benchtest.Post(t, home, benchtest.TakeSpec, kind, strings.NewReader("recording=take.wav")); status != http.StatusBadRequest || !strings.Contains(page, "WAV, FLAC or MP3") {
			t.Errorf("%s: answered %d", name, status)
		}
	}
	kind, body := benchtest.Form("", nil)
	if status, page := benchtest.Post(t, home, benchtest.TakeSpec, kind, body); status != http.StatusBadRequest || !strings.Contains(page, "no file") {
		t.Errorf("an empty form: answered %d", status)
	}
}

func TestATakeFromAnotherSiteIsRefused(t *testing.T) {
	p := benchtest.Play(t, benchtest.TakeSpec, 0.2, nil)
	home := benchtest.Serve(t, bench.Options{})
	for _, h := range [][2]string{{"Origin", "http://elsewhere.example"}, {"Sec-Fetch-Site", "cross-site"}} {
		if status, _ := benchtest.Post(t, home, benchtest.TakeSpec, "audio/wav", bytes.NewReader(p.WAV()), h); status != http.StatusForbidden {
			t.Errorf("%s %s: answered %d, want 403", h[0], h[1], status)
		}
	}
}

func TestATakeOfWhatIsNoExerciseSaysWhatToMend(t *testing.T) {
	home := benchtest.Serve(t, bench.Options{})
	for _, query := range []string{"home=H+what", benchtest.TakeSpec + "&first-bar=soon", benchtest.TakeSpec + "&rate=4"} {
		status, page := benchtest.Post(t, home, query, "audio/wav", strings.NewReader("RIFF"))
		if status != http.StatusBadRequest || page == "" {
			t.Errorf("%s: answered %d %q", query, status, page)
		}
	}
	answer, err := http.Get(home + "/take?home=nothing+minor")
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	text, _ := io.ReadAll(answer.Body)
	if answer.StatusCode != http.StatusBadRequest || !strings.Contains(string(text), "Fix the sentence on the bench") {
		t.Errorf("a page of no exercise: %d %.300s", answer.StatusCode, text)
	}
}
