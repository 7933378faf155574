package browser_test

import (
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/chromedp/chromedp"

	"heddle/bench/benchtest"
	"heddle/exercise"
)

// A takeLook is a state of the take page to be looked at.
type takeLook struct {
	name   string
	width  int64
	scheme string
	then   func(*tab)
}

// choose marks a take that is chosen as a file.
func (p *tab) choose(take benchtest.Take) {
	p.t.Helper()
	file := filepath.Join(p.t.TempDir(), "rehearsal.wav")
	if err := os.WriteFile(file, take.WAV(), 0o600); err != nil {
		p.t.Fatal(err)
	}
	p.do(chromedp.SetUploadFiles(chromedp.CSS("#recording"), []string{file}))
	p.until("document.getElementById('say').textContent.startsWith('Marked') || document.querySelector('#report .fault') !== null")
	p.until("!document.getElementById('take-record').disabled")
}

// longSpec is a line of several systems.
const longSpec = "home=A+blues&superimpose=tritone&groups=4%2C3&value=sixteenth&tempo=70&fret=5&land=root"

// stumbling leaves out two notes of five and plays one of seven wrong.
func stumbling(t testing.TB, spec string) benchtest.Take {
	t.Helper()
	p := benchtest.Play(t, spec, 0.5, func(notes []exercise.Note) {
		for i := 3; i < len(notes); i += 7 {
			notes[i].Fret += 2
		}
	})
	for i := range p.OnsetsS {
		if i%5 == 1 || i%5 == 2 {
			p.Silence(i)
		}
	}
	return p
}

// lookStates are the states that matter.
func lookStates(home string) []takeLook {
	at := func(spec string, take func(testing.TB) benchtest.Take) func(*tab) {
		return func(p *tab) {
			p.openTake(home + "/take?" + spec)
			p.choose(take(p.t))
		}
	}
	silent := func(t testing.TB) benchtest.Take {
		p := benchtest.Play(t, benchtest.LiveSpec, 0, nil)
		p.Samples = make([]float32, 5*p.Rate)
		return p
	}
	other := func(t testing.TB) benchtest.Take {
		return benchtest.Play(t, "home=C+major&value=quarter&tempo=100&bars=6", 0.5, nil)
	}
	busy := func(t testing.TB) benchtest.Take {
		return benchtest.Play(t, "home=G+minor+pentatonic&superimpose=semitone+up&groups=3%2C3&fret=10&tempo=120&bars=2&value=sixteenth", 0.5, nil)
	}
	over := func(t testing.TB) benchtest.Take { // the line over and over, for ten minutes
		p := benchtest.Play(t, benchtest.LiveSpec, 0.5, nil)
		p.Samples = slices.Repeat(p.Samples, int(590*float64(p.Rate))/len(p.Samples))
		return p
	}
	long := func(t testing.TB) benchtest.Take { return benchtest.Play(t, longSpec, 1, nil) }
	const minutes = "home=G+minor+pentatonic&changes=Gm7+|+C7+|+Gm7+|+D7&superimpose=semitone+up&groups=3%2C3&tempo=60&bars=64"
	stumble := func(spec string) func(testing.TB) benchtest.Take {
		return func(t testing.TB) benchtest.Take { return stumbling(t, spec) }
	}
	marked := func(p *tab) { p.takeAndMark(benchtest.Faulty(p.t)) }
	kept := func(path string, more ...chromedp.Action[chromedp.Void]) func(*tab) {
		return func(p *tab) {
			p.do(chromedp.Navigate(home+path), chromedp.WaitReady(chromedp.CSS("main")))
			p.do(more...)
		}
	}
	const name = "/takes/20260716-182211"
	return []takeLook{
		{"take-wide", 1440, "light", nil},
		{"take-narrow", 360, "light", nil},
		{"take-playing", 1440, "light", playingTake},
		{"take-playing-narrow-dark", 360, "dark", playingTake},
		{"take-marked", 1440, "light", marked},
		{"take-marked-dark", 1000, "dark", marked},
		{"take-marked-narrow", 360, "light", marked},
		{"take-long", 1280, "light", at(longSpec, long)},
		{"take-long-narrow", 360, "light", at(longSpec, long)},
		{"take-stumbling", 1280, "light", at(longSpec, stumble(longSpec))},
		{"take-stumbling-narrow-dark", 360, "dark", at(benchtest.LiveSpec, stumble(benchtest.LiveSpec))},
		{"take-silent", 1280, "light", at(benchtest.LiveSpec, silent)},
		{"take-other", 1280, "light", at(benchtest.LiveSpec, other)},
		{"take-busy", 1280, "light", at(benchtest.LiveSpec, busy)},
		{"take-over-and-over", 1280, "light", at(benchtest.LiveSpec, over)},
		{"take-minutes", 1280, "light", at(minutes, func(t testing.TB) benchtest.Take { return benchtest.Play(t, minutes, 1, nil) })},
		{"take-kept", 1280, "light", kept(name)},
		{"take-kept-narrow-dark", 360, "dark", kept(name)},
		{"take-kept-list", 1280, "light", kept("/takes")},
		{"take-kept-list-narrow-dark", 360, "dark", kept("/takes")},
		{"take-kept-delete", 800, "light", kept(name + "/delete")},
	}
}

// TestLookAtTakes takes pictures of the take page, to the folder that LOOK
// names, to be looked at.
func TestLookAtTakes(t *testing.T) {
	dir := os.Getenv("LOOK")
	if dir == "" {
		t.Skip("LOOK names no folder to take pictures into")
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	b, _ := microphone(t)
	home := benchtest.Keep(t, t.TempDir())
	for i, take := range []benchtest.Take{benchtest.Faulty(t), benchtest.Play(t, benchtest.LiveSpec, 0.5, nil), stumbling(t, benchtest.LiveSpec)} {
		kind, body := benchtest.Form(t, "take.wav", take.WAV(), [2]string{"label", []string{"", "Ann, second try", "Thursday’s workshop, before the break, all of us together"}[i]})
		if status, _, says := benchtest.Call(t, "POST", home+"/takes?"+benchtest.LiveSpec+fmt.Sprintf("&first-bar=%g", take.LeadS), kind, body, benchtest.KeptPart); status != http.StatusCreated {
			t.Fatal(says)
		}
	}
	for _, s := range lookStates(home) {
		if only := os.Getenv("LOOK_ONLY"); only != "" && only != s.name {
			continue
		}
		t.Run(s.name, func(t *testing.T) {
			p := b.tab(t, s.width, 900)
			p.ignoreComplaints = true // a take that can't be marked is answered 400
			p.colors(s.scheme)
			p.openTake(home + "/take?" + benchtest.LiveSpec)
			if s.then != nil {
				s.then(p)
			}
			picture, err := chromedp.Run(p.ctx, chromedp.FullScreenshot(100))
			if err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(filepath.Join(dir, s.name+".png"), picture, 0o600); err != nil {
				t.Fatal(err)
			}
			printed, err := chromedp.Run(p.ctx, chromedp.PrintToPDF())
			if err == nil {
				err = os.WriteFile(filepath.Join(dir, s.name+".pdf"), printed, 0o600)
			}
			if err != nil {
				t.Fatal(err)
			}
		})
	}
}

func playingTake(p *tab) {
	p.inTime(benchtest.Faulty(p.t), 0.02)
	p.set("take-count", "1")
	p.do(chromedp.Click(chromedp.CSS("#take-record")))
	p.until("document.querySelectorAll('#sheet .verdict').length > 8")
}
