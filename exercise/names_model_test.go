package exercise_test

import (
	"encoding/json"
	"os"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"heddle/exercise"
	"heddle/internal/need"
)

// This file is a second, independent model of names, degrees and functions. It reads
// only the JSON of an exercise and knows scales and chords from tables of its own:
// the library tonal's answers (see ../pitch/testdata/tonal.mjs), and rows written by
// hand from chord-scale teaching (common practice).

// chordFunctions has a row for each kind of chord: what the twelve notes above the root
// are to it (C chord tone, t tension, a avoid, - outside).
var chordFunctions = map[string]string{
	"maj7": "Cat-CatCat-C", "7": "CtttCatCttC-", "m7": "CatC-t-CatC-", "m7b5": "CatC-tC-t-C-", "9": "CtttCatCttC-", "13": "CtttCatCttC-",
	"5": "Catttt-Cattt", "sus4": "CattaCaCattt", "sus2": "CaCttt-Cattt", "7sus4": "CtttaCaCttC-", "7alt": "CtttCat-ttC-", "6": "Cat-CatCaC-t", "m9": "CatC-t-CatC-",
}

// chordDegrees names the twelve notes above the root where the chord has others than
// the usual 1 b9 9 b3 3 11 #11 5 b13 13 b7 7.
var chordDegrees = map[string]map[int]string{
	"maj7": {3: "#9"}, "7": {3: "#9"}, "9": {3: "#9"}, "13": {3: "#9"}, "7alt": {3: "#9"}, "6": {3: "#9", 9: "6"},
	"m7b5": {6: "b5"}, "sus4": {5: "4"}, "7sus4": {5: "4"}, "sus2": {2: "2"},
}

type modelNote struct {
	Name             string
	MIDI, Scale      int
	Degree, Function string
}

type modelDocument struct {
	Spec struct {
		Home, Chord string
		Superimpose []string
	}
	Scales []struct {
		Name, Away string
		Notes      []string
		Placement  struct{ Spots []modelNote }
	}
	Remarks []string
	Notes   []modelNote
}

// class returns the pitch class of a plain name.
func class(name string) int {
	return ((strings.Index("C D EF G A B", name[:1])+strings.Count(name, "#")-strings.Count(name, "b"))%12 + 12) % 12
}

// letter counts the letters from C.
func letter(name string) int { return strings.Index("CDEFGAB", name[:1]) }

// knownScales returns each type's notes on C, as tonal was asked about them; altered
// scales as they are played.
func knownScales(t *testing.T) map[string][]string {
	text, err := os.ReadFile("../pitch/testdata/tonal.json")
	if err != nil {
		t.Fatal(err)
	}
	var stored struct {
		Answers []struct{ Name, Notes string }
	}
	if err := json.Unmarshal(text, &stored); err != nil || len(stored.Answers) < 100 {
		t.Fatal(len(stored.Answers), err)
	}
	known := map[string][]string{"altered": {"C", "Db", "D#", "E", "Gb", "G#", "Bb"}, "altered pentatonic": {"C", "D#", "E", "Gb", "Bb"}}
	for _, a := range stored.Answers {
		if known[a.Name] == nil {
			known[a.Name] = strings.Fields(a.Notes)
		}
	}
	return known
}

// checkSpelling compares a scale with its notes on C: the same sounds above the root,
// and the same letters, or in scales that may leave them a name without doubles where
// the letter would need one.
func checkSpelling(t *rapid.T, name string, notes []string, known map[string][]string) {
	root, kind, _ := strings.Cut(name, " ")
	onC := known[kind]
	plain := slices.Contains([]string{"major pentatonic", "minor pentatonic", "suspended pentatonic", "man gong", "ritusen"}, kind)
	letters := map[int]bool{}
	for _, n := range onC {
		letters[letter(n)] = true
	}
	keeps := plain || len(onC) == 7 && len(letters) == 7
	for i, n := range notes {
		if (class(n)-class(root)+12)%12 != class(onC[i]) {
			t.Fatalf("%s has %s for %s on C", name, n, onC[i])
		}
		double := len(n) > 2
		kept := (letter(n)-letter(root)+7)%7 == letter(onC[i])
		natural := class("CDEFGAB"[(letter(root)+letter(onC[i]))%7:][:1])
		needs := (class(n) - natural + 18) % 12 // 6 is the natural, 4 and 8 are doubles
		switch {
		case keeps && !kept, !keeps && double && i > 0, !keeps && !kept && needs > 4 && needs < 8:
			t.Fatalf("%s is %v: %s for %s on C", name, notes, n, onC[i])
		}
	}
}

// checkFunction compares a note's degree and function over the chord with the tables.
func checkFunction(t *rapid.T, doc modelDocument, n modelNote, chordRoot, chordKind string) {
	above := (class(n.Name) - class(chordRoot) + 12) % 12
	function := map[rune]string{'C': "chord tone", 't': "tension", 'a': "avoid", '-': "outside"}[[]rune(chordFunctions[chordKind])[above]]
	dominant := slices.Contains([]string{"7", "9", "13", "7sus4"}, chordKind)
	blues := strings.HasSuffix(doc.Spec.Home, " minor pentatonic") || strings.HasSuffix(doc.Spec.Home, " blues")
	if blues && (above == 3 && dominant || above == 6 && (dominant || chordKind == "m7" || chordKind == "m9")) {
		function = "blue"
	}
	degree := strings.Fields("1 b9 9 b3 3 11 #11 5 b13 13 b7 7")[above]
	if own := chordDegrees[chordKind][above]; own != "" {
		degree = own
	}
	if n.Scale >= 0 {
		s := doc.Scales[n.Scale]
		if !slices.Contains(s.Notes, n.Name) {
			t.Fatalf("%s is not a note of %s", n.Name, s.Name)
		}
		root, _, _ := strings.Cut(s.Name, " ")
		perfect := chordKind != "7alt" && chordKind != "m7b5"
		if above == 6 && perfect && class(root) == class(chordRoot) && (letter(n.Name)-letter(root)+7)%7 == 4 {
			degree = "b5"
		}
	}
	if n.Function != function || n.Degree != degree {
		t.Fatalf("%s over %s in %s: %s, %s; want %s, %s", n.Name, doc.Spec.Chord, doc.Spec.Home, n.Degree, n.Function, degree, function)
	}
}

func TestNamesDegreesAndFunctionsFollowAnIndependentModel(t *testing.T) {
	known := knownScales(t)
	kinds, chords := make([]string, 0, len(known)), make([]string, 0, len(chordFunctions))
	for kind := range known {
		kinds = append(kinds, kind)
	}
	for kind := range chordFunctions {
		chords = append(chords, kind)
	}
	slices.Sort(kinds)
	slices.Sort(chords)
	wanted, checked := 150, 0
	if need.All() {
		wanted = 2000
	}
	roots := rapid.SampledFrom(strings.Fields("C C# Db D D# Eb E F F# Gb G G# Ab A Bb B"))
	for round := 0; checked < wanted; round++ {
		if round > 100 {
			t.Fatalf("only %d lines could be built", checked)
		}
		rapid.Check(t, func(t *rapid.T) {
			chordRoot, chordKind := roots.Draw(t, "chord root"), rapid.SampledFrom(chords).Draw(t, "chord kind")
			spec := exercise.Spec{
				Home:       roots.Draw(t, "root") + " " + rapid.SampledFrom(kinds).Draw(t, "home"),
				Chord:      chordRoot + chordKind,
				Instrument: rapid.SampledFrom([]string{"guitar", "seven-string guitar", "bass", "ukulele", "mandolin", "baritone guitar"}).Draw(t, "instrument"),
				Direction:  rapid.SampledFrom([]string{"down", "up", "up-down"}).Draw(t, "direction"),
			}
			if over := rapid.SampledFrom([]string{"", "semitone down", "tritone", "minor third up", "b5", "whole tone up minor pentatonic"}).Draw(t, "over"); over != "" {
				spec.Superimpose = []string{over}
			}
			ex, err := exercise.Build(spec)
			if err != nil {
				return // no placements that one hand joins
			}
			checked++
			var doc modelDocument
			text, err := json.Marshal(ex)
			if err == nil {
				err = json.Unmarshal(text, &doc)
			}
			if err != nil {
				t.Fatal(err)
			}
			if !slices.Equal(doc.Spec.Superimpose, spec.Superimpose) {
				t.Fatalf("superimpose %v became %v", spec.Superimpose, doc.Spec.Superimpose)
			}
			for _, s := range doc.Scales {
				checkSpelling(t, s.Name, s.Notes, known)
				for _, spot := range s.Placement.Spots {
					if !slices.Contains(s.Notes, spot.Name) || class(spot.Name) != spot.MIDI%12 {
						t.Fatalf("%s has a spot %s", s.Name, spot.Name)
					}
				}
			}
			for _, n := range doc.Notes {
				checkFunction(t, doc, n, chordRoot, chordKind)
			}
		})
		if t.Failed() {
			return
		}
	}
}
