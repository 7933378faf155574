package neck

import (
	"math/bits"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"heddle/pitch"
)

// anyScale draws a scale of 3 to 12 notes on any root, in rising order.
func anyScale(t *rapid.T) pitch.Scale {
	classes := rapid.SliceOfNDistinct(rapid.IntRange(1, 11), 2, 11, rapid.ID[int]).Draw(t, "above the root")
	set := uint(1)
	for _, c := range classes {
		set |= 1 << c
	}
	return scaleOf(rapid.IntRange(0, 11).Draw(t, "root"), set)
}

// scaleOf spells the pitch classes of the set, counted from the root, one bit
// each, with sharps.
func scaleOf(root int, set uint) pitch.Scale {
	chromatic := [12]pitch.Degree{{Number: 1}, {Number: 1, Alter: 1}, {Number: 2}, {Number: 2, Alter: 1}, {Number: 3}, {Number: 4},
		{Number: 4, Alter: 1}, {Number: 5}, {Number: 5, Alter: 1}, {Number: 6}, {Number: 6, Alter: 1}, {Number: 7}}
	kind := pitch.Type{Name: "scale"}
	for class, d := range chromatic {
		if set>>class&1 == 1 {
			kind.Degrees = append(kind.Degrees, d)
		}
	}
	return pitch.NewScale(chromatic[root].Above(pitch.Name{Letter: pitch.C}), kind)
}

// anyInstrument draws an instrument of the trade or one tuned at random,
// with or without a capo.
func anyInstrument(t *rapid.T) Instrument {
	in, err := Named(rapid.SampledFrom(Instruments()).Draw(t, "instrument"))
	if err != nil {
		t.Fatal(err)
	}
	if rapid.Bool().Draw(t, "own tuning") {
		key := rapid.IntRange(28, 55).Draw(t, "lowest")
		in.Open = nil
		for range rapid.IntRange(1, 6).Draw(t, "strings") {
			in.Open = append(in.Open, pitch.Named(scaleOf(key%12, 1).Root, key))
			key += rapid.IntRange(-3, 7).Draw(t, "up to the next")
		}
		slices.Reverse(in.Open)
		in.Name = "own"
	}
	in.Capo = rapid.IntRange(0, 4).Draw(t, "capo")
	return in
}

// has reports whether a key is a tone of the scale.
func has(s pitch.Scale, key int) bool {
	return slices.ContainsFunc(s.Notes, func(n pitch.Name) bool { return n.Class() == key%12 })
}

// next returns the scale tone above a key.
func next(s pitch.Scale, key int) int {
	for key++; !has(s, key); key++ {
	}
	return key
}

func TestLawsOfPlacements(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in, s := anyInstrument(t), anyScale(t)
		low := Window{Low: -1}
		all := Placements(in, s)
		narrow := anyShare
		if len(s.Notes) == 7 && inFourths(in) && slices.ContainsFunc(all, func(p Placement) bool { return evenShare(in, p) }) {
			narrow = twoOrThree
		}
		for _, p := range all {
			if p.Window.Low < low.Low {
				t.Errorf("window %v stands after %v", p.Window, low)
			}
			low = p.Window
			checkRun(t, in, p)
			checkWindow(t, in, p)
			checkSystem(t, in, p, narrow)
		}
	})
}

// checkRun holds that a placement is a run of consecutive tones, in the order of
// the strings' pitch, over all strings that rise.
func checkRun(t *rapid.T, in Instrument, p Placement) {
	used := map[int]bool{}
	for i, place := range p.Places {
		used[place.String] = true
		key := in.MIDI(place.Spot)
		if place.Pitch.MIDI() != key || !slices.Contains(p.Scale.Notes, place.Pitch.Name) {
			t.Errorf("%v sounds %d and is called %v", place.Spot, key, place.Pitch)
		}
		if i == 0 {
			continue
		}
		before := p.Places[i-1]
		if want := next(p.Scale, in.MIDI(before.Spot)); key != want {
			t.Errorf("after %v comes key %d, want %d", before, key, want)
		}
		if in.Open[place.String-1].MIDI() < in.Open[before.String-1].MIDI() {
			t.Errorf("%v stands after %v on a higher string", place, before)
		}
		if place.String != before.String && slices.ContainsFunc(p.Places[:i], func(q Place) bool { return q.String == place.String }) {
			t.Errorf("string %d is left and taken again", place.String)
		}
	}
	crossed := crossed(in)
	if len(used) != len(crossed) {
		t.Errorf("%d strings are used, want %v", len(used), crossed)
	}
	for _, number := range crossed {
		if !used[number] {
			t.Errorf("string %d is not crossed", number)
		}
	}
	checkDoubled(t, in, p, crossed)
}

// crossed finds the strings of a run by trying every choice of strings: the most
// that rise in pitch one after another, in either direction, and of those the ones
// farthest apart.
func crossed(in Instrument) (best []int) {
	span, direction := 0, -1
	for _, step := range []int{-1, 1} {
		for set := uint(1); set < 1<<in.Strings(); set++ {
			var list []int
			for i := range in.Strings() {
				number := i + 1
				if step < 0 {
					number = in.Strings() - i
				}
				if set>>i&1 == 1 {
					list = append(list, number)
				}
			}
			key := func(at int) int { return in.MIDI(Spot{String: list[at]}) }
			rises := true
			for i := 1; i < len(list); i++ {
				rises = rises && key(i) > key(i-1)
			}
			wide := key(len(list)-1) - key(0)
			if rises && (len(list) > len(best) || len(list) == len(best) && step == direction && wide > span) {
				best, span, direction = list, wide, step
			}
		}
	}
	return best
}

// checkDoubled holds that the other strings have every note of the run that lies
// in the window on them, and nothing else.
func checkDoubled(t *rapid.T, in Instrument, p Placement, crossed []int) {
	want := 0
	for number := 1; number <= in.Strings(); number++ {
		for fret := p.Window.Low; fret <= p.Window.High && !slices.Contains(crossed, number); fret++ {
			spot := Spot{number, fret}
			if at, found := p.At(in.MIDI(spot)); found {
				want++
				if !slices.Contains(p.Doubled, Place{spot, at.Pitch}) {
					t.Errorf("%v is not doubled at %v", at, spot)
				}
			}
		}
	}
	if len(p.Doubled) != want {
		t.Errorf("%d places double the run, want %d: %v", len(p.Doubled), want, p.Doubled)
	}
}

// checkWindow holds that the window is on the neck and just holds the run.
func checkWindow(t *rapid.T, in Instrument, p Placement) {
	frets := make([]int, len(p.Places))
	for i, place := range p.Places {
		frets[i] = place.Fret
	}
	if want := (Window{slices.Min(frets), slices.Max(frets)}); p.Window != want {
		t.Errorf("window %v, frets %v", p.Window, want)
	}
	if p.Window.Low < 0 || p.Window.High > in.LastFret() {
		t.Errorf("window %v is off the neck", p.Window)
	}
	if first := p.FirstFinger(); first < p.Window.Low || first > p.Window.High || first == 0 && p.Window.High > 0 {
		t.Errorf("first finger at %d in %v", first, p.Window)
	}
}

// checkSystem holds that the notes on each string are as many as the system
// says (narrow for a narrowest hand), and that a narrowest hand is as narrow
// and as easy as can be.
func checkSystem(t *rapid.T, in Instrument, p Placement, narrow share) {
	each := map[string]share{twoPerString: {2, 2}, threePerString: {3, 3}, positional: narrow}[p.System]
	for _, number := range crossed(in) {
		if n := notesOn(p, number); n < each.least || n > each.most {
			t.Errorf("%s: %d notes on string %d", p.System, n, number)
		}
	}
	if p.System != positional || len(crossed(in)) == 1 {
		return
	}
	width, outside := tryEverything(in, p.Scale, p.Places[0].Spot, each)
	if got := p.Window.High - p.Window.Low; got != width {
		t.Errorf("%s lies in %d frets, but %d are enough", fretsOf(p), got, width)
	}
	if got := notesOutside(p.Places); got != outside {
		t.Errorf("%s stretches for %d notes, but %d are enough", fretsOf(p), got, outside)
	}
}

func notesOn(p Placement, number int) (n int) {
	for _, place := range p.Places {
		if place.String == number {
			n++
		}
	}
	return n
}

// evenShare reports whether every string has two or three notes.
func evenShare(in Instrument, p Placement) bool {
	for _, number := range crossed(in) {
		if n := notesOn(p, number); n < 2 || n > 3 {
			return false
		}
	}
	return true
}

func inFourths(in Instrument) bool {
	strings := crossed(in)
	for i := range strings[1:] {
		if apart := in.Open[strings[i+1]-1].MIDI() - in.Open[strings[i]-1].MIDI(); apart != 4 && apart != 5 {
			return false
		}
	}
	return true
}

// notesOutside counts the stopped notes outside the four neighbouring frets
// that hold the most.
func notesOutside(places []Place) int {
	least := len(places)
	for base := range maxFrets {
		n := 0
		for _, place := range places {
			if place.Fret > 0 && (place.Fret < base || place.Fret > base+3) {
				n++
			}
		}
		least = min(least, n)
	}
	return least
}

// tryEverything finds the narrowest window for a run from the spot, and the
// fewest notes outside four frets in any window as narrow, by trying every
// window and every way to share the tones among the strings.
func tryEverything(in Instrument, s pitch.Scale, from Spot, each share) (width, outside int) {
	below := -1
	for fret := range from.Fret {
		if has(s, in.MIDI(Spot{from.String, fret})) {
			below = fret
		}
	}
	order := crossed(in)
	for width = 0; width <= in.LastFret(); width++ {
		outside = -1
		for low := below + 1; low <= from.Fret && low+width <= in.LastFret(); low++ {
			if low+width < from.Fret {
				continue
			}
			eachRun(in, s, order, Window{low, low + width}, each, in.MIDI(from), nil, func(run []Place) {
				if n := notesOutside(run); outside < 0 || n < outside {
					outside = n
				}
			})
		}
		if outside >= 0 {
			return width, outside
		}
	}
	return -1, -1
}

// eachRun calls do with every run in the window from the key over the strings
// in that order, the last of which takes all it can.
func eachRun(in Instrument, s pitch.Scale, order []int, w Window, each share, key int, run []Place, do func([]Place)) {
	number := order[0]
	run = slices.Clip(run)
	for n := 1; n <= each.most; n++ {
		fret := key - in.MIDI(Spot{String: number})
		if fret < w.Low || fret > w.High {
			return
		}
		run = append(run, Place{Spot: Spot{number, fret}})
		key = next(s, key)
		fret = key - in.MIDI(Spot{String: number})
		full := n == each.most || fret < w.Low || fret > w.High
		switch {
		case n < each.least:
		case len(order) > 1:
			eachRun(in, s, order[1:], w, each, key, run, do)
		case full:
			do(run)
		}
	}
}

func TestPlacementsRepeatTwelveFretsHigher(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in, s := anyInstrument(t), anyScale(t)
		if len(crossed(in)) == 1 {
			return // there the hand wants room beyond the run
		}
		all := Placements(in, s)
		for _, p := range all {
			bottom := p.Places[0]
			toneBelow := false
			for fret := range bottom.Fret {
				toneBelow = toneBelow || has(s, in.MIDI(Spot{bottom.String, fret}))
			}
			if !toneBelow || p.Window.Low == 0 || p.Window.High+12 > in.LastFret() {
				continue // the nut or the body gives the lower or the higher one another shape
			}
			again := slices.ContainsFunc(all, func(q Placement) bool {
				return q.System == p.System && slices.EqualFunc(p.Places, q.Places, func(a, b Place) bool {
					return a.String == b.String && a.Fret+12 == b.Fret
				})
			})
			if !again {
				t.Errorf("%s does not repeat at the twelfth fret", fretsOf(p))
			}
		}
	})
}

func TestACapoIsATuningRaised(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in, s := anyInstrument(t), anyScale(t)
		raised := in
		raised.Open = nil
		for _, p := range in.Open {
			key := p.MIDI() + in.Capo
			raised.Open = append(raised.Open, pitch.Named(scaleOf(key%12, 1).Root, key))
		}
		raised.Capo, raised.Frets = 0, in.Frets-in.Capo
		with, without := Placements(in, s), Placements(raised, s)
		if len(with) != len(without) {
			t.Fatalf("%d placements with a capo, %d without", len(with), len(without))
		}
		for i := range with {
			if fretsOf(with[i]) != fretsOf(without[i]) || with[i].System != without[i].System {
				t.Errorf("%s with a capo, %s without", fretsOf(with[i]), fretsOf(without[i]))
			}
		}
	})
}

// Every set of 3 to 12 pitch classes has a placement on every instrument.
func TestEveryScaleCanBePlacedOnEveryInstrument(t *testing.T) {
	tried := 0
	for _, name := range Instruments() {
		in := instrument(t, name)
		for set := uint(1); set < 1<<12; set += 2 {
			if bits.OnesCount(set) < 3 {
				continue
			}
			tried++
			if len(Placements(in, scaleOf(0, set))) == 0 {
				t.Errorf("%s: %v has no placement", name, scaleOf(0, set).Notes)
			}
		}
	}
	if want := 10 * (2048 - 1 - 11); tried != want {
		t.Errorf("%d scales and instruments were tried, want %d", tried, want)
	}
}

func TestLawsOfNear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in, home := anyInstrument(t), anyScale(t)
		var over []pitch.Scale
		for range rapid.IntRange(0, 3).Draw(t, "superimposed") {
			over = append(over, anyScale(t))
		}
		reach := rapid.Float64Range(0, 300).Draw(t, "reach")
		pairs := Near(in, home, over, reach)
		placed := len(Placements(in, home)) > 0
		for _, s := range over {
			placed = placed && len(Placements(in, s)) > 0
		}
		if placed != (len(pairs) > 0) {
			t.Fatalf("%d pairs", len(pairs))
		}
		for i, p := range pairs {
			r := measure(in, p.Home, p.Superimposed)
			if r.compare(rankOf(p)) != 0 || p.Joined != reaches(p.ShiftMM, reach) || len(p.Superimposed) != len(over) {
				t.Errorf("pair %d: %+v, measured %+v", i, p, r)
			}
			if i > 0 && (costOf(pairs[i-1]) > costOf(p) || costOf(pairs[i-1]) == costOf(p) && rankOf(pairs[i-1]).compare(r) > 0) {
				t.Errorf("pair %d stands before a better one", i-1)
			}
		}
		for fret := range in.LastFret() + 1 {
			if p, ok := Choose(pairs, fret); ok && !p.Joined {
				t.Errorf("near fret %d an unjoined pair is chosen", fret)
			}
		}
	})
}
