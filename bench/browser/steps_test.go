package browser_test

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// undoAndLinks steps back and forth by the buttons, and opens a link that carries
// what was chosen for the sound.
func undoAndLinks(t *testing.T, b browser, home string) {
	p := b.tab(t, 1366, 768)
	p.open(home + "/")
	disabled := func(id string) bool {
		return value[bool](p, "document.getElementById('"+id+"').disabled")
	}
	if !disabled("undo") || !disabled("redo") {
		t.Error("there is something to undo or redo on a new page")
	}
	p.set("word-direction", "up")
	p.address("direction=up")
	p.until("!document.getElementById('undo').disabled")
	p.do(chromedp.Click(chromedp.CSS("#undo")))
	p.until("document.getElementById('word-direction').value === 'down'")
	p.until("document.getElementById('undo').disabled && !document.getElementById('redo').disabled")
	p.do(chromedp.Click(chromedp.CSS("#redo")))
	p.until("document.getElementById('word-direction').value === 'up'")
	p.until("document.getElementById('redo').disabled")

	// What is chosen for the sound goes into the address, and stays there.
	p.set("vamp", "swing")
	p.set("count-in", "2")
	p.address("vamp=swing", "count-in=2")
	p.set("word-follow", "last")
	p.address("follow=last", "vamp=swing", "count-in=2")
	p.set("loop-from", "4")
	p.set("loop-to", "12")
	// Without leave to write to the clipboard, the link is shown.
	p.do(chromedp.Evaluate[chromedp.Void]("navigator.clipboard.writeText = () => Promise.reject(new Error('no'))"), chromedp.Click(chromedp.CSS("#copy-link")))
	p.until("document.getElementById('copied').textContent !== ''")
	link := value[string](p, "document.getElementById('copied').textContent")
	if !strings.HasSuffix(link, "#notes=4-12") {
		t.Fatalf("the link is %s", link)
	}
	other := b.tab(t, 1366, 768)
	other.open(link)
	other.until("document.getElementById('vamp').value === 'swing' && document.getElementById('count-in').value === '2' && document.getElementById('word-follow').value === 'last'")
	other.until("document.getElementById('loop-from').value === '4' && document.getElementById('loop-to').value === '12'")
}
