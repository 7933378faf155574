// Look takes pictures of the bench's pages in the states that matter, with a real
// browser, so that a change can be inspected: PNG into a folder, and what is
// printed as PDF.
//
//	go run ./bench/look DIR [STATE…]
package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"time"

	"github.com/chromedp/chromedp"

	"heddle/bench"
	"heddle/bench/benchtest"
	"heddle/bench/benchtest/chromium"
)

func main() {
	if len(os.Args) < 2 {
		fmt.Fprintln(os.Stderr, "usage: go run ./bench/look DIR [STATE…]")
		os.Exit(2)
	}
	ctx, cancel := context.WithCancel(context.Background())
	err := look(ctx, os.Args[1], os.Args[2:])
	cancel()
	if err != nil {
		fmt.Fprintln(os.Stderr, "look:", err)
		os.Exit(1)
	}
}

// look takes the pictures of the states that are named, or of all.
func look(ctx context.Context, dir string, names []string) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	work, err := os.MkdirTemp("", "look-*")
	if err != nil {
		return err
	}
	defer os.RemoveAll(work)
	home, err := serve(ctx, work)
	if err != nil {
		return err
	}
	program := ""
	for _, name := range chromium.Programs {
		if path, err := exec.LookPath(name); err == nil && program == "" {
			program = path
		}
	}
	browser, stop, err := chromium.Start(ctx, program, filepath.Join(work, "profile"), chromium.FakeMicrophone(filepath.Join(work, "microphone.wav"))...)
	if err != nil {
		return err
	}
	defer stop()
	for _, s := range states {
		if len(names) > 0 && !slices.Contains(names, s.name) {
			continue
		}
		if err := s.picture(browser, home, dir, filepath.Join(work, "take.wav")); err != nil {
			return fmt.Errorf("%s: %w", s.name, err)
		}
		fmt.Println(s.name)
	}
	return nil
}

// serve starts a bench that has kept three takes of the workshop's Thursday, and
// returns its address.
func serve(ctx context.Context, data string) (string, error) {
	b, err := bench.New(bench.Options{Data: data, Now: func() time.Time { return benchtest.Thursday }})
	if err != nil {
		return "", err
	}
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return "", err
	}
	go b.Serve(ctx, listener)
	home := "http://" + listener.Addr().String()
	for _, keep := range []struct {
		label string
		play  func(context.Context) (benchtest.Take, error)
	}{
		{"", benchtest.PlayedFaulty}, {"Ann, second try", played(benchtest.LiveSpec, 0.5)},
		{"Thursday’s workshop, before the break, all of us together", stumbling(benchtest.LiveSpec)},
	} {
		take, err := keep.play(ctx)
		if err != nil {
			return "", err
		}
		kind, body := benchtest.Form("take.wav", take.WAV(), [2]string{"label", keep.label})
		answer, err := http.Post(home+"/takes?"+benchtest.LiveSpec+fmt.Sprintf("&first-bar=%g", take.LeadS), kind, body)
		if err != nil {
			return "", err
		}
		if answer.Body.Close(); answer.StatusCode != http.StatusOK {
			return "", fmt.Errorf("keeping a take: %s", answer.Status)
		}
	}
	return home, nil
}

// picture puts a new tab into the state and takes its picture.
func (s state) picture(browser context.Context, home, dir, file string) error {
	ctx, cancel := chromedp.NewContext(browser)
	defer cancel()
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(s.width, 900)); err != nil {
		return err
	}
	tab := chromium.Tab{Context: ctx}
	err := errors.Join(tab.Colors(s.scheme), tab.Do(chromedp.Navigate(home+s.path), chromedp.WaitReady(chromedp.CSS("main"))))
	if err == nil && s.drawn {
		err = tab.Open(home+s.path, chromium.TakeRoom)
	}
	if err == nil && s.then != nil {
		err = s.then(tab, file)
	}
	if err != nil {
		return err
	}
	shot := chromedp.FullScreenshot(100)
	if s.inSight {
		shot = chromedp.CaptureScreenshot()
	}
	picture, err := chromedp.Run(ctx, shot)
	if err != nil {
		return err
	}
	printed, err := chromedp.Run(ctx, chromedp.PrintToPDF())
	return errors.Join(err, os.WriteFile(filepath.Join(dir, s.name+".png"), picture, 0o644), os.WriteFile(filepath.Join(dir, s.name+".pdf"), printed, 0o644))
}
