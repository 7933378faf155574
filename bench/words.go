package bench

import (
	"net/url"
	"slices"
	"strconv"

	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
)

// fieldLabels name the controls. They are read aloud, and seen in the rare
// part; the sentence itself says what each of its words is.
var fieldLabels = map[string]string{
	"chord": "Chord", "home": "Home scale", "superimpose": "Scale laid over it", "groups": "Notes from scale",
	"direction": "Direction", "follow": "Each group starts beside the", "fret": "Fret of the first finger", "value": "Note value",
	"tempo": "Tempo, quarter notes a minute", "land": "Landing",
	"changes": "Chord changes, a bar each", "order": "Order in the group", "start": "First note", "meter": "Time signature",
	"feel": "Feel", "pickup": "Pickup, quarter notes", "gap": "Rest between groups, quarter notes", "bars": "Bars at the most",
	"land-beat": "Beat to land on", "instrument": "Instrument", "tuning": "Tuning, lowest first", "frets": "Frets",
	"scale": "String length, mm", "reach": "Reach of the hand, mm", "capo": "Capo at fret", "left": "Left-handed",
	"picking": "Picking", "names": "Note names",
}

// fixedWords are the choices of fields that have few. The first choice of a
// rare field is its default.
var fixedWords = map[string][]option{
	"direction": {{"down", "falling"}, {"up", "rising"}, {"down-up", "falling, then rising"}, {"up-down", "rising, then falling"}},
	"follow":    {{"first", "first"}, {"last", "last"}},
	"value": {{"quarter", "quarters"}, {"eighth", "eighths"}, {"eighth-triplet", "eighth triplets"}, {"sixteenth", "sixteenths"},
		{"sixteenth-triplet", "sixteenth triplets"}, {"quintuplet", "quintuplets"}},
	"land": {{"none", "nothing in particular"}, {"root", "the root"}, {"third", "the third"}, {"fifth", "the fifth"}, {"seventh", "the seventh"},
		{"ninth", "the ninth"}, {"root,third,fifth", "root, third or fifth"}},
	"feel": {{"", "straight"}, {"swing 3:2", "swing 3:2, light"}, {"swing 2:1", "swing 2:1, triplets"}, {"swing 3:1", "swing 3:1, hard"}},

	"picking": {{"", "alternate"}, {"economy", "economy"}, {"legato", "legato"}},
	"names":   {{"", "English: B♭, B"}, {"german", "German: B, H"}, {"solfege", "fixed do: Si♭, Si"}},
	"meter":   {{"2/4", ""}, {"3/4", ""}, {"4/4", ""}, {"5/4", ""}, {"6/8", ""}, {"7/8", ""}, {"12/8", ""}},
}

// A span bounds a number.
type span struct{ low, high, step string }

var spans = map[string]span{
	"fret": {"1", "36", "1"}, "tempo": {"20", "400", "any"}, "bars": {"0", "64", "1"}, "frets": {"1", "36", "1"}, "capo": {"0", "24", "1"},
	"pickup": {"0", "16", "any"}, "gap": {"0", "16", "any"}, "land-beat": {"1", "32", "any"}, "scale": {"200", "1200", "any"}, "reach": {"40", "200", "any"},
}

// distances are the usual ways of saying how far a scale lies from home.
var distances = []string{
	"semitone up", "semitone down", "whole tone up", "whole tone down", "minor third up", "minor third down",
	"major third up", "major third down", "fourth up", "fourth down", "tritone",
}

// chordKinds are the chords offered on the home scale's root.
var chordKinds = []string{"m7", "7", "maj7", "m7b5", "m6", "6", "9", "m9", "13", "7#9", "7sus4", "dim7", "mMaj7"}

// shape gives a control its kind, its choices and its bounds.
func (a *asked) shape(c *control) {
	c.Kind = "text"
	bounds, numeric := spans[c.Field]
	switch {
	case numeric:
		c.Kind, c.Min, c.Max, c.Step = "number", bounds.low, bounds.high, bounds.step
	case c.Field == "left":
		c.Kind = "check"
	case c.Field == "groups":
		c.Kind, c.Options = "select", groupWords()
	case c.Field == "instrument":
		c.Kind = "select"
		for i, name := range neck.Instruments() {
			value := name
			if i == 0 {
				value = ""
			}
			c.Options = append(c.Options, option{value, name})
		}
	case c.Field == "chord" || c.Field == "home" || c.Field == "superimpose" || c.Field == "meter":
		c.List = "suggest-" + c.Field
	case fixedWords[c.Field] != nil:
		c.Kind, c.Options = "select", fixedWords[c.Field]
	}
	if c.Field == "superimpose" && c.Value == "" {
		c.Hint = "no other scale"
	}
	if c.Kind == "select" && !slices.ContainsFunc(c.Options, func(o option) bool { return o.Value == c.Value }) {
		c.Options = append(slices.Clip(c.Options), option{c.Value, c.Value})
	}
}

func groupWords() []option {
	words := [...]string{"one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}
	list := make([]option, 0, line.MostInGroup)
	for i, word := range words[:line.MostInGroup] {
		list = append(list, option{strconv.Itoa(i + 1), word})
	}
	return list
}

// A suggestions list is offered to a text control.
type suggestions struct {
	ID     string
	Values []string
}

// suggest lists what is offered for chord, home and superimposed scales, on
// the home scale's own root.
func (a *asked) suggest() []suggestions {
	root := a.root()
	scales := make([]string, 0, 100)
	for _, t := range pitch.Types() {
		scales = append(scales, root+" "+t.Name)
	}
	chords := make([]string, len(chordKinds))
	for i, kind := range chordKinds {
		chords[i] = root + kind
	}
	meters := make([]string, 0, 7)
	for _, o := range fixedWords["meter"] {
		meters = append(meters, o.Value)
	}
	return []suggestions{{"suggest-chord", chords}, {"suggest-home", scales}, {"suggest-superimpose", distances}, {"suggest-meter", meters}}
}

// root is the home scale's root in the reader's naming.
func (a *asked) root() string { return a.exercise.Naming.Plain(a.exercise.Scales[0].Root) }

func escapeQuery(s string) string { return url.QueryEscape(s) }
