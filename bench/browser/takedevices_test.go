package browser_test

import (
	"heddle/bench"
	"heddle/bench/benchtest"
	"heddle/internal/need"
	"strings"
	"testing"

	cdpbrowser "github.com/chromedp/cdproto/browser"
	"github.com/chromedp/chromedp"
)

// says waits until the page says something that holds some words.
func (p *tab) says(words string) {
	p.t.Helper()
	p.until("document.getElementById('say').textContent.includes(" + `"` + words + `"` + ")")
}

// heardDevices notes which microphones are opened, and lets the test have them.
const heardDevices = `{
	window.opened = [];
	const open = navigator.mediaDevices.getUserMedia.bind(navigator.mediaDevices);
	navigator.mediaDevices.getUserMedia = async (wish) => {
		const stream = await open(wish);
		window.opened.push(stream.getAudioTracks()[0]);
		return stream;
	};
} void 0`

func microphoneChosen(t *testing.T, b browser, home string) {
	p := b.tab(t, 1280, 900)
	p.openTake(home + "/take?" + benchtest.LiveSpec)
	p.until("document.querySelectorAll('#take-input option').length > 2")
	p.do(chromedp.Evaluate[chromedp.Void](heardDevices))
	other := value[string](p, "[...document.querySelectorAll('#take-input option')].at(-1).value")
	p.set("take-input", other)
	p.do(chromedp.Click(chromedp.CSS("#take-record")))
	p.until("window.opened.length === 1")
	if got := value[string](p, "window.opened[0].getSettings().deviceId"); got != other {
		t.Errorf("the microphone %q was opened, want %q", got, other)
	}
	p.until("document.getElementById('take-record').textContent === 'Stop'")
	p.do(chromedp.Click(chromedp.CSS("#take-cancel")))

	p.do(chromedp.Reload())
	p.until("document.querySelectorAll('#take-input option').length > 2")
	if got := value[string](p, "document.getElementById('take-input').value"); got != other {
		t.Errorf("after a reload %q is chosen, want %q", got, other)
	}
}

// The button that keeps a steady delay as the device's marks the take anew, and
// the setting lasts.
func delayAdopted(t *testing.T, b browser, home string) {
	p := b.tab(t, 1280, 900)
	p.openTake(home + "/take?" + benchtest.LiveSpec)
	p.inTime(benchtest.Play(t, benchtest.LiveSpec, 0.5, nil), 0.09)
	p.set("take-count", "1")
	p.do(chromedp.Click(chromedp.CSS("#take-record")))
	p.marked()
	behind := value[float64](p, "Number(document.getElementById('report').dataset.behind)")
	if behind < 20 || !value[bool](p, "document.getElementById('take-adopt').checkVisibility()") {
		t.Fatalf("the take lies %v ms behind and no delay is offered to be kept", behind)
	}
	p.do(chromedp.Click(chromedp.CSS("#take-adopt")))
	p.until("Math.abs(Number(document.getElementById('report').dataset.behind)) < 20 && document.getElementById('take-adopt').hidden")
	if set := value[float64](p, "Number(document.getElementById('take-delay').value)"); set != behind {
		t.Errorf("the delay is set to %v ms, want the %v that were measured", set, behind)
	}
	p.do(chromedp.Reload())
	p.until("document.getElementById('take-delay').value !== '0'")
	if set := value[float64](p, "Number(document.getElementById('take-delay').value)"); set != behind {
		t.Errorf("after a reload the delay is %v ms, want %v", set, behind)
	}
	p.set("take-delay", "0") // for the takes that follow
}

func microphoneGone(t *testing.T, b browser, home string) {
	p := b.tab(t, 1280, 900)
	p.openTake(home + "/take?" + benchtest.LiveSpec)
	p.inTime(benchtest.Play(t, benchtest.LiveSpec, 0.5, nil), 0.02)
	p.do(chromedp.Evaluate[chromedp.Void](heardDevices))
	p.set("take-count", "1")
	p.do(chromedp.Click(chromedp.CSS("#take-stop")), chromedp.Click(chromedp.CSS("#take-record")))
	p.until("document.querySelectorAll('#sheet .verdict.right').length > 3")
	p.do(chromedp.Evaluate[chromedp.Void]("window.opened[0].stop(); window.opened[0].dispatchEvent(new Event('ended'))"))
	p.marked()
	if remark := value[string](p, "document.querySelector('#report .fault').textContent"); !strings.HasPrefix(remark, "The microphone went away while you played") {
		t.Errorf("the report says %q", remark)
	}
	if right := value[float64](p, "Number(document.querySelector('#counts .right strong').textContent)"); right < 3 {
		t.Errorf("%v notes are right of what was recorded before", right)
	}

	// A silent microphone is reported while the player can still fix it.
	silent := benchtest.Play(t, benchtest.LiveSpec, 0.5, nil)
	clear(silent.Samples)
	q := b.tab(t, 1280, 900)
	q.openTake(home + "/take?" + benchtest.LiveSpec)
	q.inTime(silent, 0)
	q.set("take-count", "1")
	q.do(chromedp.Click(chromedp.CSS("#take-stop")), chromedp.Click(chromedp.CSS("#take-record")))
	q.says("there is no sound from the microphone")
	q.do(chromedp.Click(chromedp.CSS("#take-cancel")))
}

// Each of these starts a browser of its own: what a browser is started with
// decides which microphones there are and whether it asks.

func TestAMicrophoneThatIsRefusedIsAskedForPlainly(t *testing.T) {
	need.Long(t, "a browser of its own is started")
	b := openBrowser(t, chromedp.Flag("use-fake-device-for-media-stream", true))
	home := benchtest.Serve(t, bench.Options{})
	p := b.tab(t, 1280, 900)
	if _, err := chromedp.Call(p.ctx, cdpbrowser.SetPermission, cdpbrowser.SetPermissionParams{
		Permission: &cdpbrowser.PermissionDescriptor{Name: "microphone"}, Setting: cdpbrowser.PermissionSettingDenied, Origin: home,
	}); err != nil {
		t.Fatal(err)
	}
	p.openTake(home + "/take?" + benchtest.LiveSpec)
	p.do(chromedp.Click(chromedp.CSS("#take-record")))
	p.says("This page may not use the microphone.")
	if text := value[string](p, "document.getElementById('take-record').textContent"); text != "Record" {
		t.Errorf("the button says %q", text)
	}
}

func TestAMachineWithoutAMicrophoneSaysSo(t *testing.T) {
	need.Long(t, "a browser of its own is started")
	// Without sound output Chromium has no sound devices at all.
	b := openBrowser(t, chromedp.Flag("use-fake-ui-for-media-stream", true), chromedp.Flag("disable-audio-output", true))
	p := b.tab(t, 1280, 900)
	p.openTake(benchtest.Serve(t, bench.Options{}) + "/take?" + benchtest.LiveSpec)
	if n := value[float64](p, "navigator.mediaDevices.enumerateDevices().then(d => d.filter(d => d.kind === 'audioinput').length)"); n > 0 {
		t.Fatalf("the browser offers %v microphones, want none", n)
	}
	p.do(chromedp.Click(chromedp.CSS("#take-record")))
	p.says("No microphone was found. Connect one, or choose a recording below.")
}
