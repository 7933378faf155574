package browser_test

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// printsAsHandout prints the page from windows of different widths, and holds
// what is seen on paper to one size.
func printsAsHandout(t *testing.T, b browser, home string) {
	const page = "/?home=A+blues&changes=A7+|+D7+|+A7+|+E7&superimpose=tritone&groups=4,3&value=eighth-triplet&land=root&direction=down-up"
	var first []byte
	for _, width := range []int64{360, 1440, 1920} {
		p := b.tab(t, width, 900)
		p.open(home + page)
		p.set("word-home", "A bluez") // a wrong word must not stand over the last good line
		p.until("document.querySelector('.fault') !== null")
		printed, err := chromedp.Run(p.ctx, chromedp.PrintToPDF())
		if err != nil {
			t.Fatal(err)
		}
		if first == nil {
			first = printed
		}
		if pagesOf(printed) != pagesOf(first) || pagesOf(first) == 0 {
			t.Errorf("from a window of %d pixels there are %d pages, from 360 %d", width, pagesOf(printed), pagesOf(first))
		}
		if left := value[int](p, "document.querySelector('.handout').childElementCount"); left != 0 {
			t.Errorf("%d parts of the print stay on the page", left)
		}
		p.printed()
		p.do(chromedp.Evaluate[chromedp.Void]("dispatchEvent(new Event('beforeprint'))"))
		if seen := value[string](p, `[...document.querySelectorAll("main, header, #transport, .fault, :focus")].filter(e => e.checkVisibility()).map(e => e.tagName + e.id).join(" ")`); seen != "" {
			t.Errorf("seen on paper: %s", seen)
		}
		if text := value[string](p, "document.querySelector('.handout .sentence').textContent"); strings.Contains(text, "bluez") || !strings.Contains(text, "A minor blues") {
			t.Errorf("the print reads %q", text)
		}
		wide := value[[]float64](p, `[...document.querySelectorAll(".handout > svg")].map(e => e.getBoundingClientRect().width / 96 * 25.4)`)
		if len(wide) < 2 {
			t.Fatalf("%d pictures are printed", len(wide))
		}
		for i, mm := range wide {
			// Shown as on paper, the paper is as wide as the window.
			if want := min(180, float64(width)/96*25.4); math.Abs(mm-want) > 0.2 {
				t.Errorf("in a window of %d pixels picture %d is %.1f mm wide, want %.1f", width, i, mm, want)
			}
		}
	}

	p := b.tab(t, 500, 900)
	if _, err := chromedp.Call(p.ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true}); err != nil {
		t.Fatal(err)
	}
	p.do(chromedp.Navigate(home+page), chromedp.WaitReady(chromedp.CSS(".handout img")))
	printed, err := chromedp.Run(p.ctx, chromedp.PrintToPDF())
	if err != nil {
		t.Fatal(err)
	}
	if pagesOf(printed) != pagesOf(first) {
		t.Errorf("without scripts there are %d pages, with them %d", pagesOf(printed), pagesOf(first))
	}
}

// printed shows the page as on paper.
func (p *tab) printed() {
	p.t.Helper()
	if _, err := chromedp.Call(p.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"}); err != nil {
		p.t.Fatal(err)
	}
}

func pagesOf(pdf []byte) int {
	return bytes.Count(pdf, []byte("/Type /Page\n"))
}
