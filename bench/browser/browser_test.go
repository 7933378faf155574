package browser_test

import (
	"context"
	"fmt"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"heddle/bench"
	"heddle/bench/benchtest"
	"heddle/internal/need"
)

// A browser is a real one, without a window.
type browser struct {
	ctx context.Context
}

// openBrowser starts Chromium, or skips the test where there is none.
func openBrowser(t *testing.T, more ...chromedp.ExecAllocatorOption) browser {
	t.Helper()
	path := need.Program(t, "nothing is checked in a real browser", "chromium", "chromium-browser", "google-chrome")
	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU, chromedp.UserDataDir(t.TempDir()),
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-background-networking", true),
		chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true),
		chromedp.Flag("autoplay-policy", "no-user-gesture-required"), chromedp.WSURLReadTimeout(time.Minute))
	options = append(options, more...)
	allocated, cancel := chromedp.NewExecAllocator(t.Context(), options...)
	t.Cleanup(cancel)
	ctx, cancelBrowser := chromedp.NewContext(allocated)
	t.Cleanup(cancelBrowser)
	if err := chromedp.Do(ctx); err != nil {
		t.Fatalf("starting %s: %v", path, err)
	}
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
	t   *testing.T
	ctx context.Context

	// ignoreComplaints is for pages whose very status the console reports.
	ignoreComplaints bool
}

// patience is how long a step may take on a machine with other work to do.
const patience = 60 * time.Second

// tab opens a tab of a size in pixels.
func (b browser) tab(t *testing.T, width, height int64, more ...chromedp.EmulateViewportOption) *tab {
	t.Helper()
	ctx, cancel := chromedp.NewContext(b.ctx)
	t.Cleanup(cancel)
	if err := chromedp.Do(ctx); err != nil {
		t.Fatal(err)
	}
	p := &tab{t: t, ctx: ctx}
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

// do runs actions or fails the test.
func (p *tab) do(actions ...chromedp.Action[chromedp.Void]) {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	if err := chromedp.Do(ctx, actions...); err != nil {
		p.t.Fatal(err)
	}
}

// open goes to an address and waits until the scripts are there.
func (p *tab) open(address string) {
	p.t.Helper()
	p.do(chromedp.Navigate(address), chromedp.WaitReady(chromedp.CSS("html.has-scripts")))
	p.until("Number(document.getElementById('sheet').dataset.room) === document.getElementById('sheet-holder').clientWidth")
}

// value evaluates an expression, or what it promises.
func value[T any](p *tab, expression string) T {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	if err != nil {
		p.t.Fatalf("%s: %v", expression, err)
	}
	return v
}

// until waits for an expression to hold.
func (p *tab) until(expression string) {
	p.t.Helper()
	if _, err := chromedp.Run(p.ctx, chromedp.Poll[chromedp.Void](expression, chromedp.WithPollingTimeout(patience))); err != nil {
		state := value[string](p, "location.href + ' focus ' + (document.activeElement?.id ?? '') + ' says ' + (document.getElementById('say')?.textContent ?? '')")
		p.t.Fatalf("waiting for %s: %v (%s)", expression, err, state)
	}
}

// set gives a control a value as a person does and lets the page know.
func (p *tab) set(id, value string) {
	p.t.Helper()
	p.do(chromedp.Evaluate[chromedp.Void](fmt.Sprintf(`{
		const control = document.getElementById(%q);
		control.focus();
		control.value = %q;
		control.dispatchEvent(new Event("input", {bubbles: true}));
		control.dispatchEvent(new Event("change", {bubbles: true}));
	}`, id, value)))
}

// address waits for the address to hold some words.
func (p *tab) address(words ...string) {
	p.t.Helper()
	for _, w := range words {
		p.until(fmt.Sprintf("location.search.includes(%q)", w))
	}
}
