package browser_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// typed types into a control as a person does, over what was there.
func (p *tab) typed(id, text string) {
	p.t.Helper()
	p.do(chromedp.Focus(chromedp.CSS("#"+id)), chromedp.Evaluate[chromedp.Void]("document.getElementById('"+id+"').select()"))
	p.press(text)
}

// fault returns what is said to be wrong with a control.
func (p *tab) fault(id string) string {
	p.t.Helper()
	p.until("document.getElementById('" + id + "').getAttribute('aria-invalid') === 'true'")
	return value[string](p, "document.getElementById(document.getElementById('"+id+"').getAttribute('aria-describedby')).textContent")
}

func numbersOutOfRange(t *testing.T, b browser, home string) {
	p := b.tab(t, 1440, 900)
	p.open(home + "/")
	for _, c := range []struct{ id, text, want, mended string }{
		{"word-tempo", "9999", "20 to 400", "90"}, {"word-fret", "99", "36", "7"},
	} {
		p.typed(c.id, c.text)
		p.press(kb.Tab)
		if said := p.fault(c.id); !strings.Contains(said, c.text) || !strings.Contains(said, c.want) {
			t.Errorf("%s %s: the fault reads %q, want it to hold %q", c.id, c.text, said, c.want)
		}
		if v := value[string](p, "document.getElementById('"+c.id+"').value"); v != c.text {
			t.Errorf("%s: what was typed became %q", c.id, v)
		}
		p.typed(c.id, c.mended)
		p.press(kb.Tab)
		p.until("document.querySelector('.fault') === null")
	}
	p.address("tempo=90", "fret=7")

	// A rare field tells of its fault beside itself.
	p.do(chromedp.Click(chromedp.CSS("#more > summary")))
	p.typed("word-tuning", "E2 A2 Q")
	p.press(kb.Enter)
	p.fault("word-tuning")
	if !value[bool](p, "document.getElementById('fault-word-tuning').closest('.field').contains(document.getElementById('word-tuning'))") {
		t.Error("the fault of a rare field does not stand in its field")
	}
	if p.focus() != "word-tuning" {
		t.Errorf("the focus went to %q", p.focus())
	}

	// A second wrong word is told of beside the first.
	p.typed("word-tempo", "9999")
	p.press(kb.Enter)
	p.fault("word-tempo")
	p.fault("word-tuning")
}

func rareWordsSaid(t *testing.T, b browser, home string) {
	p := b.tab(t, 1440, 900)
	p.open(home + "/?home=C+dorian&meter=5/4&feel=swing+2:1&bars=4")
	for _, id := range []string{"word-meter", "word-feel", "word-bars"} {
		if !value[bool](p, "document.querySelectorAll('#"+id+"').length === 1 && document.getElementById('"+id+"').matches('.sentence :is(input, select)')") {
			t.Errorf("%s is no control of the sentence", id)
		}
	}
	if said := value[string](p, "document.getElementById('word-feel').selectedOptions[0].text"); said != "swung 2:1" {
		t.Errorf("the feel is said as %q", said)
	}
	// What is usual again goes back among the rare ones, and the focus to what
	// opens them.
	p.typed("word-meter", "4/4")
	p.press(kb.Enter)
	p.until("document.getElementById('word-meter').matches('#rare input')")
	p.until("document.activeElement.matches('#more > summary')")
	p.press(kb.Enter)
	p.typed("word-meter", "7/8")
	p.press(kb.Enter)
	p.until("document.getElementById('word-meter').matches('.sentence input')")
	p.until("document.activeElement.id === 'word-meter'")
	p.address("meter=7%2F8")
}

func enteredOnce(t *testing.T, b browser, home string) {
	p := b.tab(t, 1440, 900)
	p.open(home + "/")
	entries := value[int](p, "history.length")
	p.typed("word-home", "A minor blues")
	p.press(kb.Enter)
	p.address("home=A+minor+blues")
	p.typed("word-chord", "A7")
	p.press(kb.Enter)
	p.address("chord=A7")
	if got := value[int](p, "history.length"); got != entries+2 {
		t.Errorf("two words entered are %d entries of the history", got-entries)
	}
	p.typed("word-home", "")
	p.press(kb.Backspace, kb.Tab)
	if said := p.fault("word-home"); !strings.Contains(said, "home scale") || value[string](p, "document.getElementById('word-home').value") != "" {
		t.Errorf("an emptied home scale is refilled, or told of as %q", said)
	}
}

func focusAfterMending(t *testing.T, b browser, home string) {
	p := b.tab(t, 1440, 900)
	p.open(home + "/")
	p.set("word-home", "G minor pentatonik")
	p.fault("word-home")
	p.do(chromedp.Click(chromedp.CSS(".fault a")))
	p.until("document.activeElement.id === 'word-home' && document.getElementById('word-home').value === 'G minor pentatonic'")

	// A page that was opened on a wrong word is put right in place.
	broken := b.tab(t, 1440, 900)
	broken.ignoreComplaints = true // the console reports the status
	broken.do(chromedp.Navigate(home+"/?home=G+minor+pentatonik"), chromedp.WaitReady(chromedp.CSS("html.has-scripts #nothing")))
	broken.set("word-direction", "up")
	broken.until("document.getElementById('word-home').getAttribute('aria-invalid') === 'true' && document.getElementById('word-direction').value === 'up'")
	broken.do(chromedp.Click(chromedp.CSS(".fault a")))
	broken.do(chromedp.WaitReady(chromedp.CSS("html.has-scripts #neck")))
	broken.until("document.activeElement.id === 'word-home'")
}

func serverGone(t *testing.T, b browser, home string) {
	p := b.tab(t, 1440, 900)
	p.ignoreComplaints = true // the console reports a request that failed
	p.open(home + "/")
	p.do(chromedp.Evaluate[chromedp.Void](`{
		window.fetching = window.fetch;
		window.fetch = () => Promise.reject(new TypeError("nobody answers"));
	}`))
	p.set("word-direction", "up")
	p.until("document.querySelector('.faults .fault')?.textContent.includes('does not answer')")
	p.do(chromedp.Evaluate[chromedp.Void]("window.fetch = window.fetching"))
	p.set("word-direction", "up-down")
	p.address("direction=up-down")
	p.until("document.querySelector('.fault') === null")
}

// lateAnswer holds up the answer to a link until a word was changed after it.
func lateAnswer(t *testing.T, b browser, home string) {
	p := b.tab(t, 1440, 900)
	p.open(home + "/")
	p.until("location.search === '' && document.getElementById('sheet').dataset.room === String(document.getElementById('sheet-holder').clientWidth)")
	p.do(chromedp.Evaluate[chromedp.Void](`{
		const fetching = window.fetch;
		const turn = new Promise((done) => { window.letGo = done; });
		window.fetch = async (address, { headers }) => { // cannot be aborted
			window.fetch = fetching;
			await turn;
			const answer = await fetching(address, { headers });
			setTimeout(() => { window.late = true; });
			return answer;
		};
		document.getElementById("place-15").click();
	}`))
	p.set("word-direction", "up")
	p.address("direction=up")
	p.do(chromedp.Evaluate[chromedp.Void]("window.letGo()"))
	p.until("window.late === true")
	p.until("document.getElementById('strip').dataset.mark !== ''")
	if sound := value[string](p, "document.getElementById('sheet').dataset.sound"); !strings.Contains(sound, "direction=up") || strings.Contains(sound, "fret=15") {
		t.Errorf("after the late answer the page shows %s", sound)
	}
	if at := value[string](p, "location.search"); !strings.Contains(at, "direction=up") || strings.Contains(at, "fret=15") {
		t.Errorf("after the late answer the address is %s", at)
	}
}

// slowly delays every answer of a page by 300 ms.
const slowly = `{
	const fetching = window.fetch;
	window.underWay = 0;
	window.fetch = async (address, init) => {
		window.underWay++;
		try {
			await new Promise((done) => setTimeout(done, 300));
			return await fetching(address, init);
		} finally {
			window.underWay--;
		}
	};
}`

// agrees waits until the form, what is played and the address hold the same
// words.
func (p *tab) agrees(words map[string]string) {
	p.t.Helper()
	for field, want := range words {
		p.until("document.getElementById('word-" + field + "').value === '" + want + "'")
		p.until("new URLSearchParams(document.getElementById('sheet').dataset.sound).get('" + field + "') === '" + want + "'")
		p.until("new URLSearchParams(location.search).get('" + field + "') === '" + want + "'")
	}
}

func slowAnswers(t *testing.T, b browser, home string) {
	open := func() *tab {
		p := b.tab(t, 1440, 900)
		p.open(home + "/?chord=Gm7&home=G+minor+pentatonic&superimpose=semitone+up&groups=3,3&fret=10&tempo=84&land=third")
		p.until("document.getElementById('sheet').dataset.room === String(document.getElementById('sheet-holder').clientWidth)")
		p.do(chromedp.Evaluate[chromedp.Void](slowly))
		return p
	}
	p := open() // a word changed while the answer to a link is on its way
	p.do(chromedp.Evaluate[chromedp.Void]("document.getElementById('place-15').click()"))
	p.set("word-tempo", "120")
	p.agrees(map[string]string{"tempo": "120", "fret": "10"})

	p = open() // a second word, while the first changes the sentence's words
	p.set("word-superimpose", "A minor blues")
	p.set("word-fret", "5")
	p.agrees(map[string]string{"superimpose": "A minor blues", "fret": "5"})

	p = open() // another room while a word is on its way
	p.set("word-fret", "5")
	p.do(chromedp.EmulateViewport(1200, 900))
	p.until("document.getElementById('sheet').dataset.room === String(document.getElementById('sheet-holder').clientWidth)")
	p.agrees(map[string]string{"fret": "5"})

	p = open() // back while a word is on its way
	p.set("word-fret", "5")
	p.agrees(map[string]string{"fret": "5"})
	p.set("word-fret", "7")
	p.do(chromedp.Evaluate[chromedp.Void]("history.back()"))
	p.agrees(map[string]string{"fret": "10"})
	p.until("window.underWay === 0")
	p.agrees(map[string]string{"fret": "10"})
}

func longerLine(t *testing.T, b browser, home string) {
	for _, size := range [][2]int64{{1280, 720}, {360, 700}} {
		p := b.tab(t, size[0], size[1])
		p.open(home + "/")
		before := value[int](p, "document.querySelectorAll('#sheet > .picture').length")
		p.set("word-direction", "up-down")
		p.address("direction=up-down")
		p.until("document.querySelectorAll('#sheet > .picture').length > " + strconv.Itoa(before))
		p.until("[...document.querySelectorAll('#sheet > .picture')].every(place => place.querySelector('svg'))")
	}
	turned := b.tab(t, 740, 360)
	turned.open(home + "/")
	turned.do(chromedp.EmulateViewport(360, 740))
	turned.until("document.querySelectorAll('#sheet > .picture').length > 2")
	turned.until("[...document.querySelectorAll('#sheet > .picture')].every(place => place.querySelector('svg'))")
}

func saidWord(t *testing.T, b browser, home string) {
	p := b.tab(t, 1440, 900)
	p.open(home + "/")
	p.do(chromedp.Click(chromedp.CSS("#more > summary")), chromedp.Focus(chromedp.CSS("#word-feel")))
	p.press(kb.ArrowDown, kb.ArrowDown)
	p.address("feel=swing+2%3A1")
	p.until("document.getElementById('word-feel').matches('.sentence select') && document.getElementById('word-feel').selectedOptions[0].text === 'swung 2:1'")
}
