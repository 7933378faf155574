package chart_test

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"heddle/practice"
	"heddle/practice/chart"
	"heddle/score/surface"
)

func progress() *practice.Progress {
	r := &practice.Record{
		Items: []practice.Item{{ID: 1, Title: "Thursday's vamp", Target: 100}},
		Standings: []practice.Standing{
			{Unit: practice.Unit{Item: 1, Key: "G", Fret: 10}, Staircase: practice.Staircase{Fastest: 72}, Runs: 3},
			{Unit: practice.Unit{Item: 1, Key: "A", Fret: 12}},
		},
		Moves: practice.Tally{{Kind: practice.Region, Value: "9-12"}: {Tries: 100, Misses: 10}, {Kind: practice.Spot, Value: "2.10"}: {Tries: 10, Misses: 5}, {Kind: practice.Join, Value: "0-1"}: {Tries: 40, Misses: 20}},
		Days:  []practice.DayTotal{{Day: "2026-11-25", Seconds: 1800, Runs: 3}},
	}
	return practice.ProgressOf(r, nil, nil, time.Date(2026, 11, 26, 12, 0, 0, 0, time.UTC))
}

// What was played is in the picture, and what was never touched is blank.
func TestPicturesShowWhatWasPlayedAlone(t *testing.T) {
	var svg bytes.Buffer
	for _, p := range chart.Pictures(progress()) {
		if p.Question == "" || p.Answer == "" {
			t.Errorf("%s asks %q and answers %q", p.Name, p.Question, p.Answer)
		}
		if p.Name == "keys" {
			if err := surface.WriteSVG(&svg, p.Drawing); err != nil {
				t.Fatal(err)
			}
		}
	}
	if got := strings.Count(svg.String(), ">72<"); got != 1 {
		t.Errorf("the tempo stands in the picture %d times", got)
	}
	for _, p := range chart.Pictures(practice.ProgressOf(&practice.Record{}, nil, nil, time.Now())) {
		if p.Drawing.Height > 0 {
			t.Errorf("%s shows something of nothing", p.Name)
		}
	}
}

func TestTheYearIsOneSheetOfA4(t *testing.T) {
	d := chart.Year(progress(), 2026)
	if d.Width != 210 || d.Height != 297 { // ISO 216
		t.Errorf("%v by %v mm", d.Width, d.Height)
	}
	var pdf bytes.Buffer
	if err := surface.WritePDF(&pdf, []surface.Drawing{d}); err != nil || !bytes.HasPrefix(pdf.Bytes(), []byte("%PDF-")) {
		t.Errorf("%v", err)
	}
}
