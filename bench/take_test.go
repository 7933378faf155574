package bench_test

import (
	"bytes"
	"fmt"
	"io"
	"math/rand/v2"
	"mime/multipart"
	"net/http"
	"strings"
	"testing"

	"heddle/exercise"
	"heddle/neck"
)

// send posts a recording to the take page and returns its answer.
func send(t testing.TB, home, query, kind string, body io.Reader, headers ...[2]string) (status int, page string) {
	t.Helper()
	r, err := http.NewRequestWithContext(t.Context(), http.MethodPost, home+"/take?"+query, body)
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Content-Type", kind)
	for _, h := range headers {
		r.Header.Set(h[0], h[1])
	}
	answer, err := http.DefaultClient.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	return answer.StatusCode, string(text)
}

// form is a recording as a form without scripts sends it.
func form(t testing.TB, name string, file []byte, fields ...[2]string) (kind string, body io.Reader) {
	t.Helper()
	var b bytes.Buffer
	w := multipart.NewWriter(&b)
	if err := w.WriteField("note", "a field that is not the recording"); err != nil {
		t.Fatal(err)
	}
	for _, f := range fields {
		if err := w.WriteField(f[0], f[1]); err != nil {
			t.Fatal(err)
		}
	}
	part, err := w.CreateFormFile("recording", name)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := part.Write(file); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return w.FormDataContentType(), &b
}

// counts is the summary as the page writes it.
func counts(page string) string {
	var list []string
	for _, kind := range []string{"right", "wrong", "missed", "extra"} {
		_, rest, _ := strings.Cut(page, `<li class="`+kind+`">`)
		_, rest, _ = strings.Cut(rest, "<strong>")
		n, _, _ := strings.Cut(rest, "</strong>")
		list = append(list, n+" "+kind)
	}
	return strings.Join(list, ", ")
}

func TestTheTakePageShowsTheLineAndWaysToTakeIt(t *testing.T) {
	home := served(t)
	answer, err := http.Get(home + "/take?" + takeSpec)
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
	p := playTake(t, takeSpec, 0.7, nil)
	kind, body := form(t, "evening.wav", p.wav(t))
	status, page := send(t, served(t), takeSpec, kind, body)
	if status != http.StatusOK {
		t.Fatalf("answered %d", status)
	}
	if got, want := counts(page), fmt.Sprintf("%d right, 0 wrong, 0 missed, 0 extra", len(p.exercise.Notes)); got != want {
		t.Errorf("%s, want %s", got, want)
	}
	for _, want := range []string{"<!doctype html>", `<svg class="over"`, "Note by note", `class="heard right"`, "Every note is right"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
}

func TestWhatIsWrongIsShownNoteByNote(t *testing.T) {
	const wrong, missed = 4, 10
	p := playTake(t, takeSpec, 0.5, func(notes []exercise.Note) {
		notes[wrong].Spot = neck.Spot{String: notes[wrong].String, Fret: notes[wrong].Fret + 1}
		notes[wrong].Pitch.Octave = 0 // what sounds is the fret
		notes[missed].Pitch.Octave = 0
	})
	// The missed note is silence: its neighbours' sound is cut away too.
	from, to := int(p.onsetsS[missed]*float64(p.rate)), int(p.onsetsS[missed+1]*float64(p.rate))
	for i := from - p.rate/100; i < to-p.rate/200; i++ {
		p.samples[i] = 0
	}
	status, page := send(t, served(t), takeSpec+fmt.Sprintf("&first-bar=%g", p.leadS), "application/octet-stream", bytes.NewReader(p.wav(t)), [2]string{"Heddle-Part", "report"})
	if status != http.StatusOK {
		t.Fatalf("answered %d: %s", status, page)
	}
	if strings.Contains(page, "<!doctype") {
		t.Error("a part was asked for and the whole page came")
	}
	if got, want := counts(page), fmt.Sprintf("%d right, 1 wrong, 1 missed, 0 extra", len(p.exercise.Notes)-2); got != want {
		t.Errorf("%s, want %s", got, want)
	}
	for _, want := range []string{"1 semitone too high", "a fret too high", `class="heard wrong"`, `class="take-note missed" data-note="10"`, "against the click"} {
		if !strings.Contains(page, want) {
			t.Errorf("the report lacks %q", want)
		}
	}
}

func TestTheFirstBarLineSaysWhatIsLate(t *testing.T) {
	p := playTake(t, takeSpec, 0.5, nil)
	// The click stood 40 ms before the player.
	_, page := send(t, served(t), takeSpec+fmt.Sprintf("&first-bar=%g", p.leadS-0.04), "audio/wav", bytes.NewReader(p.wav(t)))
	for _, want := range []string{"behind the click", "ms late"} {
		if !strings.Contains(page, want) {
			t.Errorf("the report lacks %q", want)
		}
	}
}

func TestWhatCannotBeMarkedIsSaidInOneLine(t *testing.T) {
	home := served(t)
	take := playTake(t, takeSpec, 0.5, nil)
	whole := take.wav(t)
	silent, noisy := take, take
	silent.samples = make([]float32, 3*take.rate)
	noisy.samples = make([]float32, 3*take.rate)
	chance := rand.New(rand.NewPCG(1, 2))
	for i := range noisy.samples {
		noisy.samples[i] = float32(chance.NormFloat64()) * 0.05
	}
	for _, c := range []struct {
		name string
		file []byte
		want string
	}{
		{"silence", silent.wav(t), "silence"},
		{"noise", noisy.wav(t), "noise"},
		{"an Ogg file", []byte("OggS\x00\x02 and so on and on"), "an Ogg file"},
		{"nothing", nil, "an empty file"},
		{"a file that breaks off", whole[:len(whole)/2], "breaks off"},
		{"no sound at all", []byte("Dear diary, today I played well."), "an unknown kind of file"},
	} {
		kind, body := form(t, "take.wav", c.file)
		status, page := send(t, home, takeSpec, kind, body)
		_, fault, _ := strings.Cut(page, `<p class="fault" role="alert">`)
		fault, _, _ = strings.Cut(fault, "</p>")
		if status != http.StatusBadRequest || !strings.Contains(fault, c.want) || strings.Contains(fault, "\n") {
			t.Errorf("%s: answered %d with %q, want 400 with %q", c.name, status, fault, c.want)
		}
	}
}

func TestATakeWithoutAFileIsRefused(t *testing.T) {
	home := served(t)
	for name, kind := range map[string]string{"a plain form": "application/x-www-form-urlencoded", "no kind": "", "text": "text/plain"} {
		if status, page := send(t, home, takeSpec, kind, strings.NewReader("recording=take.wav")); status != http.StatusBadRequest || !strings.Contains(page, "WAV, FLAC or MP3") {
			t.Errorf("%s: answered %d", name, status)
		}
	}
	kind, body := form(t, "", nil)
	if status, page := send(t, home, takeSpec, kind, body); status != http.StatusBadRequest || !strings.Contains(page, "no file") {
		t.Errorf("an empty form: answered %d", status)
	}
}

func TestATakeFromAnotherSiteIsRefused(t *testing.T) {
	p := playTake(t, takeSpec, 0.2, nil)
	home := served(t)
	for _, h := range [][2]string{{"Origin", "http://elsewhere.example"}, {"Sec-Fetch-Site", "cross-site"}} {
		if status, _ := send(t, home, takeSpec, "audio/wav", bytes.NewReader(p.wav(t)), h); status != http.StatusForbidden {
			t.Errorf("%s %s: answered %d, want 403", h[0], h[1], status)
		}
	}
}

func TestATakeOfWhatIsNoExerciseSaysWhatToMend(t *testing.T) {
	home := served(t)
	for _, query := range []string{"home=H+what", takeSpec + "&first-bar=soon", takeSpec + "&rate=4"} {
		status, page := send(t, home, query, "audio/wav", strings.NewReader("RIFF"))
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
	if answer.StatusCode != http.StatusBadRequest || !strings.Contains(string(text), "Mend the sentence on the bench") {
		t.Errorf("a page of no exercise: %d %.300s", answer.StatusCode, text)
	}
}
