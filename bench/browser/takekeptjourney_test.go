package browser_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"heddle/bench/benchtest"
	"heddle/bench/takes"
)

// keptInTheBrowser keeps a take with the keyboard, opens it again, hears it and
// deletes it.
func keptInTheBrowser(t *testing.T, b browser, home string) {
	p := b.tab(t, 1280, 900)
	p.openTake(home + "/take?" + benchtest.LiveSpec)
	p.must(p.page.Choose(benchtest.Faulty(t), filepath.Join(t.TempDir(), "rehearsal.wav")))
	p.do(chromedp.Evaluate[chromedp.Void]("document.getElementById('take-play').focus()"))
	p.tabTo("take-label")
	p.do(chromedp.KeyEvent("Ann, the third try")) // with an r, which records elsewhere
	p.tabTo("take-keep")
	p.do(chromedp.KeyEvent("\r"))
	p.until("document.getElementById('take-keep').textContent === 'Kept' && document.getElementById('say').textContent.startsWith('Kept')")
	if n := value[float64](p, "document.querySelectorAll('#kept li').length"); n != 1 {
		t.Fatalf("%v takes are listed, want the one that was kept", n)
	}
	if label := value[string](p, "document.querySelector('#kept li strong').textContent"); label != "Ann, the third try" {
		t.Errorf("the kept take is labelled %q", label)
	}
	if value[bool](p, "document.getElementById('take-unkept').checkVisibility()") {
		t.Error("a kept take is still said to go with the page")
	}

	p.do(chromedp.Click(chromedp.CSS("#kept .when a")), chromedp.WaitReady(chromedp.CSS("html.has-scripts main[data-recording]")))
	if got := value[string](p, reportCounts); got != faultyCounts {
		t.Errorf("opened again it has %s, want %s", got, faultyCounts)
	}
	p.do(chromedp.Evaluate[chromedp.Void]("document.activeElement.blur()"))
	p.do(chromedp.KeyEvent(" "))
	p.until("document.querySelector('#sheet .lit') !== null && document.querySelector('#over .lit') !== null")
	p.do(chromedp.KeyEvent(" "))
	p.until("document.querySelector('.lit') === null && document.getElementById('take-play').textContent === 'Hear it with the line'")
	p.do(chromedp.EmulateViewport(360, 740))
	p.until("Number(document.getElementById('over').dataset.room) <= 360 && document.documentElement.scrollWidth <= 360")

	p.do(chromedp.Click(chromedp.CSS(".files a[href$='/delete']")), chromedp.WaitReady(chromedp.CSS("#delete")))
	p.do(chromedp.Click(chromedp.CSS("#delete button")), chromedp.WaitReady(chromedp.CSS("#kept .empty")))
}

// keptWithoutScripts does the same by forms alone.
func keptWithoutScripts(t *testing.T, b browser, home string) {
	file := filepath.Join(t.TempDir(), "rehearsal.wav")
	if err := os.WriteFile(file, benchtest.Faulty(t).WAV(), 0o600); err != nil {
		t.Fatal(err)
	}
	p := b.plainTab(t)
	p.do(chromedp.Navigate(home+"/take?"+benchtest.LiveSpec), chromedp.WaitReady(chromedp.CSS("#recording")))
	p.do(chromedp.SetUploadFiles(chromedp.CSS("#recording"), []string{file}), chromedp.Click(chromedp.CSS("#take-file button.unscripted")))
	p.do(chromedp.WaitReady(chromedp.CSS("main[data-recording] #counts")))
	if got := value[string](p, reportCounts); got != faultyCounts {
		t.Errorf("the kept take has %s, want %s", got, faultyCounts)
	}
	if !value[bool](p, "document.querySelector('audio').checkVisibility() && !document.getElementById('playback').checkVisibility()") {
		t.Error("a kept take can't be heard without scripts")
	}
	p.do(chromedp.Click(chromedp.CSS(".files a[href$='/delete']")), chromedp.WaitReady(chromedp.CSS("#delete")))
	p.do(chromedp.Click(chromedp.CSS("#delete button")), chromedp.WaitReady(chromedp.CSS("#kept .empty")))
}

// plainTab opens a tab that runs no scripts.
func (b browser) plainTab(t *testing.T) *tab {
	t.Helper()
	p := b.tab(t, 1280, 900)
	if _, err := chromedp.Call(p.ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true}); err != nil {
		t.Fatal(err)
	}
	return p
}

// tabTo presses Tab until an element has the focus.
func (p *tab) tabTo(id string) {
	p.t.Helper()
	const most = 40
	for range most {
		p.do(chromedp.KeyEvent("\t"))
		if value[string](p, "document.activeElement.id") == id {
			return
		}
	}
	p.t.Fatalf("%d presses of Tab do not lead to %s", most, id)
}

// A folder that can't be written to costs the keeping and not the take.
func notKeptInTheBrowser(t *testing.T, b browser) {
	data := filepath.Join(t.TempDir(), "data")
	home := benchtest.Keep(t, data)
	p := b.tab(t, 1280, 900)
	p.ignoreComplaints = true // the console reports the answer's status
	p.openTake(home + "/take?" + benchtest.LiveSpec)
	if err := os.MkdirAll(data, 0o700); err != nil {
		t.Fatal(err)
	}
	inTheWay := takes.In(data).Dir()
	if err := os.WriteFile(inTheWay, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	p.must(p.page.Choose(benchtest.Faulty(t), filepath.Join(t.TempDir(), "rehearsal.wav")))
	p.do(chromedp.Click(chromedp.CSS("#take-keep")))
	p.until("document.getElementById('say').textContent.startsWith('Not kept')")
	says := value[string](p, "document.getElementById('say').textContent")
	if !strings.Contains(says, inTheWay) || !strings.HasSuffix(says, "The take is still here.") {
		t.Errorf("the page says %q", says)
	}

	// Once there is room, the same take is kept.
	if err := os.Remove(inTheWay); err != nil {
		t.Fatal(err)
	}
	p.do(chromedp.Click(chromedp.CSS("#take-keep")))
	p.until("document.getElementById('take-keep').textContent === 'Kept'")
	if names, _, err := takes.In(data).Names("", 2); err != nil || len(names) != 1 {
		t.Errorf("the folder holds %v, %v", names, err)
	}
}

// reportCounts reads the summary as the page shows it.
const reportCounts = "[...document.querySelectorAll('#counts li')].map(li => li.textContent.trim().replace(/\\s+/g, ' ')).join(' ')"

// faultyCounts is the summary of the faulty take.
const faultyCounts = "13 right 1 wrong 1 missed 0 extra"
