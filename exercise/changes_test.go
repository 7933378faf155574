package exercise_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"heddle/exercise"
	"heddle/line"
)

// chordsOf writes the chords of an exercise with the quarters they begin on.
func chordsOf(ex *exercise.Exercise) string {
	var list []string
	for _, c := range ex.Chords {
		list = append(list, fmt.Sprintf("%s@%v", c.Symbol, c.Start.Quarters()))
	}
	return strings.Join(list, " ")
}

func TestChordsShareTheirBar(t *testing.T) {
	for _, c := range []struct{ changes, canonical, chords string }{
		{"A7 F#7 | Bm7 E7", "A7 F#7 | Bm7 E7", "A7@0 F#7@2 Bm7@4 E7@6 A7@8 F#7@10 Bm7@12 E7@14"},
		{"|A7 / F#7 /|Bm7 / / E7|", "A7 F#7 | Bm7 / / E7", "A7@0 F#7@2 Bm7@4 E7@7 A7@8 F#7@10 Bm7@12 E7@15"},
		{"A7 | % | D7 / / / | %", "A7 | % | D7 | %", "A7@0 D7@8"},
		{"| Dm7 G7 |", "| Dm7 G7 |", "Dm7@0 G7@2 Dm7@4 G7@6 Dm7@8 G7@10 Dm7@12 G7@14"},
		{"Dm7, G7, Cmaj7", "Dm7 | G7 | Cmaj7", "Dm7@0 G7@4 Cmaj7@8 Dm7@12"},
		{"Dm7 G7, Cmaj7", "Dm7 G7 | Cmaj7", "Dm7@0 G7@2 Cmaj7@4 Dm7@8 G7@10 Cmaj7@12"},
		{"G7(b9,#11), Cmaj7", "G7(b9,#11) | Cmaj7", "G7(b9,#11)@0 Cmaj7@4 G7(b9,#11)@8 Cmaj7@12"},
		{"A7, D7 | E7", "A7 D7 | E7", "A7@0 D7@2 E7@4 A7@8 D7@10 E7@12"},
		{"A7/E D7 | E7", "A7/E D7 | E7", "A7/E@0 D7@2 E7@4 A7/E@8 D7@10 E7@12"},
		{"C7 F7 C7 | G7", "C7 F7 C7 | G7", "C7@0 F7@1.3333333333333333 C7@2.6666666666666665 G7@4 C7@8 F7@9.333333333333334 C7@10.666666666666666 G7@12"},
	} {
		ex := build(t, "home: A minor pentatonic\nfret: 5\nbars: 4\ndirection: up-down\ngroups: 4\nchanges: "+c.changes)
		if ex.Spec.Changes != c.canonical {
			t.Errorf("%s: canonical %q, want %q", c.changes, ex.Spec.Changes, c.canonical)
		}
		if got := chordsOf(ex); got != c.chords {
			t.Errorf("%s: chords %s, want %s", c.changes, got, c.chords)
		}
	}
}

func TestAmbiguousChangesAreAskedAboutWithTheBarsSpelledOut(t *testing.T) {
	for _, c := range []struct{ changes, want string }{
		{"Dm7 G7 Cmaj7", `changes "Dm7 G7 Cmaj7": want bar lines: Dm7 | G7 | Cmaj7 for a bar each, or | Dm7 G7 Cmaj7 | for one bar; did you mean "Dm7 | G7 | Cmaj7"?`},
		{"A7 / D7", "A7 | D7 for a bar each, or | A7 / D7 | for one bar"},
		{"Dm7 X7", `"X7"`},
		{"Dm7 | / G7", "a chord or % (the same again) in each bar"},
		{"Dm7 | | G7", "a chord or % (the same again) in each bar"},
		{"% | G7", "a chord or % (the same again) in each bar"},
		{"A7 A7 A7 A7 A7 A7 A7 A7 A7 | D7", "at most 8 chords in a bar"},
		{"bleus in A", `did you mean "blues in A"`},
		{"waltz in A", "rhythm changes"},
		{"blues in X", `"X"`},
	} {
		spec, err := exercise.ParseText("home: A minor pentatonic\nchanges: " + c.changes)
		if err == nil {
			_, err = exercise.Build(spec)
		}
		if err == nil || !strings.Contains(err.Error(), c.want) || !strings.HasPrefix(err.Error(), "changes ") {
			t.Errorf("%s: got %v, want %s", c.changes, err, c.want)
		}
	}
}

// Common practice: the twelve bars of a plain blues, and so on.
func TestForms(t *testing.T) {
	for _, c := range []struct {
		form string
		bars int
		want string // the beginning of the chords
	}{
		{"blues in A", 12, "A7@0 D7@4 A7@8 D7@16 A7@24 E7@32 D7@36 A7@40 E7@44"},
		{"minor blues in G", 12, "Gm7@0 Cm7@16 Gm7@24 Eb7@32 D7@36 Gm7@40 D7@44"},
		{"minor blues in Ab", 12, "Abm7@0 Dbm7@16 Abm7@24 E7@32"},
		{"jazz blues in F", 12, "F7@0 Bb7@4 F7@8 Cm7@12 F7@14 Bb7@16 Bdim7@20 F7@24 Am7b5@28 D7@30 Gm7@32 C7@36 F7@40 D7@42 Gm7@44 C7@46"},
		{"ii V I in F", 4, "Gm7@0 C7@4 Fmaj7@8"},
		{"minor ii V i in D", 4, "Em7b5@0 A7b9@4 Dm7@8"},
		{"rhythm changes in Bb", 32, "Bbmaj7@0 G7@2 Cm7@4 F7@6 Dm7@8 G7@10 Cm7@12 F7@14 Fm7@16 Bb7@18 Ebmaj7@20 Ebm7@22 Dm7@24 G7@26 Cm7@28 F7@30 " +
			"Bbmaj7@32 G7@34 Cm7@36 F7@38 Dm7@40 G7@42 Cm7@44 F7@46 Fm7@48 Bb7@50 Ebmaj7@52 Ebm7@54 Cm7@56 F7@58 Bb6@60 D7@64 G7@72 C7@80 F7@88 Bbmaj7@96"},
	} {
		ex := build(t, fmt.Sprintf("home: A minor pentatonic\nfret: 5\nbars: %d\ndirection: up-down\ngroups: 4\nland: none\nchanges: %s", c.bars, c.form))
		if got := chordsOf(ex); !strings.HasPrefix(got, c.want) {
			t.Errorf("%s: %s", c.form, got)
		}
		if ex.Length != line.Beat(c.bars*4)*line.Quarter || ex.Spec.Changes != c.form {
			t.Errorf("%s is %q and lasts %v", c.form, ex.Spec.Changes, ex.Length)
		}
	}
	for changes, want := range map[string]string{
		"12-bar blues in a":    "Over a blues in A, play ",
		"ii-V-I in Eb":         "Over a ii V I in E♭, play ",
		"rhythm changes in Bb": "Over rhythm changes in B♭, play ",
		"Dm7 G7 | Cmaj7":       "Over Dm7 G7 | Cmaj7, play ",
	} {
		if got := build(t, "home: C major\nchanges: "+changes).Sentence; !strings.HasPrefix(got, want) {
			t.Errorf("%s: %s", changes, got)
		}
	}
}

func TestScalesChangeWithTheBarOrTheChord(t *testing.T) {
	for _, c := range []struct{ home, canonical string }{
		{"D dorian | C major", "D dorian | C major"},
		{"D dorian | G mixolydian | C major", "D dorian | G mixolydian | C major"},
		{"D dorian | D dorian | C major", "D dorian | C major"},
		{"C major | C major", "C major"},
	} {
		ex := build(t, "changes: Dm7 G7 | Cmaj7\nfret: 3\nbars: 4\ngroups: 2\nhome: "+c.home)
		if ex.Spec.Home != c.canonical {
			t.Errorf("home %s is %q, want %q", c.home, ex.Spec.Home, c.canonical)
		}
		for _, n := range ex.Notes {
			if chord := ex.ChordAt(n.Start).Symbol; n.Step == 1 && strings.Count(c.canonical, "|") == 2 {
				want := map[string]string{"Dm7": "D dorian", "G7": "G mixolydian", "Cmaj7": "C major"}[chord]
				if got := ex.Scales[n.Scale].Name(); got != want {
					t.Errorf("%v over %s is of %s, want %s", n.Pitch, chord, got, want)
				}
			}
		}
	}
}

// drawChanges draws bars of one to four chords.
func drawChanges(t *rapid.T) string {
	chords := []string{"A7", "D7", "F#7", "Bm7", "E7", "Cmaj7", "G7(b9,#11)", "Dm7b5", "A7/E"}
	bars := make([]string, rapid.IntRange(1, 6).Draw(t, "bars"))
	for i := range bars {
		shares := []string{rapid.SampledFrom(chords).Draw(t, "chord")}
		for range rapid.IntRange(0, 3).Draw(t, "more") {
			shares = append(shares, rapid.SampledFrom(append(chords, "/")).Draw(t, "share"))
		}
		bars[i] = strings.Join(shares, " ")
		if i > 0 && rapid.IntRange(0, 4).Draw(t, "repeat") == 0 {
			bars[i] = "%"
		}
	}
	return "|" + strings.Join(bars, "|") + "|"
}

func TestDrawnChangesReadBackAndCoverTheLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		spec := anySpec(t)
		spec.Changes, spec.Cut = drawChanges(t), ""
		ex := mustBuild(t, spec)
		again, err := exercise.Build(ex.Spec)
		if err != nil || again.Spec.Changes != ex.Spec.Changes || chordsOf(again) != chordsOf(ex) {
			t.Fatalf("%q is %q, which is %v, %v", spec.Changes, ex.Spec.Changes, again, err)
		}
		checkChordsCover(t, ex)
	})
}
