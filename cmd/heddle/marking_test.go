package main

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"heddle/audio/audiotest"
	"heddle/bench"
	"heddle/exercise"
	"heddle/hear"
	"heddle/sound"
)

// compared is the line of the compared takes: two bars of eighths.
var compared = []string{"home=G minor pentatonic", "superimpose=semitone up", "groups=3,3", "fret=10", "tempo=144", "bars=2"}

// A comparedTake is played by the program's own strings and marked twice: by
// the command and on the page.
type comparedTake struct {
	name   string
	change func(notes []exercise.Note) // what is played instead of the line
	missed []int                       // notes that are left out
	tempo  float64                     // of the player, 0 for the exercise's
	leadS  float64                     // when the first bar line falls in the recording
	clickS float64                     // when it is said to, −1 for not at all
	click  bool                        // the click and its count-in bleed into the recording
	right  int                         // notes that must be right, −1 for any number
}

// comparedTakes are what players send. The line has 15 notes.
func comparedTakes() []comparedTake {
	wrong := func(at ...int) func([]exercise.Note) {
		return func(notes []exercise.Note) {
			for _, i := range at {
				notes[i].Fret++
			}
		}
	}
	otherLine := func(notes []exercise.Note) {
		for i := range notes {
			notes[i].Fret = 1 + 5*i%4
		}
	}
	takes := []comparedTake{
		{name: "right, without a click", leadS: 0.6, clickS: -1, right: 15},
		{name: "one wrong", change: wrong(5), leadS: 0.6, clickS: 0.6, right: 14},
		{name: "five wrong", change: wrong(1, 4, 8, 9, 13), leadS: 0.6, clickS: 0.6, right: 10},
		{name: "five wrong, without a click", change: wrong(1, 4, 8, 9, 13), leadS: 0.6, clickS: -1, right: 10},
		{name: "half of it wrong and late", change: wrong(0, 2, 4, 6, 8, 10, 12, 14), leadS: 0.9, clickS: 0.6, right: -1},
		{name: "two missed", missed: []int{4, 11}, leadS: 0.6, clickS: 0.6, right: 13},
		{name: "another line to the click", change: otherLine, leadS: 0.6, clickS: 0.6, right: -1},
		{name: "another line without one", change: otherLine, leadS: 0.6, clickS: -1, right: -1},
		{name: "slower than the click", tempo: 100, leadS: 0.6, clickS: 0.6, right: -1},
		{name: "slower, without a click", tempo: 100, leadS: 0.6, clickS: -1, right: 15},
		{name: "a count-in that bleeds", click: true, clickS: 3.333, right: 15},
		{name: "a count-in that bleeds, without a click", click: true, clickS: -1, right: 15},
		{name: "a count-in that nobody allowed for", click: true, clickS: 1, right: 15},
		{name: "a bar line before the recording", clickS: -0.2, right: 15},
	}
	for _, delayMS := range []float64{0, 40, 120, 200, 300, 400} {
		takes = append(takes, comparedTake{name: fmt.Sprintf("%.0f ms behind", delayMS), leadS: 0.6 + delayMS/1000, clickS: 0.6, right: 15})
	}
	return takes
}

// The command and the page mark a take alike: the report in a kept take is
// what the command prints, and the page shows its verdicts.
func TestCommandAndPageMarkAlike(t *testing.T) {
	clock := time.Date(2026, 7, 16, 18, 0, 0, 0, time.UTC)
	b, err := bench.New(bench.Options{Data: t.TempDir(), Now: func() time.Time { clock = clock.Add(time.Minute); return clock }})
	if err != nil {
		t.Fatal(err)
	}
	page := b.Handler([]string{"example.com"})
	takes := comparedTakes()
	if len(takes) != 20 {
		t.Fatalf("%d takes are compared, want 20", len(takes))
	}
	for _, take := range takes {
		t.Run(take.name, func(t *testing.T) {
			recording := take.recording(t)
			args, query := []string{"mark", "-", "--json"}, url.Values{}
			for _, field := range compared {
				args = append(args, "--"+field)
				name, value, _ := strings.Cut(field, "=")
				query.Add(name, value)
			}
			if take.clickS != -1 {
				args = append(args, fmt.Sprintf("--click-at=%g", take.clickS))
				query.Set("first-bar", fmt.Sprint(take.clickS))
			}
			var printed, remarks bytes.Buffer
			if code := run(t.Context(), args, streams{bytes.NewReader(recording), &printed, &remarks}); code != 0 {
				t.Fatalf("the command exits with %d: %s", code, &remarks)
			}
			var report hear.Report
			if err := json.Unmarshal(printed.Bytes(), &report); err != nil {
				t.Fatal(err)
			}
			if take.right >= 0 && report.Summary.Right != take.right {
				t.Errorf("%d notes are right, want %d: %q", report.Summary.Right, take.right, report.Advice)
			}

			shown := asked(t, page, "POST", "/take?"+query.Encode(), recording)
			var verdicts []string
			for _, row := range regexp.MustCompile(`(?s)<td><span class="sign-box (\w+)"`).FindAllStringSubmatch(shown.Body.String(), -1) {
				verdicts = append(verdicts, row[1])
			}
			var want []string
			for _, m := range report.Marks {
				want = append(want, string(m.Verdict))
			}
			if !slices.Equal(verdicts, want) {
				t.Errorf("the page shows %q, the command says %q", verdicts, want)
			}

			kept := asked(t, page, "POST", "/takes?"+query.Encode(), recording)
			file := asked(t, page, "GET", kept.Header().Get("Location")+"/take.json", nil)
			var document struct {
				Report json.RawMessage `json:"report"`
			}
			if err := json.Unmarshal(file.Body.Bytes(), &document); err != nil {
				t.Fatal(err)
			}
			var ofPage, ofCommand bytes.Buffer
			if err := json.Compact(&ofPage, document.Report); err != nil {
				t.Fatal(err)
			}
			if err := json.Compact(&ofCommand, printed.Bytes()); err != nil {
				t.Fatal(err)
			}
			if ofPage.String() != ofCommand.String() {
				t.Errorf("the kept report differs from the command's:\n%s\n%s", &ofPage, &ofCommand)
			}
		})
	}
}

// asked sends a request to the page and returns the answer.
func asked(t *testing.T, page http.Handler, method, address string, body []byte) *httptest.ResponseRecorder {
	t.Helper()
	r := httptest.NewRequest(method, address, bytes.NewReader(body))
	r.Header.Set("Content-Type", "audio/wav")
	w := httptest.NewRecorder()
	page.ServeHTTP(w, r)
	if w.Code >= 400 {
		t.Fatalf("%s %s answers %d: %s", method, address, w.Code, w.Body)
	}
	return w
}

// recording renders the take as a WAV of one channel and 16 bits.
func (c comparedTake) recording(t *testing.T) []byte {
	t.Helper()
	spec, err := exercise.ParseQuery(strings.NewReplacer(" ", "+").Replace(strings.Join(compared, "&")))
	if err != nil {
		t.Fatal(err)
	}
	ex, err := exercise.Build(spec)
	if err != nil {
		t.Fatal(err)
	}
	opts := sound.Options{SampleRate: 22050, Tempo: c.tempo}
	parts := []sound.Part{sound.Line}
	if c.click {
		opts.CountIn, parts = 2, append(parts, sound.Click)
	}
	if c.change != nil {
		c.change(ex.Notes)
	}
	x := make([]float32, int(c.leadS*22050))
	lead := len(x)
	for _, part := range parts {
		var played audiotest.Buffer
		timeline, err := sound.RenderPart(t.Context(), ex, opts, part, &played)
		if err != nil {
			t.Fatal(err)
		}
		for _, i := range c.missed {
			const early, fade = 22050 / 100, 22050 / 25 // before a note is struck; in which a finger damps the one before
			from := timeline.Notes[i].Start - early
			for k := range 2 * fade {
				played.Samples[2*(from-fade)+int64(k)] *= 1 - float32(k/2)/fade
			}
			clear(played.Samples[2*from : 2*(timeline.Notes[i+1].Start-early)])
		}
		if need := lead + len(played.Samples)/2; len(x) < need {
			x = append(x, make([]float32, need-len(x))...)
		}
		for i := range len(played.Samples) / 2 {
			x[lead+i] += (played.Samples[2*i] + played.Samples[2*i+1]) / 2
		}
	}
	le := binary.LittleEndian
	file := le.AppendUint32([]byte("RIFF"), uint32(36+2*len(x)))
	file = append(file, "WAVEfmt \x10\x00\x00\x00\x01\x00\x01\x00\x22\x56\x00\x00\x44\xac\x00\x00\x02\x00\x10\x00data"...)
	file = le.AppendUint32(file, uint32(2*len(x)))
	for _, s := range x {
		file = le.AppendUint16(file, uint16(int16(32767*max(-1, min(1, s)))))
	}
	return file
}
