package bench_test

import (
	"testing"

	"github.com/chromedp/chromedp"
)

func TestInARealBrowser(t *testing.T) {
	b := openBrowser(t)
	home := served(t)
	t.Run("a newcomer's journey", func(t *testing.T) { journey(t, b, home) })
}

// journey is what a newcomer does first: change words, play, follow, slow
// down, loop two groups.
func journey(t *testing.T, b browser, home string) {
	p := b.tab(t, 1440, 900)
	p.open(home + "/")
	notes := value[string](p, "document.getElementById('sheet').dataset.notes")

	p.set("word-follow", "last")
	p.address("follow=last")
	if now := value[string](p, "document.getElementById('sheet').dataset.notes"); now == notes {
		t.Errorf("still %s notes after the groups follow the last note", now)
	}
	if focus := value[string](p, "document.activeElement.id"); focus != "word-follow" {
		t.Errorf("the focus went to %q", focus)
	}
	p.set("word-superimpose", "tritone")
	p.address("superimpose=tritone")
	p.set("word-fret", "3")
	p.address("fret=3")
	p.until("document.querySelector('#neck desc, #neck title') !== null")

	p.do(chromedp.Click(chromedp.CSS("#play")))
	p.until("document.querySelector('#sheet .lit') !== null")
	for _, view := range []string{"#sheet", "#neck", "#strip"} {
		p.until("document.querySelector('" + view + " .lit') !== null")
	}

	p.set("tempo-slide", "60")
	p.address("tempo=60")
	p.until("document.querySelector('#sheet .lit') !== null")

	p.set("loop-from", "1")
	p.set("loop-to", "6")
	p.until("document.querySelectorAll('#sheet .band').length > 0")
	p.until("Number(document.querySelector('#sheet .lit')?.dataset.note ?? 99) > 3")
	p.until("Number(document.querySelector('#sheet .lit')?.dataset.note ?? 99) < 2")
	p.do(chromedp.Click(chromedp.CSS("#play")))
	p.until("document.querySelector('.lit') === null")

	if handout := value[string](p, "document.querySelector('#downloads a').getAttribute('href')"); handout[:10] != "/line.pdf?" {
		t.Errorf("the first download is %s, want the handout", handout)
	}
	if status := value[float64](p, "fetch(document.querySelector('#downloads a').href).then(r => r.status)"); status != 200 {
		t.Errorf("the handout answers %v", status)
	}
}
