package browser_test

import (
	"encoding/json"
	"os"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"heddle/bench/benchtest"
	"heddle/internal/need"
)

// servesEveryone records by keyboard, and holds the page with its report to
// phones and paper.
func servesEveryone(t *testing.T, b browser, home string) {
	p := b.tab(t, 1280, 900)
	p.openTake(home + "/take?" + benchtest.LiveSpec)
	p.inTime(benchtest.Faulty(t), 0.02)
	p.set("take-count", "1")
	p.do(chromedp.Click(chromedp.CSS("#take-stop"))) // the key stops it
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

// accessibleStates holds the page in each of its states to the rules for
// readers.
func accessibleStates(t *testing.T, b browser, home string) {
	p := b.tab(t, 1280, 900)
	p.openTake(home + "/take?" + benchtest.LiveSpec)
	accessibleTake(t, p, "empty")
	p.inTime(benchtest.Faulty(t), 0.02)
	p.set("take-count", "1")
	p.do(chromedp.Click(chromedp.CSS("#take-stop")), chromedp.Click(chromedp.CSS("#take-record")))
	p.until("document.querySelectorAll('#sheet .verdict').length > 3")
	accessibleTake(t, p, "recording")
	p.do(chromedp.Click(chromedp.CSS("#take-record")))
	p.marked()
	p.do(chromedp.Click(chromedp.CSS("#take-keep")))
	p.until("document.getElementById('take-keep').textContent === 'Kept'")
	accessibleTake(t, p, "kept")
	for _, path := range []string{"", "/delete"} {
		p.do(chromedp.Navigate(home+"/takes/20260716-182211"+path), chromedp.WaitReady(chromedp.CSS("main")))
		accessibleTake(t, p, "a kept take"+path)
	}
	p.do(chromedp.Navigate(home+"/takes"), chromedp.WaitReady(chromedp.CSS("#kept li")))
	accessibleTake(t, p, "the list")
}

// accessibleTake holds the page in a state to the rules of axe-core.
func accessibleTake(t *testing.T, p *tab, state string) {
	t.Helper()
	axe, err := os.ReadFile(need.File(t, "accessibility is not checked (npm ci in bench/scripts)", axePath))
	if err != nil {
		t.Fatal(err)
	}
	p.do(chromedp.Evaluate[chromedp.Void]("document.querySelectorAll('details').forEach(d => d.open = true)"))
	p.do(chromedp.Evaluate[chromedp.Void](string(axe) + ";void 0"))
	for _, scheme := range []string{"light", "dark"} {
		p.must(p.page.Colors(scheme))
		found := value[string](p, `axe.run().then(r => JSON.stringify(r.violations.map(v => ({help: v.help, nodes: v.nodes.slice(0, 3).map(n => n.html.slice(0, 200) + " " + (n.any[0]?.message ?? ""))}))))`)
		var violations []struct {
			Help  string
			Nodes []string
		}
		if err := json.Unmarshal([]byte(found), &violations); err != nil {
			t.Fatal(err)
		}
		for _, v := range violations {
			t.Errorf("%s, %s: %s\n%q", state, scheme, v.Help, v.Nodes)
		}
	}
}
