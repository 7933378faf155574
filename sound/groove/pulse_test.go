package groove

import (
	"slices"
	"testing"

	"heddle/line"
)

func TestPulsesFillTheBarOfEveryMetre(t *testing.T) {
	for _, c := range []struct {
		meter line.Meter
		want  []int
	}{
		{line.Meter{Beats: 4, Unit: 4}, []int{4, 4, 4, 4}},
		{line.Meter{Beats: 3, Unit: 4}, []int{4, 4, 4}},
		{line.Meter{Beats: 6, Unit: 8}, []int{6, 6}},
		{line.Meter{Beats: 12, Unit: 8}, []int{6, 6, 6, 6}},
		{line.Meter{Beats: 7, Unit: 8}, []int{4, 4, 6}},
		{line.Meter{Beats: 5, Unit: 8}, []int{4, 6}},
		{line.Meter{Beats: 2, Unit: 2}, []int{4, 4, 4, 4}},
		{line.Meter{Beats: 5, Unit: 4}, []int{4, 4, 4, 4, 4}},
		{line.Meter{Beats: 1, Unit: 8}, []int{4}},
		{line.Meter{Beats: 5, Unit: 16}, []int{4}},
	} {
		var got []int
		for _, p := range Pulses(c.meter) {
			got = append(got, p.Slots)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s has pulses of %v sixteenths, want %v", c.meter, got, c.want)
		}
	}
}

// Every cell of every figure has as many letters as a pulse has sixteenths,
// and only letters that mean something.
func TestCellsAreWellFormed(t *testing.T) {
	n := 0
	for name, f := range map[string]Figure{
		"funk kick": FunkKick, "funk snare": FunkSnare, "funk hat": FunkHat, "funk fill": FunkFill, "funk keys": FunkKeys,
		"funk bass": FunkBass, "funk turn": FunkTurn, "swing ride": SwingRide, "swing hat": SwingHat, "swing kick": SwingKick,
		"swing snare": SwingSnare, "swing fill": SwingFill, "swing keys": SwingKeys, "ballad sweep": BalladSweep,
		"ballad tap": BalladTap, "ballad kick": BalladKick, "ballad hat": BalladHat, "ballad keys": BalladKeys,
		"ballad bass": BalladBass, "ballad turn": BalladTurn,
	} {
		for role, cells := range f {
			four := false
			for _, c := range cells {
				n++
				four = four || len(c) == 4
				if len(c) != 4 && len(c) != 6 {
					t.Errorf("%s: %q has %d letters", name, c, len(c))
				}
				for _, letter := range c {
					if !slices.Contains([]rune(".Xxo13578ad"), letter) {
						t.Errorf("%s: %q has a letter without meaning", name, c)
					}
				}
			}
			if !four {
				t.Errorf("%s has no cell of four for role %d", name, role)
			}
		}
	}
	if n < 100 {
		t.Errorf("only %d cells were looked at", n)
	}
}
