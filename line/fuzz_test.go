package line

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"heddle/pitch"
)

// refuses checks that an error is one line of input error that names its
// field.
func refuses(t *testing.T, field string, err error) {
	t.Helper()
	var input *pitch.InputError
	if !errors.As(err, &input) || input.What != field || input.Want == "" || strings.ContainsAny(err.Error(), "\r\n") {
		t.Errorf("%s is refused with %v", field, err)
	}
}

func FuzzParseValue(f *testing.F) {
	for _, s := range []string{"eighth", "sixteenth triplets", "", "eigth", "1/4"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		v, err := ParseValue(s)
		if err != nil {
			refuses(t, "value", err)
		} else if again, err := ParseValue(string(v)); err != nil || again != v || v.Length() <= 0 {
			t.Errorf("%q is %q, which is %q, %v", s, v, again, err)
		}
	})
}

func FuzzParseMeter(f *testing.F) {
	for _, s := range []string{"4/4", " 7 / 8", "0/4", "4/0", "99999999999999999999/4", "4//4"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		m, err := ParseMeter(s)
		if err != nil {
			refuses(t, "meter", err)
		} else if again, err := ParseMeter(m.String()); err != nil || again != m || m.Bar() <= 0 {
			t.Errorf("%q is %v, which is %v, %v", s, m, again, err)
		}
	})
}

func FuzzParseSwing(f *testing.F) {
	for _, s := range []string{"straight", "swing", "swing 2:1", "swing 58%", "swing 0%", "swing :", "swing 999:999"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		swing, err := ParseSwing(s)
		if err != nil {
			refuses(t, "feel", err)
		} else if again, err := ParseSwing(swing.String()); err != nil || again != swing {
			t.Errorf("%q is %v, which is %v, %v", s, swing, again, err)
		}
	})
}

func FuzzParseDirection(f *testing.F) {
	for _, s := range []string{"down", "up-down", "falling", "dwon"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		d, err := ParseDirection(s)
		if err != nil {
			refuses(t, "direction", err)
		} else if again, err := ParseDirection(string(d)); err != nil || again != d {
			t.Errorf("%q is %q, which is %q, %v", s, d, again, err)
		}
	})
}

func FuzzParseFollow(f *testing.F) {
	for _, s := range []string{"first", "last", "frist"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		follow, err := ParseFollow(s)
		if err != nil {
			refuses(t, "follow", err)
		} else if again, err := ParseFollow(string(follow)); err != nil || again != follow {
			t.Errorf("%q is %q, which is %q, %v", s, follow, again, err)
		}
	})
}

func FuzzParseGroups(f *testing.F) {
	for _, s := range []string{"3,3", "1", "3 2 4", "0", "13", ",,", "-3"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		sizes, err := ParseGroups(s)
		if err != nil {
			refuses(t, "groups", err)
		} else if again, err := ParseGroups(FormatGroups(sizes)); err != nil || !slices.Equal(again, sizes) {
			t.Errorf("%q is %v, which is %v, %v", s, sizes, again, err)
		}
	})
}

func FuzzParseOrder(f *testing.F) {
	f.Add("1 3 2", 3, 3)
	f.Add("1 2/straight", 2, 4)
	f.Add("", 1, 1)
	f.Add("1 2 99", 3, 3)
	f.Fuzz(func(t *testing.T, s string, home, out int) {
		sizes := []int{home, out}
		orders, err := ParseOrder(s, sizes)
		if err != nil {
			refuses(t, "order", err)
		} else if again, err := ParseOrder(FormatOrder(orders), sizes); err != nil || !slices.EqualFunc(again, orders, slices.Equal) {
			t.Errorf("%q is %v, which is %v, %v", s, orders, again, err)
		}
	})
}

func FuzzBuildRefusesWithoutPanic(f *testing.F) {
	f.Add("down", "first", "eighth", 4, 4, 0, 0, 0, 3, 3, 0)
	f.Add("up-down", "last", "quintuplet", -4, 0, -1, 1<<40, -1<<62, 13, 1<<62, 1<<62)
	f.Fuzz(func(t *testing.T, direction, follow, value string, beats, unit, pickup, gap, long, home, out, bars int) {
		r := weave(Direction(direction), Follow(follow), outAndBack(home, out)...)
		r.Rhythm = Rhythm{Value(value), Meter{beats, unit}, Beat(pickup), Swing{long, 1}, Beat(gap)}
		r.Bars = bars
		notes, err := Build(r)
		if (err == nil) != (len(notes) > 0) {
			t.Errorf("%d notes and error %v", len(notes), err)
		}
		var input *pitch.InputError
		if err != nil && !errors.As(err, &input) {
			t.Errorf("error %v", err)
		}
		CycleOf([]int{home, out}, r.Rhythm)
		r.Rhythm.Sounding(Beat(gap))
	})
}
