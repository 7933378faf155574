package browser_test

import (
	"encoding/json"
	"heddle/internal/need"
	"os"
	"testing"

	"github.com/chromedp/chromedp"
)

// axePath is where `npm ci` in the scripts' folder puts the accessibility
// checker. It is used by this test alone.
const axePath = "../scripts/node_modules/axe-core/axe.min.js"

// accessible holds every page, light and dark, wide and narrow, to the rules of
// axe-core (WCAG 2.2 at levels A and AA, and its own best practices).
func accessible(t *testing.T, b browser, home string) {
	axe, err := os.ReadFile(need.File(t, "accessibility is not checked (npm ci in bench/scripts)", axePath))
	if err != nil {
		t.Fatal(err)
	}
	for _, page := range somePages {
		p := b.tab(t, 1280, 900)
		p.ignoreComplaints = page.broken
		if page.broken {
			p.do(chromedp.Navigate(home + page.path))
		} else {
			p.open(home + page.path)
			// What is folded away must be right too.
			p.do(chromedp.Evaluate[chromedp.Void]("document.querySelectorAll('details').forEach(d => d.open = true)"))
		}
		p.do(chromedp.Evaluate[chromedp.Void](string(axe) + ";void 0"))
		p.accessible(page.path)
		if page.path == "/" {
			p.do(chromedp.Click(chromedp.CSS("#word-home")))
			p.until("document.querySelectorAll('.offer').length > 2")
			p.accessible("an open chooser")
		}
	}
}

// accessible checks what the page shows now.
func (p *tab) accessible(what string) {
	p.t.Helper()
	for _, scheme := range []string{"light", "dark"} {
		p.must(p.page.Colors(scheme))
		found := value[string](p, `axe.run().then(r => JSON.stringify(r.violations.map(v => ({id: v.id, help: v.help, nodes: v.nodes.slice(0, 3).map(n => n.html.slice(0, 200) + " " + (n.any[0]?.message ?? ""))}))))`)
		var violations []struct {
			ID, Help string
			Nodes    []string
		}
		if err := json.Unmarshal([]byte(found), &violations); err != nil {
			p.t.Fatal(err)
		}
		for _, v := range violations {
			p.t.Errorf("%s, %s: %s: %s\n%q", what, scheme, v.ID, v.Help, v.Nodes)
		}
	}
}
