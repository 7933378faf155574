package pitch_test

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"heddle/pitch"
)

// anyName draws a letter with at most two accidentals.
func anyName() *rapid.Generator[pitch.Name] {
	return rapid.Custom(func(t *rapid.T) pitch.Name {
		return pitch.Name{
			Letter:     pitch.Letter(rapid.IntRange(0, 6).Draw(t, "letter")),
			Accidental: rapid.IntRange(-2, 2).Draw(t, "accidental"),
		}
	})
}

// anyScale draws a named type on a root with at most one accidental.
func anyScale() *rapid.Generator[pitch.Scale] {
	types := pitch.Types()
	return rapid.Custom(func(t *rapid.T) pitch.Scale {
		root := pitch.Name{
			Letter:     pitch.Letter(rapid.IntRange(0, 6).Draw(t, "letter")),
			Accidental: rapid.IntRange(-1, 1).Draw(t, "accidental"),
		}
		return pitch.NewScale(root, rapid.SampledFrom(types).Draw(t, "type"))
	})
}

// anyInterval draws an interval of up to two octaves either way, at most
// doubly altered.
func anyInterval() *rapid.Generator[pitch.Interval] {
	return rapid.Custom(func(t *rapid.T) pitch.Interval {
		steps := rapid.IntRange(0, 14).Draw(t, "steps")
		alter := rapid.IntRange(-2, 2).Draw(t, "alter")
		major := pitch.Degree{Number: steps + 1}.Semitones()
		i := pitch.Interval{Steps: steps, Semitones: major + alter}
		if steps == 0 && alter < 0 {
			return i // an augmented unison down
		}
		if rapid.Bool().Draw(t, "down") {
			i.Steps, i.Semitones = -i.Steps, -i.Semitones
		}
		return i
	})
}

func TestLawNamesAndPitchesAreReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := anyName().Draw(t, "name")
		for _, written := range []string{n.String(), n.Symbol()} {
			if read, err := pitch.ParseName(written); err != nil || read != n {
				t.Fatalf("%q reads as %v, %v", written, read, err)
			}
		}
		p := pitch.Pitch{Name: n, Octave: rapid.IntRange(-1, 9).Draw(t, "octave")}
		for _, written := range []string{p.String(), p.Symbol()} {
			if read, err := pitch.Parse(written); err != nil || read != p {
				t.Fatalf("%q reads as %v, %v", written, read, err)
			}
		}
		if named := pitch.Named(n, p.MIDI()); named != p {
			t.Fatalf("MIDI %d as %s is %s, want %s", p.MIDI(), n, named, p)
		}
	})
}

func TestLawBetweenIsFrom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := anyName().Draw(t, "a"), anyName().Draw(t, "b")
		i := pitch.Between(a, b)
		if i.From(a) != b || i.Steps < 0 || i.Steps > 6 {
			t.Fatalf("between %s and %s lies %+v, which leads to %s", a, b, i, i.From(a))
		}
	})
}

func TestLawScalesAreReadBackAndRise(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyScale().Draw(t, "scale")
		read, err := pitch.ParseScale(s.Name())
		if err != nil || read.Name() != s.Name() || !slices.Equal(read.Notes, s.Notes) {
			t.Fatalf("%q reads as %v, %v", s.Name(), read, err)
		}
		last := -1
		for _, n := range s.Notes {
			above := ((n.Class()-s.Root.Class())%12 + 12) % 12
			if above <= last {
				t.Fatalf("%s: %s does not rise", s.Name(), n)
			}
			last = above
		}
	})
}

// An interval's root never brings more double accidentals than its own letter
// would, and never another sound.
func TestLawRelativeRootsSoundTheInterval(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		home := anyScale().Draw(t, "home")
		i := anyInterval().Draw(t, "interval")
		if i == (pitch.Interval{}) {
			return
		}
		r, err := pitch.Relative(home, i.Words())
		if err != nil {
			t.Fatal(err)
		}
		s := r.Scale
		if again, err := pitch.Relative(home, r.Given); err != nil || again.Given != r.Given || again.Away != r.Away || again.Scale.Name() != s.Name() {
			t.Fatalf("%q is given as %q, which reads as %+v, %v", i.Words(), r.Given, again, err)
		}
		if down := i.Steps < 0 || i.Steps == 0 && i.Semitones < 0; down != strings.HasSuffix(r.Away, " down") {
			t.Fatalf("%+v is %s", i, r.Away)
		}
		if want := ((home.Root.Class()+i.Semitones)%12 + 12) % 12; s.Root.Class() != want {
			t.Fatalf("%s from %s is %s", i.Words(), home.Name(), s.Name())
		}
		if own := pitch.NewScale(i.From(home.Root), home.Type); doubled(s) > doubled(own) {
			t.Fatalf("%s from %s is %v, %v has fewer doubles", i.Words(), home.Name(), s.Notes, own.Notes)
		}
	})
}

func doubled(s pitch.Scale) int {
	count := 0
	for _, n := range s.Notes {
		if n.Accidental*n.Accidental > 1 {
			count++
		}
	}
	return count
}

// symbols draws a chord symbol from the parts that symbols are made of.
func symbols() *rapid.Generator[string] {
	qualities := []string{"", "m", "maj", "dim", "aug", "-", "Δ", "°", "ø", "+", "mi", "M"}
	extensions := []string{"", "5", "6", "6/9", "7", "9", "11", "13", "2", "4"}
	words := []string{"b5", "#5", "b9", "#9", "#11", "b13", "sus4", "sus2", "sus", "add9", "add11", "add13", "add6", "(maj7)", "(no3)", "(no5)", "alt", "(b9,#11)", "(13)", "+", "M7", "/11", "(add#11)"}
	return rapid.Custom(func(t *rapid.T) string {
		s := anyName().Draw(t, "root").String() + rapid.SampledFrom(qualities).Draw(t, "quality") + rapid.SampledFrom(extensions).Draw(t, "extension")
		for _, w := range rapid.SliceOfN(rapid.SampledFrom(words), 0, 3).Draw(t, "words") {
			s += w
		}
		if rapid.Bool().Draw(t, "slash") {
			s += "/" + anyName().Draw(t, "bass").String()
		}
		return s
	})
}

func TestLawAChordsPlainNameIsTheSameChord(t *testing.T) {
	readable := 0
	rapid.Check(t, func(t *rapid.T) {
		c, err := pitch.ParseChord(symbols().Draw(t, "symbol"))
		if err != nil {
			return
		}
		readable++
		checkChordReadsBack(t, c)
	})
	if readable == 0 {
		t.Error("no symbol was readable")
	}
}

// checkChordReadsBack asserts that the plain name is the same chord, and that
// no tone is there twice.
func checkChordReadsBack(t interface{ Fatalf(string, ...any) }, c pitch.Chord) {
	again, err := pitch.ParseChord(c.Name())
	if err != nil || !slices.Equal(again.Degrees, c.Degrees) || again.Root != c.Root || again.Bass != c.Bass {
		t.Fatalf("%q is %v and named %q, which reads as %v, %v", c.Symbol, c.Degrees, c.Name(), again.Degrees, err)
	}
	sounding := map[int]bool{}
	for _, n := range tones(c) {
		if sounding[n.Class()] {
			t.Fatalf("%q sounds %s twice: %v", c.Symbol, n, c.Degrees)
		}
		sounding[n.Class()] = true
	}
	for class := range 12 {
		n := pitch.Degree{Number: 1, Alter: class}.Above(c.Root)
		tone := c.Function(n, pitch.Scale{}) == pitch.ChordTone
		if tone && !sounding[n.Class()] {
			t.Fatalf("%q: %s is called a chord tone", c.Symbol, n)
		}
	}
}

func TestLawCollectionsAreWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		first, second := anyScale().Draw(t, "first"), anyScale().Draw(t, "second")
		c := pitch.Collect(first, second)
		seen := map[int]bool{}
		for _, n := range append(slices.Clone(c.Notes), c.Missing...) {
			if seen[n.Class()] {
				t.Fatalf("%s is there twice", n)
			}
			seen[n.Class()] = true
		}
		if len(seen) != 12 || c.Notes[0] != first.Root || len(c.PrimeForm) != len(c.Notes) {
			t.Fatalf("%s with %s: %+v", first.Name(), second.Name(), c)
		}
		for _, n := range first.Notes {
			if !slices.Contains(c.Notes, n) {
				t.Fatalf("%s of %s lost its name in %v", n, first.Name(), c.Notes)
			}
		}
		alone := pitch.Collect(first)
		itself := func(n pitch.CollectionName) bool {
			return n.Root == first.Root && n.Name == first.Type.Name && n.Kind == pitch.ScaleName
		}
		if !slices.ContainsFunc(alone.Names, itself) {
			t.Fatalf("%s does not fit itself: %v", first.Name(), alone.Names)
		}
		for _, name := range c.Names {
			if name.Kind != pitch.ScaleName {
				continue
			}
			if s := pitch.Collect(mustType(t, name)); s.Forte != c.Forte || s.Cardinality() != c.Cardinality() {
				t.Fatalf("%v is said to fit %v", name, c.Notes)
			}
		}
	})
}

func mustType(t *rapid.T, name pitch.CollectionName) pitch.Scale {
	ty, err := pitch.FindType(name.Name)
	if err != nil {
		t.Fatal(err)
	}
	return pitch.NewScale(name.Root, ty)
}

// Prime form, vector and Forte number do not change under transposition.
func TestLawTheClassIsTheSameInEveryKey(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyScale().Draw(t, "scale")
		moved := pitch.NewScale(anyInterval().Draw(t, "interval").From(s.Root), s.Type)
		a, b := pitch.Collect(s), pitch.Collect(moved)
		if a.Forte != b.Forte || a.IntervalVector != b.IntervalVector || !slices.Equal(a.PrimeForm, b.PrimeForm) ||
			a.Transpositions != b.Transpositions || a.Messiaen != b.Messiaen || len(a.Names) != len(b.Names) {
			t.Fatalf("%s is %+v, %s is %+v", s.Name(), a, moved.Name(), b)
		}
	})
}

func TestLawDegreesAreReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := pitch.Degree{Number: rapid.IntRange(1, 13).Draw(t, "number"), Alter: rapid.IntRange(-2, 2).Draw(t, "alter")}
		for _, written := range []string{d.String(), d.Symbol(), d.Words()} {
			if read, err := pitch.ParseDegree(written); err != nil || read != d {
				t.Fatalf("%q reads as %v, %v", written, read, err)
			}
		}
	})
}
