package browser_test

import (
	"heddle/bench"
	"heddle/bench/benchtest"
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// colors sets whether the reader likes light or dark pages.
func (p *tab) colors(scheme string) {
	p.t.Helper()
	_, err := chromedp.Call(p.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}},
	})
	if err != nil {
		p.t.Fatal(err)
	}
}

// TestLook takes pictures of the pages in the states that matter, to the
// folder that LOOK names, to be looked at.
func TestLook(t *testing.T) {
	dir := os.Getenv("LOOK")
	if dir == "" {
		t.Skip("LOOK names no folder to take pictures into")
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	b, home := openBrowser(t), benchtest.Serve(t, bench.Options{})
	states := []struct {
		name   string
		width  int64
		scheme string
		query  string
		then   func(*tab)
	}{
		{"wide", 1440, "light", "", nil},
		{"wide-dark", 1440, "dark", "", nil},
		{"narrow", 360, "light", "", nil},
		{"narrow-dark", 360, "dark", "", nil},
		{"tablet", 820, "light", "", nil},
		{"playing", 1440, "light", "", playing},
		{"playing-dark", 1440, "dark", "", playing},
		{"playing-narrow", 360, "light", "", playing},
		{"wrong", 1440, "light", "", func(p *tab) {
			p.set("word-home", "G minor pentatonik")
			p.until("document.querySelector('.fault') !== null")
		}},
		{"wrong-link", 1440, "light", "?home=G+minor+pentatonik&groups=99", nil},
		{"more", 1440, "light", "", func(p *tab) { p.do(chromedp.Click(chromedp.CSS("#more summary"))) }},
		{"how", 1440, "light", "", func(p *tab) { p.do(chromedp.Click(chromedp.CSS("#how summary"))) }},
		{"levels-narrow", 360, "light", "", func(p *tab) { p.do(chromedp.Click(chromedp.CSS("#mix summary"))) }},
		{"by-heart", 1440, "light", "?home=A+blues&superimpose=tritone&groups=3,2&fret=5&hide=line&neck=whole", nil},
		{"changes", 1440, "light", "?home=A+blues&changes=A7+|+D7+|+A7+|+A7+|+D7+|+D7+|+A7+|+A7+|+E7+|+D7+|+A7+|+E7&superimpose=tritone&groups=4,3&value=eighth-triplet&feel=swing+2:1&land=root&names=german&left=true", nil},
		{"print", 1100, "light", "", nil},
		{"plain", 1440, "light", "?home=D+dorian&groups=4&order=1+3+2+4&land=none", nil},
	}
	only := os.Getenv("LOOK_ONLY")
	for _, s := range states {
		if only != "" && only != s.name {
			continue
		}
		t.Run(s.name, func(t *testing.T) {
			p := b.tab(t, s.width, 900)
			p.colors(s.scheme)
			if s.name == "wrong-link" {
				p.ignoreComplaints = true
				p.do(chromedp.Navigate(home + "/" + s.query))
			} else {
				p.open(home + "/" + s.query)
			}
			if s.then != nil {
				s.then(p)
			}
			if s.name == "print" {
				printed, err := chromedp.Run(p.ctx, chromedp.PrintToPDF())
				if err == nil {
					err = os.WriteFile(filepath.Join(dir, "print.pdf"), printed, 0o644)
				}
				if err != nil {
					t.Fatal(err)
				}
				return
			}
			shot := chromedp.CaptureScreenshot()
			if s.then == nil {
				shot = chromedp.FullScreenshot(100)
			}
			picture, err := chromedp.Run(p.ctx, shot)
			if err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(filepath.Join(dir, s.name+".png"), picture, 0o644); err != nil {
				t.Fatal(err)
			}
		})
	}
}

// playing marks a loop and plays some of it.
func playing(p *tab) {
	p.set("loop-from", "4")
	p.set("loop-to", "12")
	p.do(chromedp.Click(chromedp.CSS("#play")))
	p.until("Number(document.querySelector('#sheet .lit')?.dataset.note ?? 0) > 5")
}
