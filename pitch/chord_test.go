package pitch_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"heddle/pitch"
)

// The ways of writing chords, and what they hold, are common practice.
func TestChordSymbolsAreReadInTheCommonWays(t *testing.T) {
	for _, row := range []struct{ symbols, name, tones string }{
		{"G Gmaj GM Gmajor", "G", "G B D"},
		{"Gm G- Gmin Gmi GMI Gminor", "Gm", "G Bb D"},
		{"Gm7 G-7 GMI7 Gmin7 Gmi7 GMin7 gm7", "Gm7", "G Bb D F"},
		{"G7 Gdom7", "G7", "G B D F"},
		{"Gmaj7 GM7 Gma7 GΔ GΔ7 G^7 GMaj7 Gmajor7 G7M G(maj7)", "Gmaj7", "G B D F#"},
		{"Gø Gø7 Gm7b5 G-7b5 Gmin7(b5) Gm7-5 Gm7♭5", "Gm7b5", "G Bb Db F"},
		{"Gdim G° Go Gm(b5)", "Gdim", "G Bb Db"},
		{"Gdim7 G°7 Go7", "Gdim7", "G Bb Db Fb"},
		{"Gaug G+ G(#5) G+5", "Gaug", "G B D#"},
		{"G7#5 G+7 Gaug7 G7+5 G7+ G7(♯5)", "G7#5", "G B D# F"},
		{"G7b5 G7-5 G7(b5)", "G7b5", "G B Db F"},
		{"Gmaj7#5 G+maj7 GΔ#5 Gmaj7+5", "Gmaj7#5", "G B D# F#"},
		{"Gmaj7#11 GΔ#11 GM7(#11) Gmaj7#4", "Gmaj7#11", "G B D F# C#"},
		{"G7#9 G7(#9) G7+9 G7♯9", "G7#9", "G B D F A#"},
		{"G7b9 G7(b9) G7-9", "G7b9", "G B D F Ab"},
		{"G7(b9,#11) G7b9#11 G7(b9)(#11) G7b9/#11", "G7(b9,#11)", "G B D F Ab C#"},
		{"G9", "G9", "G B D F A"},
		{"G13 G13", "G13", "G B D F A E"},
		{"G13b9 G7(b9,13)", "G7(b9,add13)", "G B D F Ab E"},
		{"G11", "G11", "G D F A C"},
		{"Gm9 G-9", "Gm9", "G Bb D F A"},
		{"Gm11 G-11", "Gm11", "G Bb D F A C"},
		{"Gm13", "Gm13", "G Bb D F A C E"},
		{"Gm7(11) Gm7/11 Gm7add11 Gm7add4", "Gm7add11", "G Bb D F C"},
		{"Gmaj9 GM9 GΔ9", "Gmaj9", "G B D F# A"},
		{"Gmaj13", "Gmaj13", "G B D F# A E"},
		{"G6 GM6 Gmaj6 Gadd6", "G6", "G B D E"},
		{"Gm6 G-6 Gmin6", "Gm6", "G Bb D E"},
		{"G6/9 G69 G6(9) G6add9", "G6/9", "G B D E A"},
		{"Gm6/9 Gm69", "Gm6/9", "G Bb D E A"},
		{"Gsus Gsus4 G4", "Gsus4", "G C D"},
		{"Gsus2", "Gsus2", "G A D"},
		{"Gsus24 Gsus2sus4 Gsus4sus2", "Gsus2sus4", "G A C D"},
		{"G7sus4 G7sus Gsus7", "G7sus4", "G C D F"},
		{"G9sus4 G9sus Gsus9", "G9sus4", "G C D F A"},
		{"G13sus G13sus4 Gsus13", "G13sus4", "G C D F A E"},
		{"Gadd9 G2 Gadd2 G(9) G(add9)", "Gadd9", "G B D A"},
		{"Gmadd9 Gm(add9) Gm(9)", "Gmadd9", "G Bb D A"},
		{"Gm(maj7) GmM7 Gmmaj7 G-Δ7 G-Δ Gmin(maj7) GmiMA7", "Gm(maj7)", "G Bb D F#"},
		{"Gm(maj9) GmM9", "Gm(maj9)", "G Bb D F# A"},
		{"G5 G(no3)", "G5", "G D"},
		{"G7alt Galt G7(alt)", "G7alt", "G B F Ab A# C# Eb"},
		{"Cm7b5", "Cm7b5", "C Eb Gb Bb"},
		{"F#m7", "F#m7", "F# A C# E"},
		{"B♭maj7 Bbmaj7 bbmaj7", "Bbmaj7", "Bb D F A"},
		{"G/B", "G/B", "G B D"},
		{"C/E", "C/E", "C E G"},
		{"Gm7/F", "Gm7/F", "G Bb D F"},
		{"G6/9/D", "G6/9/D", "G B D E A"},
	} {
		for _, symbol := range strings.Fields(row.symbols) {
			c := mustChord(t, symbol)
			if c.Name() != row.name || spell(tones(c)) != row.tones {
				t.Errorf("%s reads as %s, %s; want %s, %s", symbol, c.Name(), spell(tones(c)), row.name, row.tones)
			}
		}
	}
}

func TestSpacesInsideAChordAreTaken(t *testing.T) {
	if c := mustChord(t, " G minor 7 (b5) / F "); c.Name() != "Gm7b5/F" {
		t.Errorf("reads as %s", c.Name())
	}
}

func TestSlipsInChordsAreNamed(t *testing.T) {
	for typed, nearest := range map[string]string{
		"Gm8": "Gm7", "Gmn7": "Gm7", "Gmaj77": "Gmaj7", "Gm7(b5": "Gm7b5", "G7sus5": "G7sus4", "G7#9#9": "",
		"": "", "H7": "B7", "Hz": "", "G7(": "", "Gm7,": "Gm7", "G7/": "", "Gsus4sus4": "", "Gdim(b5)": "", "7": "",
		"G7()": "", "G((b9))": "", "Gm7#": "Gm7",
		"G" + strings.Repeat("(b9)", 100): "",
	} {
		_, err := pitch.ParseChord(typed)
		checkInputError(t, err, typed, nearest)
	}
}

// What the twelve notes are to a chord: common practice (chord-scale
// teaching); the rule stands at Chord.Function.
func TestDegreesAndFunctionsOverChords(t *testing.T) {
	names := strings.Fields("C Db D Eb E F Gb G Ab A Bb B")
	for _, row := range []struct{ chord, degrees, functions string }{
		{"Cmaj7", "1 b9 9 #9 3 11 #11 5 b13 13 b7 7", "C a t - C a t C a t - C"},
		{"C7", "1 b9 9 #9 3 11 #11 5 b13 13 b7 7", "C t t t C a t C t t C -"},
		{"Cm7", "1 b9 9 b3 3 11 #11 5 b13 13 b7 7", "C a t C - t - C a t C -"},
		{"Cm7b5", "1 b9 9 b3 3 11 b5 5 b13 13 b7 7", "C a t C - t C - t - C -"},
		{"Cdim7", "1 b9 9 b3 3 11 b5 5 b13 bb7 b7 7", "C a t C - t C - t C - t"},
		{"C6", "1 b9 9 #9 3 11 #11 5 b13 6 b7 7", "C a t - C a t C a C - t"},
		{"Cm6", "1 b9 9 b3 3 11 #11 5 b13 6 b7 7", "C a t C - t - C a C a t"},
		{"Cm(maj7)", "1 b9 9 b3 3 11 #11 5 b13 13 b7 7", "C a t C - t - C a t - C"},
		{"C7sus4", "1 b9 9 b3 3 4 #11 5 b13 13 b7 7", "C t t t a C a C t t C -"},
		{"C7alt", "1 b9 9 #9 3 11 #11 5 b13 13 b7 7", "C t t t C a t - t t C -"},
		{"C7#9", "1 b9 9 #9 3 11 #11 5 b13 13 b7 7", "C t t t C a t C t t C -"},
		{"C13", "1 b9 9 #9 3 11 #11 5 b13 13 b7 7", "C t t t C a t C t t C -"},
		{"C7#5", "1 b9 9 #9 3 11 #11 5 #5 13 b7 7", "C t t t C a t - C a C -"},
		{"C", "1 b9 9 #9 3 11 #11 5 b13 13 b7 7", "C a t - C a t C a t t t"},
		{"Cm", "1 b9 9 b3 3 11 #11 5 b13 13 b7 7", "C a t C - t - C a t t t"},
		{"C5", "1 b9 9 b3 3 11 #11 5 b13 13 b7 7", "C a t t t t - C a t t t"},
		{"Csus2", "1 b9 2 b3 3 11 #11 5 b13 13 b7 7", "C a C t t t - C a t t t"},
		{"Csus4", "1 b9 9 b3 3 4 #11 5 b13 13 b7 7", "C a t t a C a C a t t t"},
		{"C9", "1 b9 9 #9 3 11 #11 5 b13 13 b7 7", "C t t t C a t C t t C -"},
		{"Cm11", "1 b9 9 b3 3 11 #11 5 b13 13 b7 7", "C a t C - t - C a t C -"},
		{"C7(no5)", "1 b9 9 #9 3 11 #11 5 b13 13 b7 7", "C t t t C a t t t t C -"},
	} {
		c := mustChord(t, row.chord)
		signs := map[pitch.Function]string{pitch.ChordTone: "C", pitch.Tension: "t", pitch.Blue: "b", pitch.Avoid: "a", pitch.Outside: "-"}
		var degrees, functions []string
		for _, name := range names {
			n := mustName(t, name)
			degrees = append(degrees, c.Degree(n, pitch.Scale{}).String())
			functions = append(functions, signs[c.Function(n, pitch.Scale{})])
		}
		if got := strings.Join(degrees, " "); got != row.degrees {
			t.Errorf("%s: degrees %s, want %s", row.chord, got, row.degrees)
		}
		if got := strings.Join(functions, " "); got != row.functions {
			t.Errorf("%s: functions %s, want %s", row.chord, got, row.functions)
		}
	}
}

// Common practice: the minor third over a dominant and the flat fifth over a
// dominant or minor seventh are blue at home in the blues, and nowhere else.
func TestBlueNotesAreBlueAtHomeInTheBlues(t *testing.T) {
	for _, row := range []struct {
		home, chord, note string
		degree            string
		function          pitch.Function
	}{
		{"A minor blues", "Am7", "Eb", "b5", pitch.Blue},
		{"A minor blues", "A7", "Eb", "b5", pitch.Blue},
		{"A minor blues", "A7", "C", "#9", pitch.Blue},
		{"Eb minor blues", "Ebm7", "A", "#11", pitch.Blue}, // spelled as a fourth
		{"A minor pentatonic", "A9", "C", "#9", pitch.Blue},
		{"A minor pentatonic", "A13", "C", "#9", pitch.Blue},
		{"A major blues", "A7", "C", "#9", pitch.Blue},
		{"A minor pentatonic", "A7#9", "C", "#9", pitch.Tension}, // the symbol names it
		{"A minor pentatonic", "Am7b5", "Eb", "b5", pitch.ChordTone},
		{"A minor pentatonic", "Amaj7", "C", "#9", pitch.Outside},
		{"A dorian", "Am7", "Eb", "#11", pitch.Outside},
		{"A mixolydian", "A9", "C", "#9", pitch.Tension},
		{"A locrian", "A7", "Eb", "b5", pitch.Tension},
		{"A lydian dominant", "A7", "D#", "#11", pitch.Tension},
	} {
		c, home, n := mustChord(t, row.chord), mustScale(t, row.home), mustName(t, row.note)
		if d, f := c.Degree(n, home).String(), c.Function(n, home); d != row.degree || f != row.function {
			t.Errorf("%s over %s at home in %s is %s, %s; want %s, %s", n, row.chord, row.home, d, f, row.degree, row.function)
		}
	}
}

// Every scale type over every kind of chord, in every key: only a home in the
// blues has blue notes, at a minor third or flat fifth of a chord with a minor
// seventh that leaves them out; elsewhere the home changes nothing.
func TestLawBlueDependsOnHomeAndChord(t *testing.T) {
	kinds := strings.Fields("5 m maj7 7 m7 9 m9 13 7alt 7#9 7sus4 sus4 sus2 6 m6 m7b5 dim7 m(maj7) 9sus4 7b5 7#5 6/9 m11 13sus4")
	rapid.Check(t, func(t *rapid.T) {
		home := anyScale().Draw(t, "home")
		kind := rapid.SampledFrom(kinds).Draw(t, "kind")
		c, err := pitch.ParseChord(anyName().Draw(t, "root").String() + kind)
		if err != nil {
			t.Fatal(err)
		}
		n := anyName().Draw(t, "note")
		above := (n.Class() - c.Root.Class() + 12) % 12
		blues := home.Type.Name == "minor pentatonic" || strings.HasSuffix(home.Type.Name, "blues")
		seventh, minor := slices.Contains(c.Degrees, pitch.Degree{Number: 7, Alter: -1}), slices.Contains(c.Degrees, pitch.Degree{Number: 3, Alter: -1})
		inChord := slices.ContainsFunc(c.Degrees, func(d pitch.Degree) bool { return d.Class() == above })
		blue := blues && seventh && !inChord && (above == 6 || above == 3 && !minor)
		got, plain := c.Function(n, home), c.Function(n, pitch.Scale{})
		if blue != (got == pitch.Blue) || !blue && got != plain {
			t.Fatalf("%s over %s is %s at home in %s, %s without", n, c.Symbol, got, home.Name(), plain)
		}
	})
}

// A named tension excludes no other tension: adding one to a chord puts no note
// outside and takes no tension away.
func TestNamedTensionsExcludeNoOther(t *testing.T) {
	for _, kind := range strings.Fields("7 m7 maj7 m(maj7)") {
		plain := mustChord(t, "C"+kind)
		for _, word := range strings.Fields("b9 9 #9 11 #11 b13 13") {
			named, err := pitch.ParseChord("C" + kind + "(" + word + ")")
			if err != nil {
				continue
			}
			for class := range 12 {
				n := pitch.Degree{Number: 1, Alter: class}.Above(plain.Root)
				before, after := plain.Function(n, pitch.Scale{}), named.Function(n, pitch.Scale{})
				if before != after && after != pitch.Tension {
					t.Errorf("%s is %s over C%s, %s over %s", n, before, kind, after, named.Symbol)
				}
			}
		}
	}
}

func TestTargetsAreTheChordsOwn(t *testing.T) {
	for _, row := range []struct{ chord, target, name string }{
		{"Gm7", "third", "Bb"}, {"G7", "third", "B"}, {"Gm7", "the third", "Bb"}, {"Gm7", "3", "Bb"}, {"Gm7", "3rd", "Bb"},
		{"Gm7", "seventh", "F"}, {"Gmaj7", "seventh", "F#"}, {"Gdim7", "7", "Fb"}, {"Gm7b5", "fifth", "Db"},
		{"G7", "root", "G"}, {"G7", "tonic", "G"}, {"G7", "ninth", "A"}, {"G7b9", "ninth", "Ab"}, {"G7", "9th", "A"},
		{"G7", "b9", "Ab"}, {"G7", "flat ninth", "Ab"}, {"G7", "#11", "C#"}, {"G7", "sharp eleventh", "C#"},
		{"G7", "b7", "F"}, {"Gmaj7", "b7", "F"}, {"G13", "thirteenth", "E"}, {"G6", "thirteenth", "E"},
		{"Gm", "seventh", "F"}, {"G", "seventh", "F#"}, {"Gsus4", "third", "B"}, {"Gm7", "tenth", "Bb"},
		{"Gm7", "minor third", "Bb"}, {"Gm7", "diminished fifth", "Db"}, {"Gsus4", "eleventh", "C"}, {"Gmadd9", "second", "A"},
	} {
		d, err := pitch.ParseDegree(row.target)
		if err != nil {
			t.Errorf("%s: %v", row.target, err)
			continue
		}
		if got := mustChord(t, row.chord).Target(d).String(); got != row.name {
			t.Errorf("%s over %s is %s, want %s", row.target, row.chord, got, row.name)
		}
	}
	for typed, nearest := range map[string]string{
		"thrid": "third", "sevnth": "seventh", "roots": "root", "fourteenth": "thirteenth", "14": "", "b": "", "": "", "0": "", "#b3": "", "major third": "", "###4": "",
	} {
		_, err := pitch.ParseDegree(typed)
		checkInputError(t, err, typed, nearest)
	}
}

func TestListsOfDegreesAreReadAsTheyAreWritten(t *testing.T) {
	for typed, want := range map[string]string{
		"third": "third=3", "third b7": "third=3 b7=b7", "third,b7": "third=3 b7=b7", "root, third or fifth": "root=1 third=3 fifth=5",
		"the third and the ♭7": "third=3 ♭7=b7", "flat ninth third": "flat ninth=b9 third=3", "1 3": "1=1 3=3", "double flat seventh root": "double flat seventh=bb7 root=1",
		"b 7": "b 7=b7",
	} {
		words, degrees, err := pitch.ParseDegrees(typed)
		var got []string
		for i, w := range words {
			got = append(got, w+"="+degrees[i].String())
		}
		if err != nil || strings.Join(got, " ") != want {
			t.Errorf("%q reads as %q, %v; want %q", typed, got, err, want)
		}
	}
	for typed, value := range map[string]string{"third thrid": "thrid", "": "", "third,": "", "or": "or", "b7 or": "or", ",": "", "third x 5": "x 5"} {
		_, _, err := pitch.ParseDegrees(typed)
		var input *pitch.InputError
		if !errors.As(err, &input) || input.Value != value {
			t.Errorf("%q: %v", typed, err)
		}
	}
}

func TestVoicingsAreCompable(t *testing.T) {
	for chord, keys := range map[string]string{
		"Gm7":   "[55 58 62 65]",    // G3 B♭3 D4 F4
		"G13":   "[55 59 65 69 76]", // no fifth: G3 B3 F4 A4 E5
		"G7alt": "[55 59 65 70 75]", // G3 B3 F4 A♯4 E♭5
		"C":     "[48 52 55]",
		"C/E":   "[40 48 52 55]",
		"B7":    "[59 63 66 69]",
	} {
		if got := fmt.Sprint(mustChord(t, chord).Voicing()); got != keys {
			t.Errorf("%s is voiced %s, want %s", chord, got, keys)
		}
	}
}

func TestChordsShowInTheReadersNaming(t *testing.T) {
	for _, row := range []struct {
		chord   string
		naming  pitch.Naming
		display string
	}{
		{"Bbm7b5", pitch.English, "B♭m7♭5"},
		{"Bm7b5/A", pitch.German, "Hm7♭5/A"},
		{"Bbmaj7", pitch.German, "Bmaj7"},
		{"G7(b9,#11)", pitch.Solfege, "Sol7(♭9,♯11)"},
	} {
		if got := mustChord(t, row.chord).Display(row.naming); got != row.display {
			t.Errorf("%s shows as %s, want %s", row.chord, got, row.display)
		}
	}
}

func TestVoicingsKeepThirdAndSeventhAndAHandfulOfNotes(t *testing.T) {
	for _, root := range strings.Fields("C Db D Eb E F F# G Ab A Bb B") {
		for _, kind := range strings.Fields("m7 7 maj7 m7b5 dim7 9 13 m11 m13 7alt 13sus4 6/9 maj13#11 7(b9,#11)") {
			c := mustChord(t, root+kind)
			keys := c.Voicing()
			if len(keys) > 5 || keys[0] < 48 || keys[len(keys)-1] > 80 || keys[0]%12 != c.Root.Class() || !slices.IsSorted(keys) {
				t.Errorf("%s is voiced %v", c.Name(), keys)
			}
			for _, word := range []string{"third", "seventh"} {
				d, _ := pitch.ParseDegree(word)
				own := c.Target(d)
				if c.Function(own, pitch.Scale{}) != pitch.ChordTone {
					continue
				}
				if !slices.ContainsFunc(keys, func(k int) bool { return k%12 == own.Class() }) {
					t.Errorf("%s is voiced %v without its %s", c.Name(), keys, word)
				}
			}
		}
	}
}

// tones returns the names of a chord's degrees.
func tones(c pitch.Chord) []pitch.Name {
	var names []pitch.Name
	for _, d := range c.Degrees {
		names = append(names, d.Above(c.Root))
	}
	return names
}
