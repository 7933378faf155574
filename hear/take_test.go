package hear

import (
	"slices"
	"strings"
	"testing"
)

// A take that is right by itself but far from its click was recorded through a
// delay: it is marked by its own beat, and the report says how far behind it is.
func TestADelayOfTheDeviceIsNotThePlayers(t *testing.T) {
	ex, flawless := markedLine(24)
	clicked := TakeOptions{Clicked: true, ClickS: 0.5}
	r := Mark(shifted(flawless, 0.4), 0, ex, clicked)
	if r.Clicked || r.BehindMS != 400 || r.Summary.Right != 24 || !strings.Contains(r.DelayText(), "400 ms late against the click") {
		t.Errorf("a take 400 ms late: %d right, to the click %v, behind %v ms: %q", r.Summary.Right, r.Clicked, r.BehindMS, r.DelayText())
	}
	if r := Mark(shifted(flawless, 0.03), 0, ex, clicked); !r.Clicked || r.BehindMS != 30 || r.DelayText() != "" {
		t.Errorf("a take 30 ms late: to the click %v, behind %v ms: %q", r.Clicked, r.BehindMS, r.DelayText())
	}
	faster := slices.Clone(flawless)
	for i := range faster {
		faster[i].OnsetS = 0.9 + (faster[i].OnsetS-0.5)/1.2
	}
	if r := Mark(faster, 0, ex, clicked); !r.Clicked || r.Summary.Right == 24 {
		t.Errorf("a take that is faster than the click: %d right, to the click %v", r.Summary.Right, r.Clicked)
	}
	if r := Mark(flawless, 0, ex, TakeOptions{}); r.Clicked || r.BehindMS != 0 {
		t.Errorf("without a click: to the click %v, behind %v ms", r.Clicked, r.BehindMS)
	}
}

func TestAnotherLineIsToldFromABadTake(t *testing.T) {
	ex, flawless := markedLine(24)
	other, bad := slices.Clone(flawless), slices.Clone(flawless)
	for i := range other {
		other[i].MIDI = 45 + float64(5*i%7)
		if i%3 == 1 {
			bad[i].MIDI++
		}
	}
	const asked = "Is this the line that was played"
	for _, opts := range []TakeOptions{{}, {Clicked: true, ClickS: 0.5}} {
		if r := Mark(other, 0, ex, opts); !r.OtherLine() || len(r.Advice) != 1 || !strings.Contains(r.Advice[0], asked) || len(r.Facts()) > 0 {
			t.Errorf("%+v: another line: %q, facts %q", opts, r.Advice, r.Facts())
		}
		if r := Mark(bad, 0, ex, opts); r.OtherLine() || strings.Contains(strings.Join(r.Advice, " "), asked) || len(r.Facts()) < 3 {
			t.Errorf("%+v: a bad take: %q, facts %q", opts, r.Advice, r.Facts())
		}
	}
}

func TestTimingIsSaidInWords(t *testing.T) {
	for ms, want := range map[float64]string{-12: "12 ms early", -1: "on time", 0: "on time", 0.4: "on time", 31.6: "32 ms late"} {
		if got := TimingText(ms); got != want {
			t.Errorf("%v ms: %q, want %q", ms, got, want)
		}
	}
	for x, want := range map[float64]string{-3.6: "−4", 0.4: "0", -0.4: "0", 12: "+12"} {
		if got := Signed(x); got != want {
			t.Errorf("%v: %q, want %q", x, got, want)
		}
	}
}
