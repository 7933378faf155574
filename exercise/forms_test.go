package exercise_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"heddle/exercise"
	"heddle/line"
	"heddle/pitch"
)

// anySpec draws specs that Build takes, sparse and full alike.
func anySpec(t *rapid.T) exercise.Spec {
	roots := []string{"C", "C#", "Db", "D", "Eb", "E", "F", "F#", "Gb", "G", "Ab", "A", "Bb", "B"}
	types := []string{"minor pentatonic", "major pentatonic", "minor blues", "dorian", "mixolydian", "whole tone", "harmonic minor"}
	scale := func(label string) string {
		return rapid.SampledFrom(roots).Draw(t, label+" root") + " " + rapid.SampledFrom(types).Draw(t, label+" type")
	}
	away := []string{"semitone up", "semitone down", "tritone", "minor third up", "whole tone down", "major third up"}
	s := exercise.Spec{Home: scale("home")}
	for range rapid.IntRange(0, 2).Draw(t, "superimposed") {
		if rapid.Bool().Draw(t, "by interval") {
			s.Superimpose = append(s.Superimpose, rapid.SampledFrom(away).Draw(t, "interval"))
		} else {
			s.Superimpose = append(s.Superimpose, scale("superimposed"))
		}
	}
	switch rapid.IntRange(0, 3).Draw(t, "sized") {
	case 0:
		s.Groups = []int{line.Run}
	case 1, 2:
		s.Groups = rapid.SliceOfN(rapid.IntRange(1, 5), len(s.Superimpose)+1, len(s.Superimpose)+1).Draw(t, "groups")
	}
	optional := func(label string, values ...string) string {
		return rapid.SampledFrom(append(values, "")).Draw(t, label)
	}
	s.Follow = optional("follow", "first", "last")
	s.Direction = optional("direction", "down", "up", "down-up", "up-down")
	s.Value = optional("value", "quarter", "eighth", "eighth-triplet", "sixteenth", "sixteenth-triplet", "quintuplet")
	s.Meter = optional("meter", "3/4", "5/4", "6/8")
	s.Feel = optional("feel", "swing 2:1", "swing 3:2", "straight")
	s.Repeats = optional("repeats", "keep", "skip")
	s.Land = optional("land", "root", "third", "third,fifth", "none")
	s.Picking = optional("picking", "alternate", "economy", "legato")
	s.Touch = optional("touch", "plain", "blues", "rock", "jazz", "funk", "ballad", "bends, vibrato", "quarter bends")
	s.Names = optional("names", "german", "solfege")
	s.Tempo = rapid.SampledFrom([]float64{0, 60, 84.5, 200}).Draw(t, "tempo")
	s.Pickup = rapid.SampledFrom([]float64{0, 0.5, 1}).Draw(t, "pickup")
	s.Gap = rapid.SampledFrom([]float64{0, 0.5}).Draw(t, "gap")
	s.Cut = optional("cut", "1-2", "3-6")
	s.Left = rapid.Bool().Draw(t, "left")
	return s
}

// mustBuild builds a drawn spec; one that no hand can join is drawn again.
func mustBuild(t *rapid.T, s exercise.Spec) *exercise.Exercise {
	ex, err := exercise.Build(s)
	if err != nil {
		t.Skip("no such line: ", err)
	}
	return ex
}

func TestEveryFormOfASpecReadsBackTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sparse := anySpec(t)
		for _, spec := range []exercise.Spec{sparse, mustBuild(t, sparse).Spec} {
			fromText, err := exercise.ParseText(spec.Text())
			if err != nil {
				t.Fatal(err)
			}
			fromQuery, err := exercise.ParseQuery(spec.Query())
			if err != nil {
				t.Fatal(err)
			}
			data, err := json.Marshal(spec)
			if err != nil {
				t.Fatal(err)
			}
			var fromJSON exercise.Spec
			if err := json.Unmarshal(data, &fromJSON); err != nil {
				t.Fatal(err)
			}
			var fromFlags exercise.Spec
			for _, f := range exercise.Fields() {
				for _, v := range f.Get(spec) {
					if err := f.Set(&fromFlags, v); err != nil {
						t.Fatal(err)
					}
				}
			}
			for form, got := range map[string]exercise.Spec{"text": fromText, "query": fromQuery, "JSON": fromJSON, "flags": fromFlags} {
				if diff := cmp.Diff(spec, got, cmp.Transformer("empty", func(s []string) []string { return append([]string{}, s...) })); diff != "" {
					t.Fatalf("%s of the spec came back changed:\n%s", form, diff)
				}
			}
		}
	})
}

func TestACanonicalSpecBuildsTheSameExercise(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		first := mustBuild(t, anySpec(t))
		again, err := exercise.Build(first.Spec)
		if err != nil {
			t.Fatalf("the canonical spec is refused: %v\n%s", err, first.Spec.Text())
		}
		a, _ := json.Marshal(first)
		b, _ := json.Marshal(again)
		if diff := cmp.Diff(string(a), string(b)); diff != "" {
			t.Fatal(diff)
		}
	})
}

func TestACanonicalSpecHasEveryField(t *testing.T) {
	ex, err := exercise.Build(exercise.Spec{Home: "G minor pentatonic", Superimpose: []string{"semitone up"}})
	if err != nil {
		t.Fatal(err)
	}
	data, err := json.Marshal(ex.Spec)
	if err != nil {
		t.Fatal(err)
	}
	var object map[string]any
	if err := json.Unmarshal(data, &object); err != nil {
		t.Fatal(err)
	}
	for _, f := range exercise.Fields() {
		if _, ok := object[f.Name]; !ok {
			t.Errorf("canonical JSON lacks %s", f.Name)
		}
	}
}

func TestBadInputIsAnsweredInOneLineThatNamesField(t *testing.T) {
	for _, tt := range []struct{ text, field, mentions string }{
		{"hoem: G minor pentatonic", "field", `did you mean "home"?`},
		{"home: G minor pentatonik", "home", "minor pentatonic"},
		{"home: H minor pentatonic", "home", ""},
		{"", "home", "G minor pentatonic"},
		{"home: G minor pentatonic\nchord: Gm77", "chord", ""},
		{"home: G minor pentatonic\nsuperimpose: semitoan up", "superimpose", "semitone up"},
		{"home: G minor pentatonic\ngroups: 0", "groups", "1 to 12"},
		{"home: G minor pentatonic\ngroups: rnu", "groups", "run"},
		{"home: G minor pentatonic\ngroups: run\norder: 1 3 2", "order", "straight"},
		{"home: G minor pentatonic\nrepeats: skpi", "repeats", `did you mean "skip"`},
		{"home: G minor pentatonic\ngroups: 13", "groups", "1 to 12"},
		{"home: G minor pentatonic\ngroups: 3,3", "groups", "one"},
		{"home: G minor pentatonic\nfret: 10\nstart: F#5", "start", "F5"},
		{"home: G minor pentatonic\nfret: 23", "fret", "22"},
		{"home: G minor pentatonic\nfret: -1", "fret", "from 0 to 36"},
		{"home: G minor pentatonic\ntuning: E2 A2 D3 G3 B3 X4", "tuning", "X4"},
		{"home: G minor pentatonic\ntempo: 0", "tempo", "20 to 400"},
		{"home: G minor pentatonic\ntempo: NaN", "tempo", "20 to 400"},
		{"home: G minor pentatonic\ntempo: 1e9", "tempo", "20 to 400"},
		{"home: G minor pentatonic\nbars: 10000", "bars", "64"},
		{"home: G minor pentatonic\nfrets: 5\nfret: 5\nhome: A minor", "home", "given before"},
		{"home: G minor pentatonic\nsuperimpose: tritone\nfrets: 3", "superimpose", "neck of 3 frets"},
		{"home: G minor pentatonic\nfrets: 1", "home", "neck of 1 fret"},
		{"home: C 1 5", "home", "3 to 12 rising degrees"},
		{"home: G minor pentatonic\nmeter: 4/3", "meter", ""},
		{"home: G minor pentatonic\nvalue: eigth", "value", "eighth"},
		{"home: G minor pentatonic\nfeel: swung", "feel", ""},
		{"home: G minor pentatonic\nland: thurd", "land", "third"},
		{"home: G minor pentatonic\nland: root\nland-beat: 9", "land-beat", ""},
		{"home: G minor pentatonic\npickup: 4", "pickup", ""},
		{"home: G minor pentatonic\norder: 1 2 x", "order", ""},
		{"home: G minor pentatonic\ncut: 5", "cut", "5-10"},
		{"home: G minor pentatonic\ncut: 9-3", "cut", "5-10"},
		{"home: G minor pentatonic\ncut: 3-999", "cut", "notes from 1 to "},
		{"home: G minor pentatonic\ninstrument: gitar", "instrument", "guitar"},
		{"home: G minor pentatonic\nchord: Am7\nchanges: Gm7 | C7", "chord", "changes"},
		{"home: G minor pentatonic\nchanges: Gm7 | | C7", "changes", "%"},
	} {
		spec, err := exercise.ParseText(tt.text)
		if err == nil {
			_, err = exercise.Build(spec)
		}
		if err == nil {
			t.Errorf("%q was taken", tt.text)
			continue
		}
		message := err.Error()
		var input *pitch.InputError
		if !asInput(err, &input) || input.What != tt.field {
			t.Errorf("%q: %v does not name the field %s", tt.text, err, tt.field)
		}
		if strings.Contains(message, "\n") || !strings.Contains(message, tt.mentions) {
			t.Errorf("%q: %q should be one line that mentions %q", tt.text, message, tt.mentions)
		}
	}
}

func FuzzParseText(f *testing.F) {
	f.Add("home: G minor pentatonic\nsuperimpose: semitone up\ngroups: 3,3\nfret: 10\n")
	f.Add("home: A 1 b3 4 #5 b7\nchanges: A7 | D7 | %\nland: third,fifth\ntuning: D2 A2 D3 G3 A3 D4")
	f.Fuzz(func(t *testing.T, text string) {
		spec, err := exercise.ParseText(text)
		if err != nil {
			return
		}
		checkBuilds(t, spec)
	})
}

func FuzzSpecJSON(f *testing.F) {
	f.Add(`{"home": "G minor pentatonic", "superimpose": ["tritone"], "groups": [3, 3], "tempo": 84, "left": true}`)
	f.Fuzz(func(t *testing.T, text string) {
		var spec exercise.Spec
		if json.Unmarshal([]byte(text), &spec) == nil {
			checkBuilds(t, spec)
		}
	})
}

func FuzzParseQuery(f *testing.F) {
	f.Add("home=G+minor+pentatonic&superimpose=semitone+up&groups=3%2C3&fret=10&land=third")
	f.Fuzz(func(t *testing.T, query string) {
		if spec, err := exercise.ParseQuery(query); err == nil {
			checkBuilds(t, spec)
		}
	})
}

// checkBuilds builds whatever was parsed: it must be taken or refused with an
// input error, and what is taken must be the same again.
func checkBuilds(t *testing.T, spec exercise.Spec) {
	ex, err := exercise.Build(spec)
	if err != nil {
		var input *pitch.InputError
		if !asInput(err, &input) {
			t.Fatalf("%v is no input error", err)
		}
		return
	}
	if _, err := exercise.Build(ex.Spec); err != nil {
		t.Fatalf("the canonical spec is refused: %v", err)
	}
}
