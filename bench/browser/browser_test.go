package browser_test

import (
	"context"
	"fmt"
	"testing"

	"github.com/chromedp/chromedp"

	"heddle/bench"
	"heddle/bench/benchtest"
	"heddle/bench/benchtest/chromium"
	"heddle/internal/need"
)

// A browser is a real one, without a window.
type browser struct {
	ctx context.Context
}

// openBrowser starts Chromium, or skips the test where there is none.
func openBrowser(t *testing.T, more ...chromedp.ExecAllocatorOption) browser {
	t.Helper()
	path := need.Program(t, "nothing is checked in a real browser", chromium.Programs...)
	ctx, stop, err := chromium.Start(t.Context(), path, t.TempDir(), more...)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(stop)
	return browser{ctx}
}

// A check looks at the pages of a server in a browser.
type check struct {
	name string
	run  func(t *testing.T, b browser, home string)
}

// inBrowser runs checks in one browser on one server.
func inBrowser(t *testing.T, checks []check) {
	t.Helper()
	need.Long(t, "a browser works through the pages")
	b := openBrowser(t)
	home := benchtest.Serve(t, bench.Options{})
	for _, c := range checks {
		t.Run(c.name, func(t *testing.T) { c.run(t, b, home) })
	}
}

// A tab is one page of the browser. Errors in its console fail its test.
type tab struct {
	t    *testing.T
	page chromium.Tab
	ctx  context.Context // the page's

	// ignoreComplaints is for pages whose very status the console reports.
	ignoreComplaints bool
}

// tab opens a tab of a size in pixels.
func (b browser) tab(t *testing.T, width, height int64, more ...chromedp.EmulateViewportOption) *tab {
	t.Helper()
	ctx, cancel := chromedp.NewContext(b.ctx)
	t.Cleanup(cancel)
	if err := chromedp.Do(ctx); err != nil {
		t.Fatal(err)
	}
	p := &tab{t: t, page: chromium.Tab{Context: ctx}, ctx: ctx}
	messages := chromedp.Console(ctx)
	read := make(chan struct{})
	var complaints []string
	go func() {
		defer close(read)
		for m, err := range messages {
			if err != nil {
				return
			}
			if m.IsException() || m.Type == "error" || m.Type == "warning" {
				complaints = append(complaints, m.String()+" "+m.URL)
			}
		}
	}()
	t.Cleanup(func() {
		cancel()
		<-read
		if p.ignoreComplaints {
			return
		}
		for _, c := range complaints {
			t.Errorf("the browser complained: %s", c)
		}
	})
	p.do(chromedp.EmulateViewport(width, height, more...))
	return p
}

// must fails the test on an error.
func (p *tab) must(err error) {
	p.t.Helper()
	if err != nil {
		p.t.Fatal(err)
	}
}

// do runs actions or fails the test.
func (p *tab) do(actions ...chromedp.Action[chromedp.Void]) {
	p.t.Helper()
	p.must(p.page.Do(actions...))
}

// open goes to an address and waits until the scripts are there.
func (p *tab) open(address string) {
	p.t.Helper()
	p.must(p.page.Open(address, 0))
}

// value evaluates an expression, or what it promises.
func value[T any](p *tab, expression string) T {
	p.t.Helper()
	v, err := chromium.Value[T](p.page, expression)
	p.must(err)
	return v
}

// until waits for an expression to hold.
func (p *tab) until(expression string) {
	p.t.Helper()
	p.must(p.page.Until(expression))
}

// set gives a control a value as a person does and lets the page know.
func (p *tab) set(id, value string) {
	p.t.Helper()
	p.must(p.page.Set(id, value))
}

// address waits for the address to hold some words.
func (p *tab) address(words ...string) {
	p.t.Helper()
	for _, w := range words {
		p.until(fmt.Sprintf("location.search.includes(%q)", w))
	}
}
