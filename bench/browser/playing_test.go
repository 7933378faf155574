package browser_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

func TestPlayingInARealBrowser(t *testing.T) {
	inBrowser(t, []check{
		{"the page follows the music while nobody does something else", followsUndisturbed},
		{"the page follows no farther than needed", followsNoFarther},
		{"a pickup sounds before the first bar line, without the band", pickupFirst},
		{"the click sounds as its box and level say", clickAsSaid},
		{"a loop typed by number is the one asked for", loopByNumber},
		{"the tempo shown is the tempo played", tempoShown},
		{"steps of the tempo are one step back", tempoIsOneStep},
		{"a wrong ladder says so and keeps what was typed", wrongLadder},
		{"keys work in capitals, and can be turned off", keysOff},
		{"space plays from the transport's own controls", spaceInTransport},
		{"only the keyboard shows the keyboard's cursor", cursorByKeys},
		{"what is hidden is not announced, and comes back with its beams", hiddenLine},
		{"a page whose server has stopped says so in plain words", stoppedServer},
	})
}

// spied opens a tab in which a script runs before the page's own.
func (b browser) spied(t *testing.T, width, height int64, script string) *tab {
	t.Helper()
	p := b.tab(t, width, height)
	if _, err := chromedp.Call(p.ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: script}); err != nil {
		t.Fatal(err)
	}
	return p
}

func (p *tab) run(script string) {
	p.t.Helper()
	p.do(chromedp.Evaluate[chromedp.Void](script))
}

// playAtOnce starts to play without a count-in and waits for the first note.
func (p *tab) playAtOnce() {
	p.t.Helper()
	p.set("count-in", "0")
	p.do(chromedp.Click(chromedp.CSS("#play")))
	p.until("document.querySelector('#sheet .lit') !== null")
}

// notesPass waits until so many more notes have been lit.
func (p *tab) notesPass(n int) {
	p.t.Helper()
	p.run("window.before = window.spied.lit.length")
	p.until(fmt.Sprintf("window.spied.lit.length >= window.before + %d", n))
}

// still has the page scroll at once, as for readers who want less motion. A smooth
// scroll that is under way goes on after a script scrolls elsewhere, and a
// person's own hand would end it.
func (p *tab) still() {
	p.t.Helper()
	_, err := chromedp.Call(p.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-reduced-motion", Value: "reduce"}},
	})
	if err != nil {
		p.t.Fatal(err)
	}
}

func followsUndisturbed(t *testing.T, b browser, home string) {
	p := b.spied(t, 360, 740, spy)
	p.still()
	p.open(home + "/?home=G+minor+pentatonic&superimpose=semitone+up&groups=3,3&fret=10&tempo=160")
	p.playAtOnce()
	p.until("scrollY > 0")
	p.run("scrollTo(0, 0); document.getElementById('word-chord').focus()")
	p.notesPass(8)
	if y := value[float64](p, "scrollY"); y > 0 {
		t.Errorf("with the focus in the sentence the page goes to %v", y)
	}
	p.run("document.activeElement.blur()")
	p.until("scrollY > 0") // nobody does anything any more

	// The person scrolls: so it stays, until the next start.
	p.do(chromedp.Focus(chromedp.CSS("#play")))
	p.run("scrollTo(0, 0); dispatchEvent(new WheelEvent('wheel', {deltaY: -100}))")
	p.notesPass(5)
	if y := value[float64](p, "scrollY"); y > 0 {
		t.Errorf("just after a person scrolled to the top the page goes to %v", y)
	}
	p.press(kb.Enter)
	p.until("document.getElementById('play').textContent === 'Play'")
	p.press(kb.Enter)
	p.until("scrollY > 0")
}

func followsNoFarther(t *testing.T, b browser, home string) {
	p := b.spied(t, 1440, 900, spy)
	p.open(home + "/?home=G+minor+pentatonic&superimpose=semitone+up&groups=3,3&fret=10&tempo=300")
	if systems := value[int](p, "document.querySelectorAll('#sheet .system').length"); systems < 2 {
		t.Fatalf("%d systems, too few for this test", systems)
	}
	p.playAtOnce()
	p.until("document.querySelector('#system-1 .lit') !== null")
	const bottom = "document.querySelector('#system-1 .system').getBoundingClientRect().bottom"
	const edge = "document.getElementById('transport').getBoundingClientRect().top"
	p.until(bottom + " <= " + edge)
	p.notesPass(3) // till it has come to rest
	white := value[float64](p, edge+" - "+bottom)
	if y := value[float64](p, "scrollY"); y > 0 && white > 30 {
		t.Errorf("the page went to %v, %v pixels farther than the system needs", y, white)
	}
}

func pickupFirst(t *testing.T, b browser, home string) {
	for _, bars := range []int{0, 1} {
		p := b.spied(t, 1000, 700, spy)
		p.open(home + "/?home=G+minor+pentatonic&groups=3&tempo=100&bars=2&pickup=1")
		p.set("count-in", fmt.Sprint(bars))
		p.do(chromedp.Click(chromedp.CSS("#play")))
		p.until("new Set(window.spied.lit.map(l => l.note)).size >= 4")
		p.do(chromedp.Click(chromedp.CSS("#play")))
		if lit := value[[]int](p, "[...new Set(window.spied.lit.map(l => l.note))].slice(0, 4)"); fmt.Sprint(lit) != "[0 1 2 3]" {
			t.Errorf("with %d bars of count-in the notes light as %v, want [0 1 2 3]", bars, lit)
		}
		begins := value[[]float64](p, "[...new Set(window.spied.starts.filter(s => s.loop).map(s => s.when))].sort((a, b) => a - b)")
		const rate = 48000
		if len(begins) < 2 {
			t.Fatalf("the line and the band begin together, at %v", begins)
		}
		if between := (begins[1] - begins[0]) * rate; math.Abs(between-0.6*rate) > 1e-3 { // a quarter at 100
			t.Errorf("with %d bars of count-in the band comes in %.3f samples after the line, want a quarter, %.0f", bars, between, 0.6*rate)
		}
		counts := value[[]float64](p, "window.spied.starts.filter(s => !s.loop).map(s => s.when + s.length / 48000)")
		if len(counts) != bars || bars > 0 && math.Abs(counts[0]-begins[1])*rate > 1e-3 {
			t.Errorf("the count-ins end at %v, want %d, and the band at %v", counts, bars, begins[1])
		}
	}
}

// gains records the page's gain nodes: the mix, each part, the count-in.
const gains = `
	window.gains = [];
	const Plain = window.GainNode;
	window.GainNode = class extends Plain { constructor(...a) { super(...a); window.gains.push(this); } };
`

func clickAsSaid(t *testing.T, b browser, home string) {
	p := b.spied(t, 1000, 700, gains)
	p.open(home + "/?home=A+minor+pentatonic&groups=3&bars=2")
	p.do(chromedp.Click(chromedp.CSS("#play")))
	p.until("window.gains.length > 8")
	const click, count = "window.gains[5].gain.value", "window.gains[7].gain.value"
	p.set("vamp", "click")
	if !value[bool](p, "document.getElementById('on-click').checked") {
		t.Error("the click is the vamp and its box is off")
	}
	p.until(click + " > .99")
	p.run("document.getElementById('mix').open = true")
	p.do(chromedp.Click(chromedp.CSS("#on-click")))
	p.until(click + " < .01")
	p.set("level-click", "-24")
	p.until(fmt.Sprintf("Math.abs(%s - %v) < .001", count, math.Pow(10, -24.0/20)))
	p.do(chromedp.Click(chromedp.CSS("#on-click")))
	p.until(fmt.Sprintf("Math.abs(%s - %v) < .001", click, math.Pow(10, -24.0/20)))
	p.do(chromedp.Click(chromedp.CSS("#on-click")))
	// What was turned on for the vamp goes with it.
	p.set("vamp", "funk")
	p.set("vamp", "click")
	p.set("vamp", "funk")
	if value[bool](p, "document.getElementById('on-click').checked") {
		t.Error("the click stays on after it was the vamp")
	}
}

func loopByNumber(t *testing.T, b browser, home string) {
	p := b.tab(t, 1000, 700)
	p.open(home + "/?home=G+minor+pentatonic&superimpose=semitone+up&groups=3,3&fret=10")
	notes := value[int](p, "Number(document.getElementById('sheet').dataset.notes)")
	for _, c := range []struct {
		field, typed, from, to string
		said                   string
	}{
		{"loop-from", "1", "", "", "whole line"},
		{"loop-to", "6", "1", "6", "1 to 6"},
		{"loop-from", "13", "13", "18", "13 to 18"}, // as long as before
		{"loop-to", "20", "13", "20", "13 to 20"},
		{"loop-to", "3", "1", "3", "1 to 3"},
		{"loop-from", "200", fmt.Sprint(notes), fmt.Sprint(notes), fmt.Sprintf("The line has notes 1 to %d.", notes)},
		{"loop-from", "-4", "", "", fmt.Sprintf("The line has notes 1 to %d.", notes)},
		{"loop-to", "6", "1", "6", "1 to 6"},
		{"loop-to", "", "", "", "whole line"},
	} {
		p.set(c.field, c.typed)
		p.until(fmt.Sprintf("document.getElementById('say').textContent.includes(%q)", c.said))
		from, to := value[string](p, "document.getElementById('loop-from').value"), value[string](p, "document.getElementById('loop-to').value")
		if from != c.from || to != c.to {
			t.Errorf("%s %q gives %q to %q, want %q to %q", c.field, c.typed, from, to, c.from, c.to)
		}
	}
}

const tempoNow = "document.getElementById('tempo-now').textContent"

func tempoShown(t *testing.T, b browser, home string) {
	p := b.tab(t, 1000, 700)
	p.open(home + "/?home=A+minor+pentatonic&groups=3&bars=1&tempo=200")
	for id, v := range map[string]string{"ladder-to": "240", "ladder-step": "40", "ladder-every": "1"} {
		p.set(id, v)
	}
	p.run("document.getElementById('ladder').click()")
	p.playAtOnce()
	p.until(tempoNow + " === '240'")
	if v := value[string](p, "document.getElementById('tempo-slide').value"); v != "240" {
		t.Errorf("240 is played and the slider shows %s", v)
	}
	p.do(chromedp.Click(chromedp.CSS("#play")))
	p.until(tempoNow + " === '200' && document.getElementById('tempo-slide').value === '200'")

	// A wrong word keeps the exercise as it was, its tempo too.
	p.set("word-chord", "Hm7b13x")
	p.until("document.getElementById('word-chord').getAttribute('aria-invalid') === 'true'")
	p.do(chromedp.Click(chromedp.CSS("#faster")))
	p.until("document.getElementById('say').textContent.includes('stays at 200')")
	p.until(tempoNow + " === '200' && document.getElementById('word-tempo').value === '200'")
	if v := value[string](p, "document.getElementById('word-chord').value"); v != "Hm7b13x" {
		t.Errorf("what was typed became %q", v)
	}

	// The slider spans what the tempo may be.
	p.open(home + "/?home=A+minor+pentatonic&groups=3&bars=1&tempo=300")
	p.do(chromedp.Focus(chromedp.CSS("#tempo-slide")))
	p.press(kb.ArrowLeft)
	p.address("tempo=299")
}

func tempoIsOneStep(t *testing.T, b browser, home string) {
	p := b.tab(t, 1000, 700)
	p.open(home + "/?home=A+minor+pentatonic&groups=3&bars=1&tempo=100")
	p.set("word-direction", "up")
	p.address("direction=up")
	before := value[int](p, "history.length")
	for _, tempo := range []string{"102", "104", "106"} {
		p.do(chromedp.Click(chromedp.CSS("#faster")))
		p.address("tempo=" + tempo)
	}
	if more := value[int](p, "history.length") - before; more != 1 {
		t.Errorf("three quick steps of the tempo are %d steps back, want 1", more)
	}
	p.run("history.back()")
	p.until("location.search.includes('tempo=100') && location.search.includes('direction=up') && " + tempoNow + " === '100'")
}

func wrongLadder(t *testing.T, b browser, home string) {
	p := b.tab(t, 1000, 700)
	p.open(home + "/?home=A+minor+pentatonic&groups=3&bars=1&tempo=200")
	p.run("document.getElementById('how').open = true")
	for _, c := range []struct{ id, typed, says string }{
		{"ladder-to", "9999", "“to” takes a whole number from 20 to 400"},
		{"ladder-step", "0", "“by” takes a whole number from 1 to 40"},
		{"ladder-every", "", "“every” takes a whole number from 1 to 64"},
		{"ladder-every", "1.5", "“every” takes a whole number from 1 to 64"},
	} {
		good := value[string](p, fmt.Sprintf("document.getElementById(%q).value", c.id))
		p.set(c.id, c.typed)
		says := value[string](p, "document.getElementById('ladder-fault').innerText")
		if says != c.says+". Until then the ladder stays as it was." {
			t.Errorf("%s %q says %q", c.id, c.typed, says)
		}
		if v := value[string](p, fmt.Sprintf("document.getElementById(%q).value", c.id)); v != c.typed {
			t.Errorf("%s: what was typed, %q, became %q", c.id, c.typed, v)
		}
		if !value[bool](p, fmt.Sprintf("document.getElementById(%q).matches('[aria-invalid=true][aria-describedby=ladder-fault]')", c.id)) {
			t.Errorf("%s is not marked as wrong", c.id)
		}
		p.set(c.id, good)
		if left := value[string](p, "document.getElementById('ladder-fault').textContent"); left != "" {
			t.Errorf("%s put right still says %q", c.id, left)
		}
	}
}

func keysOff(t *testing.T, b browser, home string) {
	p := b.tab(t, 1000, 700)
	p.open(home + "/?home=A+minor+pentatonic&groups=3&bars=1&tempo=100")
	p.press("L")
	if p.focus() != "sheet" {
		t.Errorf("capital L goes to %q, want the notes", p.focus())
	}
	const turn = "document.getElementById('keys').click(); document.activeElement.blur()"
	p.run(turn)
	p.press("l", "+", "T")
	if p.focus() != "" || value[string](p, tempoNow) != "100" {
		t.Errorf("keys that are off go to %q and set the tempo to %s", p.focus(), value[string](p, tempoNow))
	}
	p.open(home + "/")
	if value[bool](p, "document.getElementById('keys').checked") {
		t.Error("that the keys are off was forgotten")
	}
	p.run(turn)
	p.press("l")
	if p.focus() != "sheet" {
		t.Error("the keys do not come on again")
	}
}

// space presses the space bar as a keyboard does, so that a page which takes the
// key down is spared the letter.
func (p *tab) space() {
	p.t.Helper()
	for _, k := range []input.DispatchKeyEventParams{
		{Type: "keyDown", Key: " ", Code: "Space", Text: " ", WindowsVirtualKeyCode: 32},
		{Type: "keyUp", Key: " ", Code: "Space", WindowsVirtualKeyCode: 32},
	} {
		if _, err := chromedp.Call(p.ctx, input.DispatchKeyEvent, k); err != nil {
			p.t.Fatal(err)
		}
	}
}

func spaceInTransport(t *testing.T, b browser, home string) {
	p := b.tab(t, 1000, 700)
	p.open(home + "/?home=A+minor+pentatonic&groups=3&bars=1")
	const button = "document.getElementById('play').textContent"
	for _, id := range []string{"vamp", "loop-from", "tempo-slide"} {
		p.do(chromedp.Focus(chromedp.CSS("#" + id)))
		p.space()
		p.until(button + " === 'Stop'")
		p.space()
		p.until(button + " === 'Play'")
		if p.focus() != id {
			t.Errorf("the focus goes from %s to %s", id, p.focus())
		}
	}
	p.do(chromedp.Focus(chromedp.CSS("#voice")))
	p.press(" ")
	if value[string](p, button) != "Play" || !value[bool](p, "document.getElementById('voice').checked") {
		t.Error("a space on a checkbox is not the checkbox's own")
	}
}

func cursorByKeys(t *testing.T, b browser, home string) {
	p := b.tab(t, 1000, 700)
	p.open(home + "/?home=A+minor+pentatonic&groups=3&bars=2")
	p.run("document.getElementById('sheet').scrollIntoView()")
	at := func(note int) (x, y float64) {
		box := value[[]float64](p, fmt.Sprintf("(b => [b.left + b.width / 2, b.top + b.height / 2])(document.querySelector('#sheet .note[data-note=\"%d\"]').getBoundingClientRect())", note))
		return box[0], box[1]
	}
	x1, y1 := at(2)
	x2, y2 := at(5)
	p.do(chromedp.MouseEvent("mousePressed", x1, y1, chromedp.Button("left")), chromedp.MouseEvent("mouseMoved", x2, y2, chromedp.Button("left")), chromedp.MouseEvent("mouseReleased", x2, y2, chromedp.Button("left")))
	p.until("document.getElementById('loop-from').value === '3' && document.getElementById('loop-to').value === '6'")
	if p.focus() != "sheet" {
		t.Fatalf("the focus is on %q", p.focus())
	}
	if n := value[int](p, "document.querySelectorAll('#sheet .cursor').length"); n != 0 {
		t.Error("dragging shows the keyboard's cursor")
	}
	p.press(kb.ArrowRight)
	p.until("document.querySelectorAll('#sheet .cursor').length === 1")
}

func hiddenLine(t *testing.T, b browser, home string) {
	const spec = "/?home=G+minor+pentatonic&superimpose=semitone+up&groups=3,3&fret=10&tempo=200"
	p := b.spied(t, 1000, 700, spy)
	said := func(hide, want string) {
		t.Helper()
		p.open(home + spec + hide)
		p.press("l", kb.ArrowRight)
		p.until("document.getElementById('say').textContent !== ''")
		if got := value[string](p, "document.getElementById('say').textContent"); got != want {
			t.Errorf("with %q the arrow key says %q, want %q", hide, got, want)
		}
	}
	said("&hide=line", "Note 2")
	said("&hide=names&hide=tab", "Note 2: "+value[string](p, "document.querySelectorAll('#rows tbody tr')[1].children[3].textContent"))

	p.open(home + spec + "&hide=line")
	const seen = ".filter(e => getComputedStyle(e).visibility === 'visible').length"
	if n := value[int](p, "[...document.querySelectorAll('#sheet :is(.note, .join, .join *)')]"+seen); n != 0 {
		t.Errorf("%d notes and beams of a hidden line are seen", n)
	}
	if value[int](p, "[...document.querySelectorAll('#sheet .tab path')]"+seen) == 0 {
		t.Error("the strings of the tablature are not seen")
	}
	p.playAtOnce()
	p.until("document.querySelectorAll('#sheet .note.heard').length >= 4")
	p.until("[...document.querySelectorAll('#sheet .join[data-note~=\"0\"] path')]" + seen + " > 0")
	p.do(chromedp.Click(chromedp.CSS("#play")))
	// A note that was heard may be told.
	p.press("l", kb.ArrowRight)
	p.until("document.getElementById('say').textContent.includes('string')")
}

func stoppedServer(t *testing.T, b browser, home string) {
	p := b.tab(t, 1000, 700)
	p.open(home + "/?home=E+minor+pentatonic&groups=3&bars=1")
	p.run("window.fetch = () => Promise.reject(new TypeError('Failed to fetch'))") // what a browser says of a dead server
	p.do(chromedp.Click(chromedp.CSS("#play")))
	p.until("document.getElementById('say').textContent === 'heddle does not answer, so there is no sound. Is it still running?'")
	if value[string](p, "document.getElementById('play').textContent") != "Play" {
		t.Error("nothing plays and the button says so not")
	}
}
