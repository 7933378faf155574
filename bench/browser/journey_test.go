package browser_test

import (
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

func TestInARealBrowser(t *testing.T) {
	inBrowser(t, []check{
		{"a newcomer changes words, plays, slows down and loops", journey},
		{"a chooser opens at each word, narrows and chooses", choosers},
		{"undo, redo and links work by their buttons", undoAndLinks},
		{"back and forward restore the words", backAndForward},
		{"a wrong word stays and is explained, and the picture stays", wrongWord},
		{"numbers out of range are explained and hold nothing up", numbersOutOfRange},
		{"rare words that are said are controls of the sentence", rareWordsSaid},
		{"a word entered with Enter is one change", enteredOnce},
		{"the focus stays with a word that is put right", focusAfterMending},
		{"a server that is gone is told of", serverGone},
		{"an answer that comes too late is let go", lateAnswer},
		{"form, picture and address agree after slow answers", slowAnswers},
		{"a line that gets longer has all its systems", longerLine},
		{"a rare word is said in the sentence's words", saidWord},
		{"the keyboard does everything", keyboardOnly},
		{"the links of the cards change the exercise in place", cardLinks},
		{"the page is read and the form sent without scripts", withoutScripts},
		{"no page scrolls sideways", noSidewaysScroll},
		{"nothing stands against accessibility in light and dark", accessible},
		{"notes light in order and not before their sound", lightsInTime},
		{"a loop closes on the sample", loopsClose},
		{"how soon a changed word is on screen", changesQuickly},
	})
}

// shownNotes is how many notes the sheet shows.
func (p *tab) shownNotes() string {
	p.t.Helper()
	return value[string](p, "document.getElementById('sheet').dataset.notes")
}

func (p *tab) focus() string {
	p.t.Helper()
	return value[string](p, "document.activeElement.id")
}

func (p *tab) press(keys ...string) {
	p.t.Helper()
	for _, k := range keys {
		p.do(chromedp.KeyEvent(k))
	}
}

// journey is what a newcomer does first.
func journey(t *testing.T, b browser, home string) {
	p := b.tab(t, 1440, 900)
	p.open(home + "/")
	notes := p.shownNotes()

	p.set("word-follow", "last")
	p.address("follow=last")
	if now := p.shownNotes(); now == notes {
		t.Errorf("still %s notes after the groups follow the last note", now)
	}
	if p.focus() != "word-follow" {
		t.Errorf("the focus went to %q", p.focus())
	}
	p.set("word-superimpose", "tritone")
	p.address("superimpose=tritone")
	p.set("word-fret", "3")
	p.address("fret=3")

	p.do(chromedp.Click(chromedp.CSS("#play")))
	for _, view := range []string{"#sheet", "#neck", "#strip"} {
		p.until("document.querySelector('" + view + " .lit') !== null")
	}
	p.until("document.querySelector('#now') !== null")

	p.set("tempo-slide", "60")
	p.address("tempo=60")
	p.until("document.querySelector('#sheet .lit') !== null")
	if heard := value[string](p, "document.getElementById('tempo-now').textContent"); heard != "60" {
		t.Errorf("slowed to 60, the page says %s", heard)
	}

	// Two groups of three: the line must come to its sixth note and then back
	// to its first.
	p.set("loop-from", "1")
	p.set("loop-to", "6")
	p.until("document.querySelectorAll('#sheet .band').length === 1")
	p.until("Number(document.querySelector('#sheet .lit')?.dataset.note) === 5")
	p.until("Number(document.querySelector('#sheet .lit')?.dataset.note) === 0")
	p.do(chromedp.Click(chromedp.CSS("#play")))
	p.until("document.querySelector('.lit') === null")

	if handout := value[string](p, "document.querySelector('#downloads a').getAttribute('href')"); !strings.HasPrefix(handout, "/line.pdf?") || !strings.Contains(handout, "tempo=60") {
		t.Errorf("the first download is %s, want the handout of this exercise", handout)
	}
	if head := value[string](p, "fetch(document.querySelector('#downloads a').href).then(r => r.text()).then(s => s.slice(0, 5))"); head != "%PDF-" {
		t.Errorf("the handout begins %q", head)
	}

	// A sound is downloaded as the page is set to play it.
	p.set("vamp", "swing")
	p.set("count-in", "2")
	sound := value[string](p, `(() => {
		for (const id of ["on-bass", "voice", "silent"]) document.getElementById(id).click();
		document.getElementById("level-drums").value = "-6";
		const link = [...document.querySelectorAll("#downloads a")].find(link => link.href.includes("/line.opus?"));
		link.dispatchEvent(new MouseEvent("contextmenu", { bubbles: true }));
		return link.href;
	})()`)
	for _, choice := range []string{"&vamp=swing", "&count-in=2", "&mute=bass", "&voice=true", "&silent=true&loops=2", "&level=drums%3D-6"} {
		if !strings.Contains(sound, choice) {
			t.Errorf("the sound's address is %s, want %s in it", sound, choice)
		}
	}
	if head := value[string](p, "fetch('"+sound+"').then(r => r.text()).then(s => s.slice(0, 4))"); head != "OggS" {
		t.Errorf("the sound begins %q", head)
	}
}

func backAndForward(t *testing.T, b browser, home string) {
	p := b.tab(t, 1440, 900)
	p.open(home + "/")
	p.set("word-direction", "up")
	p.address("direction=up")
	p.set("word-chord", "G7")
	p.address("chord=G7")
	p.do(chromedp.Evaluate[chromedp.Void]("history.back()"))
	p.until("location.search.includes('chord=Gm7') && document.getElementById('word-chord').value === 'Gm7'")
	if v := value[string](p, "document.getElementById('word-direction').value"); v != "up" {
		t.Errorf("one step back the direction is %q, want up", v)
	}
	p.do(chromedp.Evaluate[chromedp.Void]("history.back()"))
	p.until("document.getElementById('word-direction').value === 'down'")
	p.do(chromedp.Evaluate[chromedp.Void]("history.go(2)"))
	p.until("document.getElementById('word-chord').value === 'G7' && document.getElementById('word-direction').value === 'up'")

	// A copied link opens the same thing.
	link, sentence := value[string](p, "location.href"), value[string](p, sentenceText)
	other := b.tab(t, 1440, 900)
	other.open(link)
	if again := value[string](other, sentenceText); again != sentence {
		t.Errorf("the link reads\n%s\nwant\n%s", again, sentence)
	}
}

// sentenceText reads the sentence with the values of its controls.
const sentenceText = `[...document.querySelector(".sentence").querySelectorAll("input, select")].map(c => c.name + ": " + c.value).join("; ")`

func wrongWord(t *testing.T, b browser, home string) {
	p := b.tab(t, 1440, 900)
	p.open(home + "/?home=A+minor+pentatonic&fret=5")
	const pictures = "document.getElementById('neck').innerHTML + document.getElementById('sheet').innerHTML"
	picture := value[string](p, pictures)
	address := value[string](p, "location.href")
	p.set("word-home", "A minor pentatonik")
	p.until("document.getElementById('word-home').getAttribute('aria-invalid') === 'true'")
	described := value[string](p, "document.getElementById(document.getElementById('word-home').getAttribute('aria-describedby')).textContent")
	if !strings.Contains(described, "A minor pentatonik") || !strings.Contains(described, "A minor pentatonic") {
		t.Errorf("the fault reads %q, want the value and the nearest spelling", described)
	}
	if v := value[string](p, "document.getElementById('word-home').value"); v != "A minor pentatonik" {
		t.Errorf("what was typed became %q", v)
	}
	if value[string](p, pictures) != picture || value[string](p, "location.href") != address {
		t.Error("the last good picture or its address went away")
	}
	p.do(chromedp.Click(chromedp.CSS(".fault a")))
	p.until("document.querySelector('.fault') === null && document.getElementById('word-home').value === 'A minor pentatonic'")
}

func keyboardOnly(t *testing.T, b browser, home string) {
	p := b.tab(t, 1440, 900)
	p.open(home + "/")
	p.press(kb.Tab)
	if !value[bool](p, "document.activeElement.matches('.skip')") {
		t.Error("the first stop is not the way past the bar")
	}
	reached := map[string]bool{}
	for range 80 {
		p.press(kb.Tab)
		id := p.focus()
		if reached[id] && id == "word-chord" {
			break
		}
		reached[id] = true
		if seen := value[string](p, "getComputedStyle(document.activeElement).outlineStyle"); id != "" && seen == "none" {
			t.Errorf("the focus on %s can't be seen", id)
		}
		if id == "mix" {
			break
		}
	}
	for _, id := range []string{"word-chord", "word-home", "word-superimpose", "word-groups", "word-groups-2", "word-direction", "word-follow", "word-fret", "word-value", "word-tempo", "word-land",
		"view-label", "hide-line", "sheet", "ending-2", "play", "slower", "tempo-slide", "faster", "tap", "loop-from", "loop-to", "vamp", "voice"} {
		if !reached[id] {
			t.Errorf("Tab does not come to %s", id)
		}
	}
	// A loop by keys: to the notes, two on, mark three, play from there, stop.
	p.do(chromedp.Evaluate[chromedp.Void]("document.activeElement.blur()"))
	p.press("l")
	if p.focus() != "sheet" {
		t.Fatalf("L goes to %q, want the notes", p.focus())
	}
	p.press(kb.ArrowRight, kb.ArrowRight)
	for range 2 {
		p.do(chromedp.KeyEvent(kb.ArrowRight, chromedp.KeyModifiers(chromedp.ModifierShift)))
	}
	p.until("document.getElementById('loop-from').value === '3' && document.getElementById('loop-to').value === '5'")
	p.until("document.getElementById('say').textContent.includes('loop 3 to 5')")
	p.press(" ")
	p.until("document.querySelector('#sheet .lit') !== null")
	p.press("-")
	p.address("tempo=82")
	p.press(" ")
	p.until("document.querySelector('#sheet .lit') === null && document.getElementById('play').textContent === 'Play'")
	p.press(kb.Escape)
	p.until("document.getElementById('loop-from').value === ''")

	// Space in a control is that control's.
	p.do(chromedp.Focus(chromedp.CSS("#word-home")))
	p.press(" ")
	if value[string](p, "document.getElementById('play').textContent") != "Play" {
		t.Error("a space typed into the sentence plays")
	}
}

func cardLinks(t *testing.T, b browser, home string) {
	p := b.tab(t, 1440, 900)
	p.open(home + "/")
	p.do(chromedp.Click(chromedp.CSS("#ending-2")))
	p.address("ending=2")
	p.until("document.getElementById('ending-2').getAttribute('aria-current') === 'true'")
	p.do(chromedp.Click(chromedp.CSS("#place-15")))
	p.address("fret=15")
	p.until("document.getElementById('word-fret').value === '15'")
	p.do(chromedp.Click(chromedp.CSS("#hide-tab")))
	p.address("hide=tab")
	p.set("view-label", "degrees")
	p.address("label=degrees", "fret=15", "hide=tab")
	p.do(chromedp.Evaluate[chromedp.Void]("history.back()"))
	p.until("document.getElementById('view-label').value === 'names' && document.getElementById('hide-tab').checked")
}

func withoutScripts(t *testing.T, b browser, home string) {
	p := b.tab(t, 1280, 900)
	if _, err := chromedp.Call(p.ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true}); err != nil {
		t.Fatal(err)
	}
	p.do(chromedp.Navigate(home+"/?home=E+minor+pentatonic&follow=first"), chromedp.WaitVisible(chromedp.CSS("noscript button")),
		chromedp.SetValue(chromedp.CSS("#word-follow"), "last"), chromedp.Click(chromedp.CSS("noscript button")),
		chromedp.WaitReady(chromedp.CSS("#word-follow option[value=last][selected]")), chromedp.WaitVisible(chromedp.CSS("#neck svg")),
		chromedp.Click(chromedp.CSS("#place-7")), chromedp.WaitReady(chromedp.CSS("#place-7[aria-current=true]")))
}

func noSidewaysScroll(t *testing.T, b browser, home string) {
	p := b.tab(t, 360, 800)
	for _, page := range somePages {
		p.ignoreComplaints = page.broken
		if page.broken {
			p.do(chromedp.Navigate(home + page.path))
		} else {
			p.open(home + page.path)
		}
		for _, width := range []int64{360, 640} { // a phone; 1280 pixels at 200 % zoom
			p.do(chromedp.EmulateViewport(width, 800))
			if over := value[float64](p, "document.scrollingElement.scrollWidth - innerWidth"); over > 0 {
				wide := value[string](p, `[...document.querySelectorAll("body *")].filter(e => e.getBoundingClientRect().right > innerWidth + 1).slice(0, 5).map(e => e.tagName + "#" + e.id + "." + e.className).join(", ")`)
				t.Errorf("%s is %v pixels too wide at %d: %s", page.path, over, width, wide)
			}
		}
	}
}

// somePages are the pages in states that differ.
var somePages = []struct {
	path   string
	broken bool // the console reports its status
}{
	{path: "/"},
	{path: "/?home=A+blues&changes=A7+|+D7+|+A7+|+E7&superimpose=tritone&superimpose=semitone+up&groups=4,3,2&feel=swing+2:1&land=root&names=solfege&instrument=bass"},
	{path: "/?home=D+dorian&groups=4&order=1+3+2+4&land=none&hide=tab&hide=names&hide=line&neck=whole&left=true"},
	{path: "/?home=G+minor+pentatonik&groups=99", broken: true},
	{path: "/nothing-here", broken: true},
}
