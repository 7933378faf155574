package main

import (
	"context"
	"errors"
	"slices"

	"github.com/chromedp/chromedp"

	"heddle/bench/benchtest"
	"heddle/bench/benchtest/chromium"
	"heddle/exercise"
)

// A state is a page to be looked at.
type state struct {
	name    string
	width   int64
	scheme  string
	path    string
	drawn   bool                                      // music is drawn for the room it has
	inSight bool                                      // only what is in sight is of interest
	then    func(tab chromium.Tab, file string) error // file is one to write
}

const (
	blues   = "/?home=A+blues&changes=A7+|+D7+|+A7+|+A7+|+D7+|+D7+|+A7+|+A7+|+E7+|+D7+|+A7+|+E7&superimpose=tritone&groups=4,3&value=eighth-triplet&feel=swing+2:1&land=root&names=german&left=true"
	byHeart = "/?home=A+blues&superimpose=tritone&groups=3,2&fret=5&hide=line&neck=whole"
	take    = "/take?" + benchtest.LiveSpec
	long    = "home=A+blues&superimpose=tritone&groups=4%2C3&value=sixteenth&tempo=70&fret=5&land=root" // several systems
	busy    = "home=G+minor+pentatonic&superimpose=semitone+up&groups=3%2C3&fret=10&tempo=120&bars=2&value=sixteenth"
	minutes = "home=G+minor+pentatonic&changes=Gm7+|+C7+|+Gm7+|+D7&superimpose=semitone+up&groups=3%2C3&tempo=60&bars=64"
	kept    = "/takes/20260716-182211"
)

var states = []state{
	{"wide", 1440, "light", "/", true, false, nil},
	{"wide-dark", 1440, "dark", "/", true, false, nil},
	{"narrow", 360, "light", "/", true, false, nil},
	{"narrow-dark", 360, "dark", "/", true, false, nil},
	{"tablet", 820, "light", "/", true, false, nil},
	{"playing", 1440, "light", "/", true, true, playing},
	{"playing-dark", 1440, "dark", "/", true, true, playing},
	{"playing-narrow", 360, "light", "/", true, true, playing},
	{"wrong", 1440, "light", "/", true, true, func(p chromium.Tab, _ string) error {
		return errors.Join(p.Set("word-home", "G minor pentatonik"), p.Until("document.querySelector('.fault') !== null"))
	}},
	{"wrong-link", 1440, "light", "/?home=G+minor+pentatonik&groups=99", false, false, nil},
	{"choose-home", 1366, "light", "/", true, true, choosing("#word-home", "dor")},
	{"choose-over", 1366, "light", "/", true, true, choosing("#word-superimpose", "")},
	{"choose-over-narrow-dark", 390, "dark", "/", true, true, choosing("#word-superimpose", "")},
	{"choose-chord", 1366, "dark", "/", true, true, choosing("#word-chord", "")},
	{"choose-landing", 390, "light", "/", true, true, choosing("#word-land", "")},
	{"more", 1440, "light", "/", true, true, click("#more summary")},
	{"how", 1440, "light", "/", true, true, click("#how summary")},
	{"levels-narrow", 360, "light", "/", true, true, click("#mix summary")},
	{"by-heart", 1440, "light", byHeart, true, false, nil},
	{"changes", 1440, "light", blues, true, false, nil},
	{"plain", 1440, "light", "/?home=D+dorian&groups=4&order=1+3+2+4&land=none", true, false, nil},

	{"take-wide", 1440, "light", take, true, false, nil},
	{"take-narrow", 360, "light", take, true, false, nil},
	{"take-playing", 1440, "light", take, true, false, recording},
	{"take-playing-narrow-dark", 360, "dark", take, true, false, recording},
	{"take-marked", 1440, "light", take, true, false, chosen(benchtest.PlayedFaulty)},
	{"take-marked-dark", 1000, "dark", take, true, false, chosen(benchtest.PlayedFaulty)},
	{"take-marked-narrow", 360, "light", take, true, false, chosen(benchtest.PlayedFaulty)},
	{"take-long", 1280, "light", "/take?" + long, true, false, chosen(played(long, 1))},
	{"take-long-narrow", 360, "light", "/take?" + long, true, false, chosen(played(long, 1))},
	{"take-stumbling", 1280, "light", "/take?" + long, true, false, chosen(stumbling(long))},
	{"take-stumbling-narrow-dark", 360, "dark", take, true, false, chosen(stumbling(benchtest.LiveSpec))},
	{"take-silent", 1280, "light", take, true, false, chosen(silent)},
	{"take-other", 1280, "light", take, true, false, chosen(played("home=C+major&value=quarter&tempo=100&bars=6", 0.5))},
	{"take-busy", 1280, "light", take, true, false, chosen(played(busy, 0.5))},
	{"take-over-and-over", 1280, "light", take, true, false, chosen(overAndOver)},
	{"take-minutes", 1280, "light", "/take?" + minutes, true, false, chosen(played(minutes, 1))},
	{"take-kept", 1280, "light", kept, false, false, nil},
	{"take-kept-narrow-dark", 360, "dark", kept, false, false, nil},
	{"take-kept-list", 1280, "light", "/takes", false, false, nil},
	{"take-kept-list-narrow-dark", 360, "dark", "/takes", false, false, nil},
	{"take-kept-delete", 800, "light", kept + "/delete", false, false, nil},
}

func click(what string) func(chromium.Tab, string) error {
	return func(p chromium.Tab, _ string) error { return p.Do(chromedp.Click(chromedp.CSS(what))) }
}

// choosing opens the chooser of a word and types in it.
func choosing(word, typed string) func(chromium.Tab, string) error {
	return func(p chromium.Tab, _ string) error {
		err := errors.Join(p.Do(chromedp.Click(chromedp.CSS(word))), p.Until("document.querySelectorAll('.offer').length > 1"))
		if typed != "" {
			err = errors.Join(err, p.Do(chromedp.SendKeys(chromedp.CSS(word), typed)), p.Until("document.querySelectorAll('.offer[hidden]').length > 1"))
		}
		return err
	}
}

// playing marks a loop and plays some of it.
func playing(p chromium.Tab, _ string) error {
	return errors.Join(p.Set("loop-from", "4"), p.Set("loop-to", "12"), p.Do(chromedp.Click(chromedp.CSS("#play"))),
		p.Until("Number(document.querySelector('#sheet .lit')?.dataset.note ?? 0) > 5"))
}

// recording records a take until some of its verdicts are there.
func recording(p chromium.Tab, _ string) error {
	take, err := benchtest.PlayedFaulty(p.Context)
	if err != nil {
		return err
	}
	return errors.Join(p.InTime(take, 0.02), p.Set("take-count", "1"), p.Do(chromedp.Click(chromedp.CSS("#take-record"))),
		p.Until("document.querySelectorAll('#sheet .verdict').length > 8"))
}

// chosen marks a take that is chosen as a file.
func chosen(play func(context.Context) (benchtest.Take, error)) func(chromium.Tab, string) error {
	return func(p chromium.Tab, file string) error {
		take, err := play(p.Context)
		if err != nil {
			return err
		}
		return p.Choose(take, file)
	}
}

func played(spec string, leadS float64) func(context.Context) (benchtest.Take, error) {
	return func(ctx context.Context) (benchtest.Take, error) { return benchtest.Played(ctx, spec, leadS, nil) }
}

// stumbling leaves out two notes of five and plays one of seven wrong.
func stumbling(spec string) func(context.Context) (benchtest.Take, error) {
	return func(ctx context.Context) (benchtest.Take, error) {
		p, err := benchtest.Played(ctx, spec, 0.5, func(notes []exercise.Note) {
			for i := 3; i < len(notes); i += 7 {
				notes[i].Fret += 2
			}
		})
		for i := range p.OnsetsS {
			if i%5 == 1 || i%5 == 2 {
				p.Silence(i)
			}
		}
		return p, err
	}
}

func silent(ctx context.Context) (benchtest.Take, error) {
	p, err := played(benchtest.LiveSpec, 0)(ctx)
	p.Samples = make([]float32, 5*p.Rate)
	return p, err
}

// overAndOver plays the line for ten minutes.
func overAndOver(ctx context.Context) (benchtest.Take, error) {
	p, err := played(benchtest.LiveSpec, 0.5)(ctx)
	if err == nil {
		p.Samples = slices.Repeat(p.Samples, int(590*float64(p.Rate))/len(p.Samples))
	}
	return p, err
}
