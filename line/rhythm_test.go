package line

import (
	"testing"

	"pgregory.net/rapid"
)

func TestValuesDivideTheQuarter(t *testing.T) {
	// Common practice: two eighths, three eighth triplets, four sixteenths,
	// five quintuplets, six sixteenth triplets to a quarter.
	for value, to := range map[Value]Beat{QuarterNote: 1, Eighth: 2, EighthTriplet: 3, Sixteenth: 4, Quintuplet: 5, SixteenthTriplet: 6} {
		if got := value.Length() * to; got != Quarter {
			t.Errorf("%d %ss last %d, want %d", to, value, got, Quarter)
		}
	}
	if len(values) != 6 {
		t.Errorf("%d values, want 6", len(values))
	}
	if got := Value("minim").Length(); got != 0 {
		t.Errorf("an unknown value lasts %d, want 0", got)
	}
}

func TestParsersReadWhatPlayersType(t *testing.T) {
	for _, c := range []struct{ typed, want string }{
		{"eighth", "eighth"}, {"Eighths", "eighth"}, {" sixteenth  triplets ", "sixteenth-triplet"}, {"1/16", "sixteenth"},
		{"triplets", "eighth-triplet"}, {"quintuplets", "quintuplet"}, {"quarter", "quarter"},
	} {
		if got, err := ParseValue(c.typed); err != nil || string(got) != c.want {
			t.Errorf("value %q: %q, %v; want %q", c.typed, got, err, c.want)
		}
	}
	for _, c := range []struct {
		typed string
		want  Meter
	}{{"4/4", Meter{4, 4}}, {" 7 / 8 ", Meter{7, 8}}, {"12/8", Meter{12, 8}}, {"2/2", Meter{2, 2}}, {"32/16", Meter{32, 16}}} {
		if got, err := ParseMeter(c.typed); err != nil || got != c.want {
			t.Errorf("meter %q: %v, %v; want %v", c.typed, got, err, c.want)
		}
	}
	for _, c := range []struct{ typed, want string }{
		{"straight", "straight"}, {"swing", "swing 2:1"}, {"Swing 3:2", "swing 3:2"}, {"swing 4:2", "swing 2:1"}, {"swing 1:1", "straight"},
		{"swing 58%", "swing 29:21"}, {"swing 75%", "swing 3:1"}, {"swing 50%", "straight"}, {"swing2:1", "swing 2:1"},
	} {
		if got, err := ParseSwing(c.typed); err != nil || got.String() != c.want {
			t.Errorf("feel %q: %v, %v; want %s", c.typed, got, err, c.want)
		}
	}
	for _, c := range []struct {
		typed string
		want  Direction
	}{{"down", Down}, {"UP", Up}, {"down-up", DownUp}, {"up-down", UpDown}, {"falling", Down}, {"rising", Up}} {
		if got, err := ParseDirection(c.typed); err != nil || got != c.want {
			t.Errorf("direction %q: %v, %v; want %v", c.typed, got, err, c.want)
		}
	}
	for _, c := range []struct {
		typed string
		want  Follow
	}{{"first", FollowFirst}, {"Last", FollowLast}} {
		if got, err := ParseFollow(c.typed); err != nil || got != c.want {
			t.Errorf("follow %q: %v, %v; want %v", c.typed, got, err, c.want)
		}
	}
}

func TestParsersRefuseInOneLine(t *testing.T) {
	for _, c := range []struct {
		err  func() error
		want string
	}{
		{func() error { _, err := ParseValue("eigth"); return err }, `value "eigth": want quarter, eighth, eighth-triplet, sixteenth, quintuplet or sixteenth-triplet; did you mean "eighth"?`},
		{func() error { _, err := ParseValue(""); return err }, `value "": want quarter, eighth, eighth-triplet, sixteenth, quintuplet or sixteenth-triplet`},
		{func() error { _, err := ParseMeter("4/5"); return err }, `meter "4/5": want 1 to 32 beats over 2, 4, 8 or 16, such as 4/4`},
		{func() error { _, err := ParseMeter("-4/4"); return err }, `meter "-4/4": want 1 to 32 beats over 2, 4, 8 or 16, such as 4/4`},
		{func() error { _, err := ParseSwing("strait"); return err }, `feel "strait": want straight, or swing with a ratio from 1:1 to 4:1, such as swing 2:1, swing 3:2 or swing 58%; did you mean "straight"?`},
		{func() error { _, err := ParseSwing("swing 5:1"); return err }, `feel "swing 5:1": want straight, or swing with a ratio from 1:1 to 4:1, such as swing 2:1, swing 3:2 or swing 58%`},
		{func() error { _, err := ParseSwing("swing 0:0"); return err }, `feel "swing 0:0": want straight, or swing with a ratio from 1:1 to 4:1, such as swing 2:1, swing 3:2 or swing 58%`},
		{func() error { _, err := ParseDirection("donw"); return err }, `direction "donw": want down, up, down-up or up-down; did you mean "down"?`},
		{func() error { _, err := ParseFollow("lats"); return err }, `follow "lats": want first or last; did you mean "last"?`},
		{func() error { _, err := ParseGroups("3,13"); return err }, `groups "3,13": want 1 to 12 notes for each scale, such as 3,3, or run`},
		{func() error { _, err := ParseGroups("0"); return err }, `groups "0": want 1 to 12 notes for each scale, such as 3,3, or run`},
		{func() error { _, err := ParseOrder("1 3", []int{3, 3}); return err }, `order "1 3": want straight, or 3 steps for a group of 3 notes, each from 1 to 24`},
		{func() error { _, err := ParseOrder("1 2 0", []int{3}); return err }, `order "1 2 0": want straight, or 3 steps for a group of 3 notes, each from 1 to 24`},
		{func() error { _, err := ParseOrder("1 2/1 2/2 1", []int{2, 2}); return err }, `order "1 2/1 2/2 1": want one order for all, or 2 with / between them, one for each scale`},
		{func() error { _, err := ParseOrder("stright", []int{2}); return err }, `order "stright": want straight, or 2 steps for a group of 2 notes, each from 1 to 24; did you mean "straight"?`},
	} {
		if err := c.err(); err == nil || err.Error() != c.want {
			t.Errorf("got  %v\nwant %s", err, c.want)
		}
	}
}

func TestOrdersAreOneForAllOrOneForEach(t *testing.T) {
	for _, c := range []struct {
		typed string
		sizes []int
		want  string
	}{
		{"straight", []int{3, 2}, "straight"},
		{"1 2 3", []int{3, 3}, "straight"},
		{"1,3,2", []int{3, 3}, "1 3 2"},
		{"1 3 2 / 2 1", []int{3, 2}, "1 3 2/2 1"},
		{"1 2 3/3 2 1", []int{3, 3}, "straight/3 2 1"},
		{"1 3 2/1 3 2", []int{3, 3}, "1 3 2"},
		{"Straight/1 2 1 3", []int{3, 4}, "straight/1 2 1 3"},
	} {
		orders, err := ParseOrder(c.typed, c.sizes)
		if got := FormatOrder(orders); err != nil || got != c.want || len(orders) != len(c.sizes) {
			t.Errorf("%q: %q, %v; want %q", c.typed, got, err, c.want)
		}
	}
}

func TestSwingMovesTheOffBeat(t *testing.T) {
	threeHalf := Meter{7, 8} // three quarters and an eighth without a partner
	for _, c := range []struct {
		name          string
		Rhythm        Rhythm
		written, want Beat
	}{
		{"2:1 puts the off-beat on the third triplet", Rhythm{Eighth, CommonTime, 0, Swing{2, 1}, 0}, 480, 640},
		{"3:2 is milder", Rhythm{Eighth, CommonTime, 0, Swing{3, 2}, 0}, 480, 576},
		{"3:1 is the dotted eighth", Rhythm{Eighth, CommonTime, 0, Swing{3, 1}, 0}, 1440, 1680},
		{"the beat stays", Rhythm{Eighth, CommonTime, 0, Swing{2, 1}, 0}, 2880, 2880},
		{"a pickup swings as its bar would", Rhythm{Eighth, CommonTime, 480, Swing{2, 1}, 0}, -480, -320},
		{"sixteenths swing as the eighths they divide", Rhythm{Sixteenth, CommonTime, 0, Swing{2, 1}, 0}, 240, 320},
		{"and in the short half", Rhythm{Sixteenth, CommonTime, 0, Swing{2, 1}, 0}, 720, 800},
		{"triplets stay", Rhythm{EighthTriplet, CommonTime, 0, Swing{2, 1}, 0}, 320, 320},
		{"quintuplets stay", Rhythm{Quintuplet, CommonTime, 0, Swing{2, 1}, 0}, 576, 576},
		{"straight stays", Rhythm{Eighth, CommonTime, 0, Swing{}, 0}, 480, 480},
		{"in seven eight the pairs start at the bar line", Rhythm{Eighth, threeHalf, 0, Swing{2, 1}, 0}, 3360 + 480, 3360 + 640},
		{"and the last eighth has no partner", Rhythm{Sixteenth, threeHalf, 0, Swing{2, 1}, 0}, 3120, 3120},
	} {
		if got := c.Rhythm.Sounding(c.written); got != c.want {
			t.Errorf("%s: %d sounds at %d, want %d", c.name, c.written, got, c.want)
		}
	}
}

func TestSwingKeepsOrderAndBarLines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRhythm(t)
		r.Value = Sixteenth
		b := Beat(rapid.IntRange(-4000, 40000).Draw(t, "beat"))
		if later := b + 1; r.Sounding(later) < r.Sounding(b) {
			t.Fatalf("%v: %d sounds at %d, and %d earlier, at %d", r, b, r.Sounding(b), later, r.Sounding(later))
		}
		line := FloorDiv(b, r.Meter.Bar()) * r.Meter.Bar()
		if r.Sounding(line) != line {
			t.Fatalf("%v: the bar line at %d moved to %d", r, line, r.Sounding(line))
		}
	})
}

func TestCycle(t *testing.T) {
	for _, c := range []struct {
		name   string
		sizes  []int
		Rhythm Rhythm
		want   Cycle
	}{
		{"threes in eighths in four four (architecture, JSON example)", []int{3, 3}, eighths, Cycle{24, 3}},
		{"fours in eighths", []int{4, 4}, eighths, Cycle{8, 1}},
		{"one scale in threes in three four", []int{3}, Rhythm{Value: Eighth, Meter: Meter{3, 4}}, Cycle{6, 1}},
		{"three and two: the round of five", []int{3, 2}, eighths, Cycle{40, 5}},
		{"threes in sixteenths in seven eight", []int{3, 3}, Rhythm{Value: Sixteenth, Meter: Meter{7, 8}}, Cycle{42, 3}},
		{"fours in triplets", []int{4, 4}, Rhythm{Value: EighthTriplet, Meter: CommonTime}, Cycle{12, 1}},
		{"threes and an eighth of rest fill half a bar", []int{3, 3}, Rhythm{Value: Eighth, Meter: CommonTime, Gap: 480}, Cycle{6, 1}},
		{"two and one, each with a quarter of rest", []int{2, 1}, Rhythm{Value: Eighth, Meter: CommonTime, Gap: 960}, Cycle{24, 7}},
		{"fours in quintuplets", []int{4}, Rhythm{Value: Quintuplet, Meter: CommonTime}, Cycle{20, 1}},
		{"no groups", nil, eighths, Cycle{}},
		{"no rhythm", []int{3}, Rhythm{}, Cycle{}},
	} {
		if got := CycleOf(c.sizes, c.Rhythm); got != c.want {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

func TestCycleIsTheFirstMeetingOfGroupAndBarLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sizes := rapid.SliceOfN(rapid.IntRange(1, MostInGroup), 1, 4).Draw(t, "sizes")
		r := drawRhythm(t)
		r.Gap = Beat(rapid.IntRange(0, 40).Draw(t, "gap")) * 120
		// Count rounds (groups, where all are equal) until one ends on a bar
		// line.
		round := sizes
		if allEqual(sizes) {
			round = sizes[:1]
		}
		var time Beat
		notes := 0
		for {
			for _, size := range round {
				time += Beat(size)*r.Value.Length() + r.Gap
				notes += size
			}
			if time%r.Meter.Bar() == 0 {
				break
			}
		}
		if got, want := CycleOf(sizes, r), (Cycle{notes, int(time / r.Meter.Bar())}); got != want {
			t.Fatalf("%v in %v: %v, want %v by counting", sizes, r, got, want)
		}
	})
}

func allEqual(ns []int) bool {
	for _, n := range ns {
		if n != ns[0] {
			return false
		}
	}
	return true
}

// drawRhythm draws a rhythm that can be played.
func drawRhythm(t *rapid.T) Rhythm {
	r := Rhythm{
		Value: rapid.SampledFrom(values).Draw(t, "value").value,
		Meter: Meter{rapid.IntRange(1, 13).Draw(t, "beats"), rapid.SampledFrom([]int{2, 4, 8, 16}).Draw(t, "unit")},
		Gap:   Beat(rapid.IntRange(0, 4).Draw(t, "gap")) * 240,
	}
	r.Pickup = Beat(rapid.IntRange(0, int(r.Meter.Bar())-1).Draw(t, "pickup"))
	if !r.Meter.Compound() {
		r.Swing = rapid.SampledFrom([]Swing{{}, {1, 1}, {2, 1}, {3, 2}, {29, 21}, {4, 1}}).Draw(t, "swing")
	}
	return r
}
