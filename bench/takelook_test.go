package bench_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"heddle/exercise"
)

// faulty plays the line with what players do: a wrong fret, a note left out,
// a group that is rushed.
func faulty(t testing.TB) played {
	t.Helper()
	const wrong, missed = 5, 11
	p := playTake(t, liveSpec, 0.5, func(notes []exercise.Note) {
		notes[wrong].Fret++
	})
	p.silence(missed)
	return p
}

// silence leaves a note out.
func (p played) silence(note int) {
	end := len(p.samples)
	if note+1 < len(p.onsetsS) {
		end = int(p.onsetsS[note+1]*float64(p.rate)) - p.rate/200
	}
	for i := int(p.onsetsS[note]*float64(p.rate)) - p.rate/100; i < end; i++ {
		p.samples[i] = 0
	}
}

// takeAndMark records a take that is in time and waits for its report.
func (p *tab) takeAndMark(take played) {
	p.t.Helper()
	p.inTime(take, 0.02)
	p.set("take-count", "1")
	p.do(chromedp.Click(chromedp.CSS("#take-record")))
	p.marked()
}

// servesEveryone records by keyboard, and holds the page with its report to
// the rules for readers, phones and paper.
func servesEveryone(t *testing.T, b browser, home string) {
	p := b.tab(t, 1280, 900)
	p.openTake(home + "/take?" + liveSpec)
	p.inTime(faulty(t), 0.02)
	p.set("take-count", "1")
	p.do(chromedp.Evaluate[chromedp.Void]("document.activeElement.blur()"))
	p.do(chromedp.KeyEvent("r"))
	p.until("document.getElementById('say').textContent.startsWith('Recording')")
	p.until("document.querySelectorAll('#sheet .verdict.right').length > 3")
	p.do(chromedp.KeyEvent("r"))
	p.marked()
	p.do(chromedp.KeyEvent(" "))
	p.until("document.getElementById('take-play').textContent === 'Stop'")
	p.do(chromedp.KeyEvent(" "))
	p.until("document.getElementById('take-play').textContent !== 'Stop'")

	accessibleTake(t, p)

	p.do(chromedp.EmulateViewport(360, 740))
	p.until("document.documentElement.scrollWidth <= 360")
	p.until("Number(document.getElementById('sheet').dataset.room) <= 360")

	if _, err := chromedp.Call(p.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"}); err != nil {
		t.Fatal(err)
	}
	if shown := value[string](p, "['.transport', '.take-ways', '.playback'].filter(s => getComputedStyle(document.querySelector(s)).display !== 'none').join()"); shown != "" {
		t.Errorf("paper shows %s", shown)
	}
}

// accessibleTake holds the page with its report to the rules of axe-core.
func accessibleTake(t *testing.T, p *tab) {
	axe, err := os.ReadFile(axePath)
	if err != nil {
		t.Log("axe-core is not installed (npm ci in bench/scripts), so accessibility is not checked")
		return
	}
	p.do(chromedp.Evaluate[chromedp.Void]("document.querySelectorAll('details').forEach(d => d.open = true)"))
	p.do(chromedp.Evaluate[chromedp.Void](string(axe) + ";void 0"))
	for _, scheme := range []string{"light", "dark"} {
		p.colors(scheme)
		found := value[string](p, `axe.run().then(r => JSON.stringify(r.violations.map(v => ({help: v.help, nodes: v.nodes.slice(0, 3).map(n => n.html.slice(0, 200) + " " + (n.any[0]?.message ?? ""))}))))`)
		var violations []struct {
			Help  string
			Nodes []string
		}
		if err := json.Unmarshal([]byte(found), &violations); err != nil {
			t.Fatal(err)
		}
		for _, v := range violations {
			t.Errorf("%s: %s\n%q", scheme, v.Help, v.Nodes)
		}
	}
}

// TestLookAtTakes takes pictures of the take page, to the folder that LOOK
// names, to be looked at.
func TestLookAtTakes(t *testing.T) {
	dir := os.Getenv("LOOK")
	if dir == "" {
		t.Skip("LOOK names no folder to take pictures into")
	}
	b, _ := microphone(t)
	home := served(t)
	marked := func(p *tab) { p.takeAndMark(faulty(t)) }
	const long = "home=A+blues&superimpose=tritone&groups=4%2C3&value=sixteenth&tempo=70&fret=5&land=root"
	chosen := func(p *tab) {
		file := filepath.Join(t.TempDir(), "rehearsal.wav")
		if err := os.WriteFile(file, playTake(t, long, 1, nil).wav(t), 0o600); err != nil {
			t.Fatal(err)
		}
		p.do(chromedp.Navigate(home+"/take?"+long), chromedp.WaitReady(chromedp.CSS("html.has-scripts")))
		p.do(chromedp.SetUploadFiles(chromedp.CSS("#recording"), []string{file}))
		p.marked()
		p.do(chromedp.Click(chromedp.CSS(".report details summary")))
	}
	for _, s := range []struct {
		name   string
		width  int64
		scheme string
		then   func(*tab)
	}{
		{"take-long", 1280, "light", chosen},
		{"take-long-narrow", 360, "light", chosen},
		{"take-wide", 1440, "light", nil},
		{"take-narrow", 360, "light", nil},
		{"take-playing", 1440, "light", playingTake},
		{"take-playing-narrow-dark", 360, "dark", playingTake},
		{"take-marked", 1440, "light", marked},
		{"take-marked-dark", 1000, "dark", marked},
		{"take-marked-narrow", 360, "light", marked},
	} {
		if only := os.Getenv("LOOK_ONLY"); only != "" && only != s.name {
			continue
		}
		t.Run(s.name, func(t *testing.T) {
			p := b.tab(t, s.width, 900)
			p.colors(s.scheme)
			p.openTake(home + "/take?" + liveSpec)
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
		})
	}
}

func playingTake(p *tab) {
	p.inTime(faulty(p.t), 0.02)
	p.set("take-count", "1")
	p.do(chromedp.Click(chromedp.CSS("#take-record")))
	p.until("document.querySelectorAll('#sheet .verdict').length > 8")
}
