package pitch_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"heddle/pitch"
)

// Spellings are common practice: one letter for each degree in seven-note scales
// and plain pentatonics, from the root as typed; in other scales no double
// accidental.
func TestScalesAreSpelledFromTheirRoot(t *testing.T) {
	for _, row := range []struct{ scale, notes string }{
		{"G minor pentatonic", "G Bb C D F"},
		{"Ab minor pentatonic", "Ab Cb Db Eb Gb"},
		{"F# minor pentatonic", "F# A B C# E"},
		{"Gb minor pentatonic", "Gb Bbb Cb Db Fb"},
		{"A blues", "A C D Eb E G"},
		{"Eb lydian dominant", "Eb F G A Bb C Db"},
		{"Eb blues", "Eb Gb Ab A Bb Db"},
		{"Gb blues", "Gb A Cb C Db Fb"},
		{"F# blues", "F# A B C C# E"},
		{"G altered", "G Ab A# B Db D# F"},
		{"B altered", "B C D D# F G A"},
		{"Ab altered", "Ab A B C D E Gb"},
		{"G 1 b2 b3 b4 b5 b6 b7", "G Ab A# B Db D# F"},
		{"G altered pentatonic", "G A# B Db F"},
		{"E augmented", "E G G# B B# D#"},
		{"B whole tone", "B C# D# E# G A"},
		{"Ab half-whole", "Ab A Cb C D Eb F Gb"},
		{"Eb diminished seventh arpeggio", "Eb Gb A C"},
		{"Eb ultralocrian", "Eb Fb Gb Abb Bbb Cb Dbb"},
		{"B harmonic minor", "B C# D E F# G A#"},
		{"c# dorian", "C# D# E F# G# A# B"},
		{"F♯ 1 ♭3 4 ♯5 ♭7", "F# A B D E"},
		{"F# 1,b3,4,#5,b7", "F# A B D E"},
		{"D half-whole", "D Eb F F# G# A B C"},
		{"E Hirajoshi scale", "E F# G B C"},
	} {
		if got := spell(mustScale(t, row.scale).Notes); got != row.notes {
			t.Errorf("%s is %s, want %s", row.scale, got, row.notes)
		}
	}
}

// keepsLetters reports whether a type keeps one letter for each degree whatever
// the root: seven notes on seven letters, or a mode of the plain pentatonic 5-35.
func keepsLetters(ty pitch.Type) bool {
	letters := map[int]bool{}
	for _, d := range ty.Degrees {
		letters[d.Number] = true
	}
	forte := pitch.Collect(pitch.NewScale(pitch.Name{}, ty)).Forte
	return len(letters) == len(ty.Degrees) && (len(letters) == 7 || forte == "5-35")
}

// The criteria in order: no double accidentals where other letters avoid them,
// the letters of the degrees, the fewest accidentals, flats after a flat root.
func TestSpellingIsTheBestByTheCriteria(t *testing.T) {
	for _, ty := range pitch.Types() {
		for _, root := range strings.Fields("C C# Db D D# Eb E F F# Gb G G# Ab A A# Bb B Cb Fb E# B#") {
			s := pitch.NewScale(mustName(t, root), ty)
			for i, d := range ty.Degrees {
				got, known := s.Notes[i], d.Above(s.Root)
				cost := func(n pitch.Name) [4]int {
					var c [4]int
					if n.Accidental*n.Accidental > 1 && !keepsLetters(ty) {
						c[0] = 1
					}
					if n.Letter != known.Letter {
						c[1] = 1
					}
					c[2] = max(n.Accidental, -n.Accidental)
					if (n.Accidental < 0) != (s.Root.Accidental < 0) {
						c[3] = 1
					}
					return c
				}
				for letter := pitch.C; letter <= pitch.B; letter++ {
					for accidental := -2; accidental <= 2; accidental++ {
						other := pitch.Name{Letter: letter, Accidental: accidental}
						mine, theirs := cost(got), cost(other)
						if other.Class() == got.Class() && slices.Compare(theirs[:], mine[:]) < 0 {
							t.Errorf("%s is %s; %s would be better than %s", s.Name(), spell(s.Notes), other, got)
						}
					}
				}
			}
		}
	}
}

func TestDegreesThatHaveANameTakeIt(t *testing.T) {
	for typed, name := range map[string]string{
		"G 1 b3 4 5 b7":     "G minor pentatonic",
		"C 1 2 3 #4 5 6 b7": "C lydian dominant",
		"F# 1 b3 4 #5 b7":   "F# 1 b3 4 #5 b7",
		"G minor":           "G natural minor",
		"G Blues":           "G minor blues",

		"G 1 b2 b3 b4 b5 b6 b7": "G altered",
	} {
		if got := mustScale(t, typed).Name(); got != name {
			t.Errorf("%s is named %s, want %s", typed, got, name)
		}
	}
}

func TestRootsByIntervalTakeTheIntervalsLetter(t *testing.T) {
	for _, row := range []struct{ home, text, name, why string }{
		{"G minor pentatonic", "semitone up", "Ab minor pentatonic", "the interval's own letter"},
		{"E minor pentatonic", "minor third up", "G minor pentatonic", "the interval's own letter"},
		{"G minor pentatonic", "a whole tone down", "F minor pentatonic", "the interval's own letter"},
		{"G minor pentatonic", "minor third up major pentatonic", "Bb major pentatonic", "interval and type"},
		{"G minor pentatonic", "semitone up 1 b3 4 5 6", "Ab minor six pentatonic", "interval and degrees"},
		{"G minor pentatonic", "Ab minor pentatonic", "Ab minor pentatonic", "a scale of its own"},
		{"G minor pentatonic", "Gb minor pentatonic", "Gb minor pentatonic", "a typed root stays, double flats and all"},
		{"F minor pentatonic", "semitone up", "F# minor pentatonic", "G♭ would need B𝄫"},
		{"Eb minor pentatonic", "semitone up", "E minor pentatonic", "F♭ would need double flats"},
		{"F# minor pentatonic", "major third up", "A# minor pentatonic", "A♯ C♯ D♯ E♯ G♯ has no double sharps"},
		{"G minor pentatonic", "tritone", "C# minor pentatonic", "three sharps against five flats"},
		{"A minor pentatonic", "tritone", "Eb minor pentatonic", "five each: flats"},
		{"A minor pentatonic", "tritone down", "Eb minor pentatonic", "five each: flats"},
		{"C major pentatonic", "tritone up", "Gb major pentatonic", "five each: flats"},
		{"D blues", "semitone up", "Eb minor blues", "A instead of B𝄫"},
		{"Eb blues", "semitone up", "E minor blues", "F♭ would need four other letters"},
		{"Bb octatonic", "semitone up", "B octatonic half-whole", "C♭ would need three other letters"},
		{"F major", "tritone down", "B major", "five sharps against seven flats"},
		{"Bb dorian", "tritone", "E dorian", "two sharps against F♭"},
		{"G minor pentatonic", "augmented fourth up", "C# minor pentatonic", "named letter"},
		{"A minor pentatonic", "diminished fifth up", "Eb minor pentatonic", "named letter"},
		{"Gb minor pentatonic", "octave up", "Gb minor pentatonic", "home's own root was typed"},
		{"G minor pentatonic", "A whole tone", "A whole tone", "a capital letter opens a scale"},
		{"G minor pentatonic", "a whole tone", "A minor pentatonic", "an article opens an interval"},
		{"G minor pentatonic", "a major seventh arpeggio", "A major seventh arpeggio", "no interval and type, so a scale"},
	} {
		r, err := pitch.Relative(mustScale(t, row.home), row.text)
		if err != nil {
			t.Errorf("%s over %s: %v", row.text, row.home, err)
		} else if r.Scale.Name() != row.name {
			t.Errorf("%s over %s is %s, want %s: %s", row.text, row.home, r.Scale.Name(), row.name, row.why)
		}
	}
}

func TestSuperimposedScalesKeepThePlayersWording(t *testing.T) {
	home := mustScale(t, "A minor pentatonic")
	for _, row := range []struct{ text, name, given, away string }{
		{"a semitone down", "G# minor pentatonic", "semitone down", "a semitone down"},
		{"half-step below", "G# minor pentatonic", "semitone down", "a semitone down"},
		{"tritone", "Eb minor pentatonic", "tritone", "a tritone away"},
		{"tritone down", "Eb minor pentatonic", "tritone down", "a tritone down"},
		{"perfect fourth up", "D minor pentatonic", "fourth up", "a fourth up"},
		{"unison", "A minor pentatonic", "unison", "in unison"},
		{"minor third up major pent", "C major pentatonic", "minor third up major pentatonic", "a minor third up"},
		{"b5", "Eb minor pentatonic", "b5", "on the ♭5"},
		{"♭9", "Bb minor pentatonic", "b9", "on the ♭9"},
		{"#11", "D# minor pentatonic", "#11", "on the ♯11"},
		{"b3 triad", "C major triad", "b3 major triad", "on the ♭3"},
		{"Eb", "Eb minor pentatonic", "Eb minor pentatonic", ""},
		{"eb", "Eb minor pentatonic", "Eb minor pentatonic", ""},
		{"B", "B minor pentatonic", "B minor pentatonic", ""},
		{"b", "B minor pentatonic", "B minor pentatonic", ""},
		{"C triad", "C major triad", "C major triad", ""},
		{"Am pent", "A minor pentatonic", "A minor pentatonic", ""},
	} {
		r, err := pitch.Relative(home, row.text)
		if err != nil || r.Scale.Name() != row.name || r.Given != row.given || r.Away != row.away {
			t.Errorf("%s is %s, %q, %q, %v; want %s, %q, %q", row.text, r.Scale.Name(), r.Given, r.Away, err, row.name, row.given, row.away)
		}
		if again, err := pitch.Relative(home, r.Given); err != nil || again.Scale.Name() != row.name || again.Given != row.given {
			t.Errorf("%q reads back as %s, %q, %v", r.Given, again.Scale.Name(), again.Given, err)
		}
	}
}

func TestShortFormsOfScalesAreRead(t *testing.T) {
	for typed, name := range map[string]string{
		"Am pent": "A minor pentatonic", "A min pent": "A minor pentatonic", "AM pent": "A major pentatonic", "Amaj pent": "A major pentatonic",
		"C triad": "C major triad", "Cm triad": "C minor triad", "C dim triad": "C diminished triad", "C aug triad": "C augmented triad",
		"Am": "A natural minor", "A maj": "A major", "A mel min": "A melodic minor", "A harm minor": "A harmonic minor", "G mixo": "G mixolydian",
		"Bb7": "Bb dominant seventh arpeggio", "CM7": "C major seventh arpeggio", "Cm7 arp": "C minor seventh arpeggio", "Am blues": "A minor blues",
		"A dom pent": "A dominant pentatonic", "C Messiaen mode 3": "C Messiaen mode 3",
	} {
		if s, err := pitch.ParseScale(typed); err != nil || s.Name() != name {
			t.Errorf("%s reads as %s, %v; want %s", typed, s.Name(), err, name)
		}
	}
}

func TestSlipsInScalesAreNamed(t *testing.T) {
	for typed, nearest := range map[string]string{
		"G minr pentatonic":                   "G minor pentatonic",
		"G minor pentatonik":                  "G minor pentatonic",
		"F# dorain":                           "F# dorian",
		"H minor pentatonic":                  "B minor pentatonic",
		"G":                                   "",
		"":                                    "",
		"pentatonic":                          "",
		"G 1 b3 4 4 5":                        "",
		"G 1 b3 4 5 b9":                       "",
		"G 1 5":                               "",
		"G 1 3 b3 5":                          "",
		"G 1 2 3 4 5 6 7 7 7 7 7 7 7":         "",
		"G " + strings.Repeat("minor ", 5000): "",
	} {
		_, err := pitch.ParseScale(typed)
		checkInputError(t, err, typed, nearest)
	}
	home := mustScale(t, "G minor pentatonic")
	for typed, nearest := range map[string]string{
		"semitne up":                  "semitone up",
		"dorian":                      "G dorian",
		"semitone up major pentatoni": "semitone up major pentatonic",
		"Ab minr pentatonic":          "Ab minor pentatonic",
		"b5 minr pentatonic":          "b5 minor pentatonic",
		"12":                          "",
		"1":                           "",
		"":                            "",
		"sideways":                    "",
	} {
		_, err := pitch.Relative(home, typed)
		checkInputError(t, err, typed, nearest)
	}
}

// checkInputError asserts that err is one line that names the value and, if
// there is one, the nearest spelling.
func checkInputError(t *testing.T, err error, typed, nearest string) {
	t.Helper()
	var input *pitch.InputError
	switch {
	case !errors.As(err, &input):
		t.Errorf("%q: error is %v, want an InputError", typed, err)
	case len([]rune(input.Error())) > 300:
		t.Errorf("%.20q…: the message has %d characters", typed, len([]rune(input.Error())))
	case input.Value != typed || input.What == "" || input.Want == "" || strings.ContainsAny(input.Error(), "\n"):
		t.Errorf("%q: error is %q", typed, input.Error())
	case input.Nearest != nearest:
		t.Errorf("%q: nearest is %q, want %q", typed, input.Nearest, nearest)
	}
}

// What each scale's own chord is: common practice of vamps and of chord-scale
// teaching.
func TestScalesHaveTheirOwnChord(t *testing.T) {
	for scale, chord := range map[string]string{
		"minor pentatonic": "Gm7", "major pentatonic": "G6", "minor blues": "Gm7", "major blues": "G6",
		"major": "Gmaj7", "dorian": "Gm7", "phrygian": "Gm7", "lydian": "Gmaj7", "mixolydian": "G7",
		"natural minor": "Gm7", "locrian": "Gm7b5",
		"melodic minor": "Gm(maj7)", "lydian augmented": "Gmaj7#5", "lydian dominant": "G7",
		"locrian #2": "Gm7b5", "altered": "G7alt", "harmonic minor": "Gm(maj7)", "phrygian dominant": "G7",
		"ultralocrian": "Gdim7", "harmonic major": "Gmaj7", "whole tone": "G7#5",
		"octatonic half-whole": "G7", "octatonic whole-half": "Gdim7", "augmented": "Gmaj7",
		"suspended pentatonic": "G7sus4", "dominant pentatonic": "G7", "kumoi": "Gm6",
		"minor pentatonic flat five": "Gm7b5", "bebop dorian": "Gm7", "bebop dominant": "G7",
		"major triad": "G", "minor triad": "Gm", "augmented triad": "Gaug", "diminished triad": "Gdim",
		"diminished seventh arpeggio": "Gdim7", "major seventh arpeggio": "Gmaj7",
	} {
		if got := mustScale(t, "G "+scale).Chord().Name(); got != chord {
			t.Errorf("G %s has %s, want %s", scale, got, chord)
		}
	}
}

func TestEveryToneOfAScalesChordIsInTheScale(t *testing.T) {
	for _, ty := range pitch.Types() {
		for _, root := range []string{"C", "F#", "Bb"} {
			s := pitch.NewScale(mustName(t, root), ty)
			c := s.Chord()
			if read, err := pitch.ParseChord(c.Symbol); err != nil || read.Name() != c.Name() {
				t.Errorf("%s: its chord %q reads as %s, %v", s.Name(), c.Symbol, read.Name(), err)
			}
			for _, n := range tones(c) {
				if _, ok := s.Named(n.Class()); !ok {
					t.Errorf("%s: its chord %s has %s", s.Name(), c.Name(), n)
				}
			}
		}
	}
}

func TestTypesAreFresh(t *testing.T) {
	pitch.Types()[0].Degrees[0].Alter = 5
	if d := pitch.Types()[0].Degrees[0]; d.Alter != 0 {
		t.Errorf("a caller changed the table: root is now %s", d)
	}
}

func TestEveryTypeNameAndAliasIsItsOwn(t *testing.T) {
	seen := map[string]string{}
	for _, ty := range pitch.Types() {
		for _, name := range append([]string{ty.Name}, ty.Aliases...) {
			found, err := pitch.FindType(name)
			if err != nil || found.Name != ty.Name {
				t.Errorf("%q finds %q, want %q (%v)", name, found.Name, ty.Name, err)
			}
			if other, ok := seen[name]; ok {
				t.Errorf("%q names both %q and %q", name, other, ty.Name)
			}
			seen[name] = ty.Name
		}
		if letters := len(ty.Degrees); letters <= 7 && !strings.HasPrefix(ty.Name, "altered") {
			used := map[int]bool{}
			for _, d := range ty.Degrees {
				used[d.Number] = true
			}
			if letters-len(used) > 1 {
				t.Errorf("%s uses %d letters for %d notes", ty.Name, len(used), letters)
			}
		}
	}
}
