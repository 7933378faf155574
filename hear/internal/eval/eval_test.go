package main

import (
	"fmt"
	"strings"
	"testing"

	"heddle/hear"
	"heddle/hear/internal/accuracy"
	"heddle/hear/internal/performance"
	"heddle/internal/need"
)

// evaluated marks so many takes in each of the settings.
func evaluated(t *testing.T, g performance.Guitar, takes int, settings ...string) *tally {
	t.Helper()
	y := newTally()
	for s, setting := range settings {
		for k := range takes {
			tk, r, err := performance.Draw(100000 + uint64(s)*10000 + uint64(k))
			if err != nil {
				t.Fatal(err)
			}
			file, err := performance.Record(g, tk, setting, false, r)
			if err != nil {
				t.Fatal(err)
			}
			one, err := hearTake(tk, file)
			if err != nil {
				t.Fatalf("%s: %v", tk.Name, err)
			}
			y.add(one)
		}
	}
	return y
}

// check holds a few hundred notes to bounds that are looser than what the
// evaluation finds over many: at least 95 % by the F measure, at most 4 % of right
// notes lost, at least 90 % of wrong notes caught, and a median onset within 10 ms.
func check(t *testing.T, y *tally) {
	t.Helper()
	result := fmt.Sprintf("F %.4f over %d notes, %s of right notes lost, %s of %d wrong notes caught, onsets %.1f ms off",
		y.f(), y.truth, percent(y.lost()), percent(y.caught(hear.Wrong)), y.count(hear.Wrong), y.offMS())
	t.Log(result)
	if y.truth < 100 || y.f() < 0.95 || y.lost() > 0.04 || y.calledRight(hear.Wrong) > 0.1 || y.offMS() > 10 {
		t.Error(result)
	}
}

func TestModelStringsAreMarked(t *testing.T) {
	check(t, evaluated(t, performance.Model{}, 2, "clean", "room", "noise"))
}

func TestRecordedGuitarsAreMarked(t *testing.T) {
	need.Long(t, "renders and marks eight takes of a sound font")
	need.Program(t, "takes of recorded guitars are marked", "fluidsynth")
	check(t, evaluated(t, performance.SoundFont(need.File(t, "takes of recorded guitars are marked", performance.FluidFont)), 2, performance.Settings...))
}

func TestTheElectricGuitarIsMarked(t *testing.T) {
	need.Long(t, "renders and marks six takes of a recorded guitar")
	g, err := performance.ReadGuitar(need.File(t, "its takes are marked (npm ci in hear/testdata/guitars)", performance.ElectricFolder("../..")))
	if err != nil {
		t.Fatal(err)
	}
	check(t, evaluated(t, g, 2, "clean", "room", "noise"))
}

func TestTallyCountsWhatItSays(t *testing.T) {
	one := heardTake{
		Take: performance.Take{
			Played:   []performance.Note{{OnS: 1, Key: 60}, {OnS: 1.2, Key: 66, Index: -1}, {OnS: 1.5, Key: 62, Index: 1}},
			Verdicts: []hear.Verdict{hear.Right, hear.Right, hear.Missed}, Mistakes: []string{"", "late", ""},
		},
		report: &hear.Report{
			Heard: []hear.Heard{{OnsetS: 1, MIDI: 60}, {OnsetS: 1.21, MIDI: 66}, {OnsetS: 1.3, MIDI: 70}, {OnsetS: 1.5, MIDI: 62}},
			Extra: []int{1, 2},
			Marks: []hear.NoteMark{{Verdict: hear.Right}, {Index: 1, Verdict: hear.Right, Heard: 3, TimingMS: 30}, {Index: 2, Verdict: hear.Missed, Heard: -1}},
		},
		blind: []accuracy.Note{{OnsetS: 1, MIDI: 60}},
	}
	y := newTable()
	y.add(one, "one")
	if got, want := y.String(), "| one | 3 | 0.8571 | 0.5000 | 0.0000 | 0.0, +0.0 | 0.0 % of 2 | – of 0 | 100.0 % of 1 | 1, 2, 1 | 0.0 |\n"; !strings.HasSuffix(got, want) {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	for _, want := range []string{
		"| late | 1 | 100.0 % | 100.0 % | 100.0 % |\n",
		"| none | 1 | 100.0 % | 100.0 % | – |\n",
		"| stopped | 1 | 100.0 % | 0.0 % | – |\n",
	} {
		if got := y.tallies["one"].byMistake(); !strings.Contains(got, want) {
			t.Errorf("got %swant the row %s", got, want)
		}
	}
}
