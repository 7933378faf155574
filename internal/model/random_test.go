// Package model reads the domain's rules a second time. It shares no code with
// the program: it asks for random exercises, reads only the JSON and MusicXML
// that any user gets, and checks names, functions, lines, endings, hands and
// note writing by its own arithmetic and its own tables.
package model

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"net/url"
	"slices"
	"strings"
	"testing"

	"heddle/deliver"
	"heddle/exercise"
	"heddle/internal/need"
)

// Exercises checked in the everyday run, and in the long one.
const (
	few  = 60
	many = 2000
)

// asked is what an exercise was asked for.
type asked struct {
	home    scaleName
	chord   chordName // no kind if the exercise has the home scale's own chord
	over    []overlay
	groups  []int // nil for a plain run
	order   []int // scale steps counted in the line's direction; nil for straight
	fields  url.Values
	landing bool
}

// An overlay is a superimposed scale: a type on a root some interval away, or
// on a root of its own.
type overlay struct {
	words string
	kind  string // "" for the home scale's type
	steps int    // letters up from the home root; negative is down
	semis int    // semitones up from the home root
	named bool   // the root was typed
}

var intervals = []overlay{
	{words: "semitone up", steps: 1, semis: 1}, {words: "semitone down", steps: -1, semis: -1},
	{words: "tone up", steps: 1, semis: 2}, {words: "tone down", steps: -1, semis: -2},
	{words: "minor third up", steps: 2, semis: 3}, {words: "minor third down", steps: -2, semis: -3},
	{words: "major third up", steps: 2, semis: 4}, {words: "major third down", steps: -2, semis: -4},
	{words: "fourth up", steps: 3, semis: 5}, {words: "fifth up", steps: 4, semis: 7}, {words: "tritone", semis: 6},
}

var (
	instruments = []string{"guitar", "guitar", "guitar", "seven-string guitar", "eight-string guitar", "baritone guitar",
		"bass", "five-string bass", "six-string bass", "ukulele", "baritone ukulele", "mandolin"}
	roots  = []string{"C", "Db", "C#", "D", "Eb", "D#", "E", "F", "F#", "Gb", "G", "Ab", "G#", "A", "Bb", "B"}
	meters = []string{"4/4", "4/4", "4/4", "3/4", "2/4", "5/4", "6/8", "9/8", "12/8", "7/8", "5/8"}
	values = []string{"eighth", "eighth", "eighth", "quarter", "eighth-triplet", "sixteenth", "sixteenth-triplet", "quintuplet"}
)

func pick[T any](r *rand.Rand, from []T) T { return from[r.IntN(len(from))] }

// someExercise asks for a random exercise.
func someExercise(r *rand.Rand) asked {
	a := asked{home: scaleName{pick(r, roots), pick(r, homeKinds)}, fields: url.Values{}}
	set := func(name, value string) { a.fields.Add(name, value) }
	set("home", a.home.root+" "+a.home.kind)
	for range 1 + r.IntN(5)/4 {
		o := pick(r, intervals)
		switch r.IntN(4) {
		case 0:
			o = overlay{kind: pick(r, homeKinds), named: true}
			root := pick(r, roots)
			o.words = root + " " + o.kind
			o.semis = pitchClass(root) - pitchClass(a.home.root)
		}
		if slices.ContainsFunc(a.over, func(other overlay) bool { return mod(other.semis-o.semis, 12) == 0 }) || mod(o.semis, 12) == 0 {
			continue
		}
		a.over = append(a.over, o)
		set("superimpose", o.words)
	}
	a.groups = make([]int, 1+len(a.over))
	sizes := make([]string, len(a.groups))
	for i := range a.groups {
		a.groups[i] = 1 + r.IntN(4)
		sizes[i] = fmt.Sprint(a.groups[i])
	}
	switch {
	case r.IntN(8) == 0:
		a.groups = nil
		set("groups", "run")
	case r.IntN(4) == 0:
		for i := range a.groups {
			a.groups[i], sizes[i] = 3, "3"
		}
		a.order = pick(r, [][]int{{1, 3, 2}, {3, 2, 1}, {1, 3, 5}, {2, 1, 3}})
		set("order", strings.Trim(fmt.Sprint(a.order), "[]"))
		fallthrough
	default:
		set("groups", strings.Join(sizes, ","))
	}
	if r.IntN(2) == 0 {
		a.chord = chordName{pick(r, roots), pick(r, chordKinds)}
		set("chord", a.chord.root+a.chord.kind)
	}
	set("direction", pick(r, []string{"down", "up", "down-up", "up-down"}))
	set("follow", pick(r, []string{"first", "last"}))
	set("instrument", pick(r, instruments))
	set("meter", pick(r, meters))
	set("value", pick(r, values))
	set("repeats", pick(r, []string{"keep", "keep", "skip"}))
	set("picking", pick(r, []string{"alternate", "economy", "legato"}))
	if r.IntN(2) == 0 {
		set("fret", fmt.Sprint(1+r.IntN(12)))
	}
	if r.IntN(2) == 0 {
		a.landing = true
		set("land", pick(r, []string{"third", "root", "fifth", "third,root", "root,third,fifth"}))
	}
	if r.IntN(3) == 0 {
		set("bars", fmt.Sprint(2+r.IntN(3)))
	}
	return a
}

// document is what the JSON says, as far as it is checked.
type document struct {
	Spec struct {
		Superimpose []string
		Chord       string
	}
	Sentence string
	Scales   []struct {
		Name      string
		Notes     []string
		Placement struct {
			Window [2]int
			Spots  []spot
		}
	}
	Notes   []note
	Endings []ending
}

type ending struct {
	Notes  []note
	Target string
	Kind   string
	Cost   float64
}

type spot struct {
	String, Fret, Octave, MIDI int
	Name                       string
}

type note struct {
	Index, Group, Scale, Step, Octave, MIDI int
	Name, Degree, Function, Role, Stroke    string
	Beat, Duration                          float64
	String, Fret, Finger                    int
}

// built is an exercise as a user gets it.
type built struct {
	asked
	document
	score partXML
}

// exercises builds random exercises. What does not fit on the neck is refused,
// as it should be, and another is asked for.
func exercises(t *testing.T, seed uint64) []built {
	t.Helper()
	n := few
	if need.All() {
		n = many
	}
	r := rand.New(rand.NewPCG(seed, 1))
	all := make([]built, 0, n)
	refused := 0
	for len(all) < n {
		a := someExercise(r)
		spec, err := exercise.FromValues(a.fields)
		if err != nil {
			t.Fatalf("%s: %v", a.fields.Encode(), err)
		}
		ex, err := exercise.Build(spec)
		if err != nil {
			if refused++; refused > 2*n {
				t.Fatalf("%d exercises were refused, the last: %s: %v", refused, a.fields.Encode(), err)
			}
			continue
		}
		b := built{asked: a}
		decode(t, ex, "json", func(text []byte) error { return json.Unmarshal(text, &b.document) })
		decode(t, ex, "musicxml", func(text []byte) (err error) { b.score, err = readScore(text); return err })
		all = append(all, b)
	}
	t.Logf("%d exercises, %d more refused", len(all), refused)
	return all
}

func decode(t *testing.T, ex *exercise.Exercise, format string, read func([]byte) error) {
	t.Helper()
	i := slices.IndexFunc(deliver.Formats(), func(f deliver.Format) bool { return f.Name == format })
	var text bytes.Buffer
	if err := deliver.Formats()[i].Write(t.Context(), &text, ex, deliver.Choices{}, nil); err != nil {
		t.Fatal(err)
	}
	if err := read(text.Bytes()); err != nil {
		t.Fatalf("%s: %v", format, err)
	}
}

// faults counts what breaks a rule, and keeps the first few of each.
type faults struct {
	count  map[string]int
	shown  map[string][]string
	habits map[string]bool // rules that a hand breaks where nothing else is as easy
}

const (
	mostShown = 4
	rare      = 0.01 // a habit may be broken in so many exercises, one of a hundred
)

func (f *faults) add(rule string, b *built, format string, args ...any) {
	if f.count[rule]++; f.count[rule] <= mostShown {
		f.shown[rule] = append(f.shown[rule], b.fields.Encode()+": "+fmt.Sprintf(format, args...))
	}
}

// habit counts what breaks a habit of the hand.
func (f *faults) habit(rule string, b *built, format string, args ...any) {
	f.habits[rule] = true
	f.add(rule, b, format, args...)
}

// report reports what was broken among n exercises.
func (f *faults) report(t *testing.T, n int) {
	for rule, count := range f.count {
		if f.habits[rule] && float64(count) <= max(1, rare*float64(n)) {
			t.Logf("%s: %d times in %d exercises", rule, count, n)
			continue
		}
		t.Errorf("%s: %d times in %d exercises\n%s", rule, count, n, strings.Join(f.shown[rule], "\n"))
	}
}

// TestAnIndependentModelAgrees checks every rule on every exercise.
func TestAnIndependentModelAgrees(t *testing.T) {
	all := exercises(t, 14)
	for rule, check := range map[string]func(*faults, *built){
		"names": checkNames, "functions": checkFunctions, "line": checkLine, "endings": checkEndings,
		"hands": checkHands, "writing": checkWriting,
	} {
		t.Run(rule, func(t *testing.T) {
			f := &faults{map[string]int{}, map[string][]string{}, map[string]bool{}}
			for i := range all {
				check(f, &all[i])
			}
			f.report(t, len(all))
		})
	}
}
