package browser_test

import (
	"math"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

func TestThePagesShape(t *testing.T) {
	inBrowser(t, []check{
		{"the page prints as the handout from every window", printsAsHandout},
		{"nothing moves but what a changed word changes", nothingMoves},
		{"the map of places is clicked anywhere in a row", mapClicks},
		{"all of the bar is in reach in little room", barInReach},
		{"without scripts the pictures keep their size and move in their frames", framesWithoutScripts},
		{"the title follows the words", titleFollows},
		{"nothing stands apart that belongs together", standsTogether},
	})
}

// nothingMoves changes a word that leaves the neck as it is, at widths of all
// kinds.
func nothingMoves(t *testing.T, b browser, home string) {
	type place struct{ Neck, Sheet, Scale float64 }
	const where = `(() => {
		const neck = document.querySelector("#neck svg").getBoundingClientRect();
		const drawn = document.querySelector("#system-0 svg");
		return {Neck: neck.height, Sheet: document.getElementById("sheet").getBoundingClientRect().top, Scale: drawn.getBoundingClientRect().width / drawn.viewBox.baseVal.width};
	})()`
	for _, width := range []int64{320, 360, 820, 1199, 1440, 1920, 2560} {
		p := b.tab(t, width, 900)
		p.open(home + "/")
		p.until("Math.abs(document.querySelector('#neck svg').getBoundingClientRect().width - document.getElementById('neck').clientWidth) < 8")
		before := value[place](p, where)
		notes := p.shownNotes()
		p.set("word-follow", "last")
		p.address("follow=last")
		p.until("document.getElementById('sheet').dataset.notes !== '" + notes + "'")
		after := value[place](p, where)
		if math.Abs(after.Neck-before.Neck) > 0.5 || math.Abs(after.Sheet-before.Sheet) > 0.5 || math.Abs(after.Scale-before.Scale) > 0.01 {
			t.Errorf("at %d pixels the first change takes neck, music and their scale from %v to %v", width, before, after)
		}
	}
}

func mapClicks(t *testing.T, b browser, home string) {
	p := b.tab(t, 1440, 900)
	p.open(home + "/")
	const rows = `[...document.querySelectorAll("#map .place")].map(row => { const r = row.getBoundingClientRect(); return {X: r.left + r.width * 0.98, Y: r.top + 4, Away: row.ownerSVGElement.getBoundingClientRect().width - r.width}; })`
	type row struct{ X, Y, Away float64 }
	p.do(chromedp.Evaluate[chromedp.Void]("document.getElementById('map').scrollIntoView({block: 'center'})"))
	list := value[[]row](p, rows)
	if len(list) < 4 {
		t.Fatalf("only %d places", len(list))
	}
	for i, r := range list {
		if r.Away > 1 {
			t.Errorf("row %d is %.0f pixels narrower than the map", i, r.Away)
		}
	}
	third := value[string](p, "document.querySelectorAll('#places a')[2].id")
	p.do(chromedp.MouseClickXY(list[2].X, list[2].Y))
	p.until("document.getElementById('" + third + "').getAttribute('aria-current') === 'true'")
	if marked := value[string](p, `[...document.querySelectorAll("#map .place")].map(row => row.querySelector(".glow") ? "x" : "-").join("")`); !strings.HasPrefix(marked, "--x-") {
		t.Errorf("marked on the map: %s, want the third", marked)
	}
	if hidden := value[float64](p, "document.getElementById('places').scrollHeight - document.getElementById('places').clientHeight"); hidden > 0 {
		t.Errorf("%v pixels of the list of places are cut off", hidden)
	}
}

// barInReach looks for every control of the bar in a narrow window, in one
// enlarged to 200 % and with letters twice as large, and measures the bar.
func barInReach(t *testing.T, b browser, home string) {
	for _, c := range []struct {
		name          string
		width, height int64
		letters       string
		most          float64 // of the window's height, while folded
	}{
		{"a phone", 360, 640, "100%", 0.1},
		{"1280 by 900 pixels at 200 %", 640, 450, "100%", 0.13},
		{"letters of 200 %", 1280, 900, "200%", 0.12},
	} {
		p := b.tab(t, c.width, c.height)
		p.open(home + "/")
		p.do(chromedp.Evaluate[chromedp.Void]("document.documentElement.style.fontSize = '" + c.letters + "'"))
		if part := value[float64](p, "document.getElementById('transport').getBoundingClientRect().height / innerHeight"); part > c.most {
			t.Errorf("%s: the bar takes %.0f %% of the height", c.name, part*100)
		}
		p.do(chromedp.Click(chromedp.CSS("#spare")))
		if lost := value[string](p, `[...document.querySelectorAll("#play, .tempo > *, #loop-from, #loop-to, #vamp, #voice, #how summary, #mix summary, #loop-hint")].filter(e => !e.checkVisibility() || e.getBoundingClientRect().right > innerWidth).map(e => e.id || e.textContent).join(", ")`); lost != "" {
			t.Errorf("%s: out of reach: %s", c.name, lost)
		}
		if open := value[string](p, "document.getElementById('spare').getAttribute('aria-expanded')"); open != "true" {
			t.Errorf("%s: the button says %s", c.name, open)
		}
	}
	p := b.tab(t, 320, 256) // 1280 by 1024 at 400 %
	p.open(home + "/")
	if position := value[string](p, "getComputedStyle(document.getElementById('transport')).position"); position == "fixed" {
		t.Error("on a very low screen the bar stays over the page")
	}
}

func framesWithoutScripts(t *testing.T, b browser, home string) {
	p := b.tab(t, 360, 800)
	if _, err := chromedp.Call(p.ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true}); err != nil {
		t.Fatal(err)
	}
	p.do(chromedp.Navigate(home+"/"), chromedp.WaitVisible(chromedp.CSS("#system-0 svg")))
	type sizes struct{ Scale, Over, Neck, Sheet float64 }
	s := value[sizes](p, `(() => {
		const drawn = document.querySelector("#system-0 svg"), over = e => e.scrollWidth - e.clientWidth;
		return {Scale: drawn.getBoundingClientRect().width / drawn.viewBox.baseVal.width, Over: over(document.scrollingElement),
			Neck: over(document.getElementById("neck")), Sheet: over(document.getElementById("sheet-holder"))};
	})()`)
	const pixelsPerMM = 96 / 25.4
	if math.Abs(s.Scale-pixelsPerMM) > 0.05 || s.Over > 0 || s.Neck <= 0 || s.Sheet <= 0 {
		t.Errorf("%.2f pixels to the mm, the page %v too wide, neck and line to be moved by %v and %v", s.Scale, s.Over, s.Neck, s.Sheet)
	}
}

func titleFollows(t *testing.T, b browser, home string) {
	p := b.tab(t, 1440, 900)
	p.open(home + "/")
	p.set("word-chord", "C7")
	p.until("document.title.startsWith('Over C7, weave') && document.title.endsWith('– heddle')")
	p.do(chromedp.Evaluate[chromedp.Void]("history.back()"))
	p.until("document.title.startsWith('Over Gm7, weave')")
}

// standsTogether looks at cards beside a long line, a number of one digit and
// the row of the ladder.
func standsTogether(t *testing.T, b browser, home string) {
	p := b.tab(t, 1440, 900)
	p.open(home + "/?home=A+minor+pentatonic&superimpose=tritone&fret=5&bars=32&direction=down-up")
	apart := value[[]float64](p, `[...document.querySelectorAll(".card")].map(c => c.getBoundingClientRect()).map((r, i, all) => i ? r.top - all[i - 1].bottom : 0)`)
	if len(apart) != 3 {
		t.Fatalf("%d cards, want 3", len(apart))
	}
	for i, gap := range apart {
		if gap > 40 {
			t.Errorf("card %d stands %.0f pixels below the one before", i, gap)
		}
	}
	if gap := value[float64](p, `(() => { const word = document.getElementById("word-fret"); return word.getBoundingClientRect().width / parseFloat(getComputedStyle(word).fontSize); })()`); gap > 0.95 {
		t.Errorf("a fret of one digit takes %.2f ems", gap)
	}
	p.do(chromedp.Click(chromedp.CSS("#how summary")))
	if tops := value[float64](p, `(() => { const tops = ["to", "step", "every"].map(w => document.getElementById("ladder-" + w).getBoundingClientRect().top); return Math.max(...tops) - Math.min(...tops); })()`); tops > 1 {
		t.Errorf("the ladder's numbers stand %.0f pixels out of line", tops)
	}
}
