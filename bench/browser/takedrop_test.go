package browser_test

import (
	"heddle/bench/benchtest"
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// drag sends one event of dragging files over the page.
func (p *tab) drag(kind input.DispatchDragEventType, files []string) {
	p.t.Helper()
	if _, err := chromedp.Call(p.ctx, input.DispatchDragEvent, input.DispatchDragEventParams{
		Type: kind, X: 400, Y: 300, Data: &input.DragData{Items: []*input.DragDataItem{}, Files: files, DragOperationsMask: 1},
	}); err != nil {
		p.t.Fatal(err)
	}
}

// dropped drops files from the desktop onto the page.
func (p *tab) dropped(files ...string) {
	p.t.Helper()
	p.drag("dragEnter", files)
	p.drag("dragOver", files)
	p.until("document.body.classList.contains('dropping')")
	p.drag("drop", files)
	p.until("!document.body.classList.contains('dropping')")
}

func fileDropped(t *testing.T, b browser, home string) {
	file := filepath.Join(t.TempDir(), "rehearsal.wav")
	if err := os.WriteFile(file, benchtest.Faulty(t).WAV(), 0o600); err != nil {
		t.Fatal(err)
	}
	p := b.tab(t, 1280, 900)
	p.openTake(home + "/take?" + benchtest.LiveSpec)
	p.dropped(file)
	p.marked()
	if got := value[string](p, reportCounts); got != faultyCounts {
		t.Errorf("the dropped file has %s, want %s", got, faultyCounts)
	}
	// While a take is recorded, a file waits.
	p.do(chromedp.Click(chromedp.CSS("#take-record")))
	p.until("document.getElementById('take-record').classList.contains('running')")
	p.dropped(file)
	p.until("document.getElementById('say').textContent === 'rehearsal.wav has to wait until this take is stopped.'")
	p.do(chromedp.Click(chromedp.CSS("#take-cancel")))
	p.until("document.getElementById('say').textContent.startsWith('Stopped')")
}
