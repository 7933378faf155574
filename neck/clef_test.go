package neck_test

import (
	"testing"

	"heddle/neck"
)

// Common practice: the 8 beneath a clef says that notes sound an octave lower.
func TestClefsAreThoseOfTheTrade(t *testing.T) {
	guitar, bass, plain := neck.Clef{Octave: -1}, neck.Clef{Bass: true, Octave: -1}, neck.Clef{}
	for name, want := range map[string]neck.Clef{
		"guitar": guitar, "seven-string guitar": guitar, "eight-string guitar": guitar,
		"bass": bass, "ukulele": plain, "mandolin": plain,
	} {
		in, err := neck.Named(name)
		if err != nil {
			t.Fatal(err)
		}
		if got := in.Clef(); got != want {
			t.Errorf("%s: %+v, want %+v", name, got, want)
		}
	}
	six, err := neck.ParseTuning("B0 E1 A1 D2 G2 C3", neck.Instrument{})
	if err != nil {
		t.Fatal(err)
	}
	if got := (neck.Instrument{Open: six}).Clef(); got != bass {
		t.Errorf("six-string bass: %+v", got)
	}
	if got := (neck.Instrument{}).Clef(); got != guitar {
		t.Errorf("no strings: %+v", got)
	}
}
