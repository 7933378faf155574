package groove

import (
	"slices"
	"strings"
	"testing"

	"heddle/line"
	"heddle/sound/dsp"
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

// grooves are all of them.
var grooves = map[string]Groove{
	"funk": Funk, "sixteenth funk": SixteenthFunk, "half-time": HalfTime, "swing": Swing, "fast swing": FastSwing,
	"slow blues": SlowBlues, "bossa": Bossa, "ballad": Ballad, "straight ballad": StraightBallad,
}

// Every pattern has four cells a bar, of four letters or of three, and only
// letters that mean something.
func TestPatternsAreWellFormed(t *testing.T) {
	n := 0
	check := func(where, cell, letters string) {
		n++
		if len(cell) != 4 && len(cell) != 3 {
			t.Errorf("%s: %q has %d letters", where, cell, len(cell))
		}
		if strings.Trim(cell, letters+".") != "" {
			t.Errorf("%s: %q has a letter without meaning", where, cell)
		}
	}
	for name, g := range grooves {
		voices := map[Pattern]string{}
		for _, limb := range g.Limbs {
			for _, p := range limb.Plays {
				voices[p] = "Xxo"
			}
		}
		for _, p := range g.Keys.Plays {
			voices[p] = "xo"
		}
		for _, p := range g.Bass.Plays {
			voices[p] = "13578ad"
		}
		for p, letters := range voices {
			for bar := range strings.SplitSeq(string(p), "|") {
				cells := strings.Fields(bar)
				if len(cells) != 4 && len(cells) != 0 {
					t.Errorf("%s: %q has %d cells", name, p, len(cells))
				}
				for _, c := range cells {
					check(name, c, letters)
				}
			}
		}
		if k := len(g.Keys.Plays); k < 3 || k > 5 {
			t.Errorf("%s: the keys have %d patterns, want three to five", name, k)
		}
		for _, fill := range g.Fill {
			check(name, fill, "Xxohml")
		}
		for _, fill := range g.BigFill {
			if len(Cells(fill)) != 2 {
				t.Errorf("%s: fill %q has not two cells", name, fill)
			}
			for _, c := range Cells(fill) {
				check(name, c, "Xxohml")
			}
		}
	}
	if n < 300 {
		t.Errorf("only %d cells were looked at", n)
	}
}

// Every groove plays in every metre: each bar has strokes, none past its end.
func TestGroovesPlayInEveryMetre(t *testing.T) {
	for name, g := range grooves {
		for _, m := range []line.Meter{{Beats: 4, Unit: 4}, {Beats: 3, Unit: 4}, {Beats: 5, Unit: 4}, {Beats: 6, Unit: 8}, {Beats: 7, Unit: 8}, {Beats: 12, Unit: 8}, {Beats: 5, Unit: 8}, {Beats: 9, Unit: 8}, {Beats: 7, Unit: 4}, {Beats: 1, Unit: 8}} {
			pulses := Pulses(m)
			free := dsp.Roll(1)
			strokes := 0
			for bar := range 8 {
				for _, limb := range g.Limbs {
					last := line.Beat(-1)
					for _, s := range limb.Plays.Bar(bar, pulses, dsp.Roll(2), &free, limb.Stray) {
						strokes++
						if s.At <= last || s.At >= m.Bar() {
							t.Errorf("%s in %s: a stroke at %v after one at %v", name, m, s.At, last)
						}
						last = s.At
					}
				}
			}
			if strokes < 16 {
				t.Errorf("%s in %s: %d strokes in eight bars", name, m, strokes)
			}
		}
	}
}

// The back beat falls where players have it.
func TestTheSnareAnswersTheKick(t *testing.T) {
	for _, c := range []struct {
		meter line.Meter
		beats []line.Beat // of the strong snare strokes in a bar, in quarters
	}{
		{line.Meter{Beats: 4, Unit: 4}, []line.Beat{1, 3}}, {line.Meter{Beats: 3, Unit: 4}, []line.Beat{1}}, {line.Meter{Beats: 5, Unit: 4}, []line.Beat{1, 3}},
	} {
		free := dsp.Roll(3)
		snare := Funk.Limbs[1].Plays
		var got []line.Beat
		for _, s := range snare[:1].Bar(0, Pulses(c.meter), dsp.Roll(0), &free, 0) {
			if s.Letter == 'X' {
				got = append(got, s.At/line.Quarter)
			}
		}
		if !slices.Equal(got, c.beats) {
			t.Errorf("in %s the snare answers on %v, want %v", c.meter, got, c.beats)
		}
	}
}
