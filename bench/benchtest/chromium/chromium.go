// Package chromium drives a real browser, for the tests of the pages and for the
// command that takes pictures of them.
package chromium

import (
	"context"
	"encoding/base64"
	"errors"
	"fmt"
	"os"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"heddle/bench/benchtest"
)

// Programs are the names that the browser goes by.
var Programs = []string{"chromium", "chromium-browser", "google-chrome"}

// Patience is how long a step may take on a machine with other work to do.
const Patience = 60 * time.Second

// Start starts the program at path with its profile in a folder, without a
// window. Tabs open in the context returned; stop waits until the browser has
// ended.
func Start(ctx context.Context, path, profile string, more ...chromedp.ExecAllocatorOption) (opened context.Context, stop func(), err error) {
	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU, chromedp.UserDataDir(profile),
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-background-networking", true),
		chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true),
		chromedp.Flag("autoplay-policy", "no-user-gesture-required"), chromedp.WSURLReadTimeout(time.Minute))
	allocated, cancel := chromedp.NewExecAllocator(ctx, append(options, more...)...)
	opened, cancelBrowser := chromedp.NewContext(allocated)
	stop = func() { cancelBrowser(); cancel() }
	if err := chromedp.Do(opened); err != nil {
		stop()
		return nil, nil, fmt.Errorf("starting %s: %w", path, err)
	}
	return opened, stop, nil
}

// FakeMicrophone makes the microphone play a WAV file from its beginning each
// time that it is opened.
func FakeMicrophone(file string) []chromedp.ExecAllocatorOption {
	return []chromedp.ExecAllocatorOption{chromedp.Flag("use-fake-device-for-media-stream", true),
		chromedp.Flag("use-fake-ui-for-media-stream", true), chromedp.Flag("use-file-for-fake-audio-capture", file+"%noloop")}
}

// A Tab is one page of the browser.
type Tab struct{ Context context.Context }

// Do runs actions.
func (p Tab) Do(actions ...chromedp.Action[chromedp.Void]) error {
	ctx, cancel := context.WithTimeout(p.Context, Patience)
	defer cancel()
	return chromedp.Do(ctx, actions...)
}

// Value evaluates an expression, or what it promises.
func Value[T any](p Tab, expression string) (T, error) {
	ctx, cancel := context.WithTimeout(p.Context, Patience)
	defer cancel()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	if err != nil {
		err = fmt.Errorf("%s: %w", expression, err)
	}
	return v, err
}

// Until waits for an expression to hold.
func (p Tab) Until(expression string) error {
	_, err := chromedp.Run(p.Context, chromedp.Poll[chromedp.Void](expression, chromedp.WithPollingTimeout(Patience)))
	if err == nil {
		return nil
	}
	state, _ := Value[string](p, "location.href + ' focus ' + (document.activeElement?.id ?? '') + ' says ' + (document.getElementById('say')?.textContent ?? '')")
	return fmt.Errorf("waiting for %s: %w (%s)", expression, err, state)
}

// Open goes to an address and waits until the music is drawn for the room it
// has, to a number of pixels.
func (p Tab) Open(address string, within int) error {
	if err := p.Do(chromedp.Navigate(address), chromedp.WaitReady(chromedp.CSS("html.has-scripts"))); err != nil {
		return err
	}
	return p.Until(fmt.Sprintf("Math.abs(Number(document.getElementById('sheet').dataset.room) - document.getElementById('sheet-holder').clientWidth) <= %d", within))
}

// TakeRoom is how many pixels a take page's music may differ from its room.
const TakeRoom = 40

// Set gives a control a value as a person does and lets the page know.
func (p Tab) Set(id, value string) error {
	return p.Do(chromedp.Evaluate[chromedp.Void](fmt.Sprintf(`{
		const control = document.getElementById(%q);
		control.focus();
		control.value = %q;
		control.dispatchEvent(new Event("input", {bubbles: true}));
		control.dispatchEvent(new Event("change", {bubbles: true}));
	}`, id, value)))
}

// InTime puts a take in the place of the microphone that is played on the
// click's own clock, byS seconds late.
func (p Tab) InTime(take benchtest.Take, byS float64) error {
	return p.Do(chromedp.Evaluate[chromedp.Void](fmt.Sprintf(`{
		let stage = null;
		navigator.mediaDevices.getUserMedia = async () => {
			const context = stage.context;
			await stage.take; // or a slow machine would record silence
			stage.out = new MediaStreamAudioDestinationNode(context, {channelCount: 1});
			return stage.out.stream;
		};
		const Context = window.AudioContext;
		window.AudioContext = class extends Context {
			constructor(...of) { super(...of); stage = {context: this, take: this.decodeAudioData(Uint8Array.fromBase64 ? Uint8Array.fromBase64(%[1]q).buffer : Uint8Array.from(atob(%[1]q), c => c.charCodeAt(0)).buffer)}; stage.take.then(b => stage.buffer = b); }
		};
		const start = AudioBufferSourceNode.prototype.start;
		AudioBufferSourceNode.prototype.start = function (at, ...rest) {
			if (stage?.out && stage.buffer) {
				const source = new AudioBufferSourceNode(stage.context, {buffer: stage.buffer});
				source.connect(stage.out);
				stage.out = null;
				start.call(source, at + Number(document.getElementById("take").dataset.bar) - %[2]g);
			}
			return start.call(this, at, ...rest);
		};
	}`, base64.StdEncoding.EncodeToString(take.WAV()), take.LeadS-byS)))
}

// Choose writes a take to a file, chooses it on a take page and waits until it
// is marked or refused.
func (p Tab) Choose(take benchtest.Take, file string) error {
	if err := os.WriteFile(file, take.WAV(), 0o600); err != nil {
		return err
	}
	return errors.Join(p.Do(chromedp.SetUploadFiles(chromedp.CSS("#recording"), []string{file})),
		p.Until("document.getElementById('say').textContent.startsWith('Marked') || document.querySelector('#report .fault') !== null"),
		p.Until("!document.getElementById('take-record').disabled"))
}

// Colors sets whether the reader likes light or dark pages.
func (p Tab) Colors(scheme string) error {
	_, err := chromedp.Call(p.Context, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}},
	})
	return err
}
