package browser_test

import (
	"encoding/json"
	"math"
	"slices"
	"testing"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// spy records, outside the page's own scripts, what they ask of the audio
// clock and when they light which note.
const spy = `
	window.spied = {starts: [], lit: [], frames: []};
	const heardNow = () => window.spied.context.currentTime - (window.spied.context.outputLatency || window.spied.context.baseLatency || 0);
	requestAnimationFrame(function frame() {
		if (window.spied.context) window.spied.frames.push(heardNow());
		requestAnimationFrame(frame);
	});
	const Open = window.AudioContext;
	window.AudioContext = class extends Open { constructor(...a) { super(...a); window.spied.context = this; } };
	const start = AudioBufferSourceNode.prototype.start;
	AudioBufferSourceNode.prototype.start = function (when, offset) {
		window.spied.starts.push({when, offset: offset ?? 0, length: this.buffer.length, loop: this.loop});
		return start.apply(this, arguments);
	};
	new MutationObserver((changes) => {
		for (const c of changes) {
			if (!(c.target instanceof Element) || !c.target.closest("#sheet") || !c.target.classList.contains("lit")) continue;
			if ((c.oldValue ?? "").split(" ").includes("lit")) continue;
			window.spied.lit.push({note: Number(c.target.dataset.note), at: heardNow()});
		}
	}).observe(document, {attributes: true, attributeFilter: ["class"], attributeOldValue: true, subtree: true});
`

// mostEarlyMS is how far in ms a light may come before its sound.
const mostEarlyMS = 20.0

// lightsInTime compares the lights with the timeline. What plays is known from
// the loops that the page started, not from what the page says.
//
// A busy machine draws frames late, so how late the lights come is logged and
// not held to a limit. Load cannot make a light come early or out of order, so
// both are errors. Notes for which no frame was drawn in time (from 6 ms before
// the sound to 12 ms after it) are counted apart.
func lightsInTime(t *testing.T, b browser, home string) {
	p := b.tab(t, 1000, 700)
	if _, err := chromedp.Call(p.ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: spy}); err != nil {
		t.Fatal(err)
	}
	p.open(home + "/?home=G+minor+pentatonic&superimpose=semitone+up&groups=3,3&fret=10&tempo=100")
	p.set("count-in", "0")
	p.do(chromedp.Click(chromedp.CSS("#play")))
	p.until("new Set(window.spied.lit.map(l => l.note)).size >= 20")
	p.do(chromedp.Click(chromedp.CSS("#play")))

	var spied struct {
		Starts []struct {
			When, Offset float64
			Length       int
			Loop         bool
		}
		Lit []struct {
			Note int
			At   float64
		}
		Frames []float64
	}
	read(t, value[string](p, `JSON.stringify(window.spied, (key, v) => key === "context" ? undefined : v)`), &spied)
	var timeline struct {
		SampleRate int `json:"sample_rate"`
		Notes      []struct {
			Index int
			Start int64
		}
	}
	read(t, value[string](p, "fetch('/sound/timeline?' + document.getElementById('sheet').dataset.sound + '&vamp=' + document.getElementById('vamp').value).then(r => r.text())"), &timeline)
	onset := map[int]float64{}
	for _, n := range timeline.Notes {
		onset[n.Index] = float64(n.Start) / float64(timeline.SampleRate)
	}
	first := -1
	for i, s := range spied.Starts {
		if s.Loop {
			first = i
			break
		}
	}
	if first < 0 {
		t.Fatal("no loop was started")
	}
	begun := spied.Starts[first].When - spied.Starts[first].Offset
	var off []float64
	dropped, last := 0, -1
	seen := map[int]bool{}
	for _, l := range spied.Lit {
		if seen[l.Note] {
			continue
		}
		seen[l.Note] = true
		if l.Note < last {
			t.Errorf("note %d lights after note %d", l.Note, last)
		}
		last = l.Note
		due := begun + onset[l.Note]
		if early := (due - l.At) * 1000; early > mostEarlyMS {
			t.Errorf("note %d lights %.1f ms before its sound", l.Note, early)
		}
		if !slices.ContainsFunc(spied.Frames, func(at float64) bool { return at > due-0.006 && at < due+0.012 }) {
			dropped++
			continue
		}
		off = append(off, math.Abs(l.At-due)*1000)
	}
	slices.Sort(off)
	if len(off) == 0 {
		t.Logf("no frame was drawn near any of %d notes", dropped)
		return
	}
	t.Logf("%d notes: median %.1f ms, worst %.1f ms; no frame was drawn near %d more", len(off), off[len(off)/2], off[len(off)-1], dropped)
}

// loopsClose plays three notes over and over and holds each time round to begin
// on the very sample on which the one before ends.
func loopsClose(t *testing.T, b browser, home string) {
	p := b.tab(t, 1000, 700)
	if _, err := chromedp.Call(p.ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: spy}); err != nil {
		t.Fatal(err)
	}
	p.open(home + "/?home=A+minor+pentatonic&groups=3&tempo=120&bars=2")
	p.set("count-in", "0")
	p.set("loop-from", "1")
	p.set("loop-to", "3")
	p.do(chromedp.Click(chromedp.CSS("#play")))
	p.until("new Set(window.spied.starts.filter(s => s.loop).map(s => s.when)).size >= 4")
	p.do(chromedp.Click(chromedp.CSS("#play")))
	begins := value[[]float64](p, "[...new Set(window.spied.starts.filter(s => s.loop).map(s => s.when))].sort((a, b) => a - b)")
	const rate, notes = 48000, 3 * 12000 // eighths at 120 last a quarter of a second each
	for i := 1; i < len(begins); i++ {
		if between := (begins[i] - begins[i-1]) * rate; math.Abs(between-notes) > 1e-3 {
			t.Errorf("time %d begins %.4f samples after the one before, want %d", i+1, between, notes)
		}
	}
}

func read(t *testing.T, text string, into any) {
	t.Helper()
	if err := json.Unmarshal([]byte(text), into); err != nil {
		t.Fatalf("%v in %.200s", err, text)
	}
}
