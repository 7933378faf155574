package browser_test

import (
	"os"
	"testing"

	"github.com/chromedp/chromedp"

	"heddle/bench/benchtest"
	"heddle/internal/need"
)

// TestPracticeInARealBrowser goes from an empty shelf to a plan that is played
// through, and holds every page on the way to the rules of axe-core, light and
// dark, and to the width of a phone.
func TestPracticeInARealBrowser(t *testing.T) {
	need.Long(t, "a browser works through the pages of practice")
	axe, err := os.ReadFile(need.File(t, "accessibility is not checked (npm ci in bench/scripts)", axePath))
	if err != nil {
		t.Fatal(err)
	}
	b := openBrowser(t)
	home := benchtest.Keep(t, t.TempDir())
	p := b.tab(t, 1280, 900)
	look := func(what string) {
		t.Helper()
		p.do(chromedp.Evaluate[chromedp.Void]("document.querySelectorAll('details').forEach(d => d.open = true)"))
		p.do(chromedp.Evaluate[chromedp.Void](string(axe) + ";void 0"))
		p.accessible(what)
		p.do(chromedp.EmulateViewport(360, 800))
		if over := value[float64](p, "document.scrollingElement.scrollWidth - innerWidth"); over > 0 {
			wide := value[string](p, `[...document.querySelectorAll("body *")].filter(e => e.getBoundingClientRect().right > innerWidth + 1 && !e.closest(".wide")).slice(0, 5).map(e => e.tagName + "#" + e.id + "." + e.className).join(", ")`)
			t.Errorf("%s is %v pixels too wide for a phone: %s", what, over, wide)
		}
		p.do(chromedp.EmulateViewport(1280, 900))
	}
	open := func(path, what string) {
		t.Helper()
		p.do(chromedp.Navigate(home+path), chromedp.WaitReady(chromedp.CSS(".has-scripts")))
		look(what)
	}
	press := func(what, then string) {
		p.do(chromedp.Click(chromedp.CSS(what)), chromedp.WaitReady(chromedp.CSS(".has-scripts "+then)))
	}
	open("/shelf", "an empty shelf")
	open("/today", "today from an empty shelf")
	// Three presses: Today was the first.
	press("button.main", ".plan li:nth-child(5)")
	look("a plan")
	press("form[method=post] button.main", ".present input[name=block][value='1']")
	look("the first block")
	press(".went button[value=clean]", ".present input[name=block][value='2']")
	open("/shelf", "the shelf")
	p.set("find", "blues")
	p.until("document.querySelectorAll('.rows li').length === 1")
	for _, page := range [][2]string{
		{"/shelf/1", "an item"}, {"/practise/1", "practising"}, {"/shelf/keep?home=A+blues", "keeping a line"}, {"/progress", "progress"}, {"/ask", "a question"},
	} {
		open(page[0], page[1])
	}
	p.set("typed", "?")
	press(".typed button", ".reply")
	look("an answer that can't be read")
}
