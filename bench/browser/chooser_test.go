package browser_test

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// choosers goes through a word's chooser by pointer, by typing and by keyboard.
func choosers(t *testing.T, b browser, home string) {
	p := b.tab(t, 1366, 768)
	p.open(home + "/")
	click := func(what string) { p.do(chromedp.Click(chromedp.CSS(what))) }
	word := func(id string) string { return value[string](p, "document.getElementById('"+id+"').value") }
	opened := func() { p.until("document.querySelectorAll('#chooser .offer').length > 2") }
	closed := func() { p.until("document.getElementById('chooser').hidden") }

	// Every root but home's, and no scale at all, from inside to outside.
	click("#word-superimpose")
	opened()
	rows := value[string](p, "[...document.querySelectorAll('.offer')].map(o => o.dataset.value).join()")
	if n := strings.Count(rows, ",") + 1; n != 12 || !strings.HasPrefix(rows, ",fourth down,whole tone up,") {
		t.Errorf("%d rows: %s", n, rows)
	}
	click(".offer[data-value='whole tone up']")
	closed()
	p.address("superimpose=whole+tone+up")

	// Another type of scale.
	click("#word-superimpose")
	opened()
	p.do(chromedp.SetValue(chromedp.CSS("#chooser [data-types]"), "whole tone"), chromedp.Evaluate[chromedp.Void]("document.querySelector('#chooser [data-types]').dispatchEvent(new Event('change', {bubbles: true}))"))
	p.until("document.querySelector('.offer[data-value=\"semitone up whole tone\"]') !== null")
	p.press(kb.Escape)
	closed()
	if word("word-superimpose") != "whole tone up" || p.focus() != "word-superimpose" {
		t.Errorf("after Escape the word says %q and the focus is on %q", word("word-superimpose"), p.focus())
	}

	// Typing narrows, and the arrow keys and Enter choose.
	click("#word-home")
	opened()
	p.press("d", "o", "r")
	p.until("[...document.querySelectorAll('.offer:not([hidden])')].every(o => o.textContent.includes('dor'))")
	p.press(kb.ArrowDown)
	if active := value[string](p, "document.getElementById(document.getElementById('word-home').getAttribute('aria-activedescendant')).dataset.value"); active != "G dorian" {
		t.Errorf("the first row for dor is %q", active)
	}
	p.press(kb.Enter)
	closed()
	p.address("home=G+dorian")

	// Another root.
	click("#word-home")
	opened()
	click("#chooser [data-root='A']")
	p.until("document.querySelector('.offer[data-value=\"A minor blues\"]') !== null")
	click(".offer[data-value='A minor blues'] .title")
	closed()
	p.address("home=A+minor+blues")

	// A root that is typed brings its list.
	click("#word-chord")
	opened()
	p.press("E", "b", "m", "a", "j", "7")
	p.until("[...document.querySelectorAll('.offer:not([hidden])')].map(o => o.dataset.value).join() === 'Ebmaj7,Ebmaj7#11'")
	p.press(kb.ArrowDown, kb.Enter)
	p.address("chord=Ebmaj7")

	// What is not in the list can be typed all the same.
	click("#word-home")
	opened()
	p.press("C", " ", "1", " ", "b", "3", " ", "5")
	p.until("!document.getElementById('no-offer').hidden")
	p.press(kb.Enter)
	p.address("home=C+1+b3+5")

	// A word of few choices, by keyboard alone.
	p.do(chromedp.Focus(chromedp.CSS("#word-direction")))
	p.press(kb.Enter)
	opened()
	if p.focus() != "offers" {
		t.Errorf("the focus is on %q", p.focus())
	}
	p.press(kb.ArrowDown, kb.Enter)
	closed()
	p.address("direction=up")
	if p.focus() != "word-direction" {
		t.Errorf("the focus is on %q", p.focus())
	}

	// The right one of several words of one field.
	p.open(home + "/?home=G+minor+pentatonic&superimpose=tritone&groups=3,2")
	p.do(chromedp.Focus(chromedp.CSS("#word-groups-2")))
	p.press(kb.Enter)
	opened()
	if chosen := value[string](p, "document.querySelector('.offer[aria-selected=true]').dataset.value"); chosen != "2" {
		t.Errorf("the second group is said to have %s notes", chosen)
	}
}
