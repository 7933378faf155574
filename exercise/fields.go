package exercise

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"

	"heddle/line"
	"heddle/pitch"
)

// A Field is one field of a Spec as every form of it knows it.
type Field struct {
	Name    string
	Meaning string // one line for help
	Example string
	Default string // what it is when unset, in words; empty where it must be set or is then absent
	Repeats bool   // may be given more than once

	kind kind
	get  func(Spec) []string
	set  func(*Spec, string) error
}

// A kind is how a field's value looks in JSON.
type kind int

const (
	stringKind kind = iota
	numberKind
	boolKind
	stringsKind
	numbersKind
)

// Bounds of the numeric fields. They keep one exercise to what a player can
// use and a machine can draw; each is checked wherever a value comes in.
const (
	maxBars    = 64
	maxScales  = 6
	maxQuarter = 16 // pickup and gap, in quarter notes
	maxEnding  = 16
)

// Fields lists the fields in canonical order.
func Fields() []Field { return slices.Clone(fields()) }

// fields is the table itself, made once; nobody writes to it.
var fields = sync.OnceValue(func() []Field {
	table := fieldTable()
	for i := range table {
		table[i].Default = defaultWords[table[i].Name]
	}
	return table
})

// defaultWords says each field's default for help.
var defaultWords = map[string]string{
	"chord": "the home scale's own chord", "groups": "2 for each scale", "order": "straight", "follow": "first", "direction": "down",
	"fret": "the nearest placements, lowest on the neck", "start": "the outermost note of the home placement",
	"value": "eighth", "meter": "4/4", "pickup": "0", "feel": "straight", "gap": "0", "tempo": "80", "bars": "0",
	"land": "none", "land-beat": "1", "ending": "1", "instrument": "guitar", "tuning": "the instrument's own",
	"frets": "the instrument's own", "scale": "the instrument's own", "reach": "100", "capo": "0", "picking": "alternate", "names": "english",
}

func fieldTable() []Field {
	return []Field{
		text("chord", "the chord it sounds over", "Gm7", func(s *Spec) *string { return &s.Chord }),
		text("changes", "a chord for each bar instead of one chord", "Gm7 | C7 | Fmaj7 | %", func(s *Spec) *string { return &s.Changes }),
		text("home", "the home scale", "G minor pentatonic", func(s *Spec) *string { return &s.Home }),
		{Name: "superimpose", Meaning: "a scale to lay over it, or how far away the same scale lies; may be given again", Example: "semitone up", Repeats: true,
			kind: stringsKind, get: func(s Spec) []string { return s.Superimpose },
			set: func(s *Spec, v string) error { s.Superimpose = append(s.Superimpose, v); return nil }},
		{Name: "groups", Meaning: "how many notes from each scale in turn", Example: "3,3", kind: numbersKind, get: getGroups, set: setGroups},
		text("order", "the digital pattern of each group, or straight", "1 3 2", func(s *Spec) *string { return &s.Order }),
		text("follow", "each group starts beside the first or the last note of the one before", "first", func(s *Spec) *string { return &s.Follow }),
		text("direction", "where the line goes: down, up, down-up or up-down", "down", func(s *Spec) *string { return &s.Direction }),
		whole("fret", "where the first finger should be", "10", 1, 36, func(s *Spec) *int { return &s.Fret }),
		text("start", "the first note", "F5", func(s *Spec) *string { return &s.Start }),
		text("value", "the note value: quarter, eighth, eighth-triplet, sixteenth, sixteenth-triplet or quintuplet", "eighth", func(s *Spec) *string { return &s.Value }),
		text("meter", "the time signature", "4/4", func(s *Spec) *string { return &s.Meter }),
		real("pickup", "how many quarter notes before the first bar line it begins", "0.5", 0, maxQuarter, func(s *Spec) *float64 { return &s.Pickup }),
		text("feel", "straight eighths, or swing and its ratio", "swing 2:1", func(s *Spec) *string { return &s.Feel }),
		real("gap", "rest between groups, in quarter notes", "0.5", 0, maxQuarter, func(s *Spec) *float64 { return &s.Gap }),
		real("tempo", "tempo in quarter notes a minute", "84", 20, 400, func(s *Spec) *float64 { return &s.Tempo }),
		whole("bars", "how many bars at the most; 0 for as long as the neck allows", "4", 0, maxBars, func(s *Spec) *int { return &s.Bars }),
		text("land", "the degrees to land on, or none", "third", func(s *Spec) *string { return &s.Land }),
		real("land-beat", "the beat of the bar to land on", "1", 1, 32, func(s *Spec) *float64 { return &s.LandBeat }),
		whole("ending", "which ending to play, 1 for the best", "1", 1, maxEnding, func(s *Spec) *int { return &s.Ending }),
		text("instrument", "the instrument: guitar, bass, ukulele, mandolin and others", "guitar", func(s *Spec) *string { return &s.Instrument }),
		text("tuning", "the open strings, lowest first", "E2 A2 D3 G3 B3 E4", func(s *Spec) *string { return &s.Tuning }),
		whole("frets", "how many frets the neck has", "22", 1, 36, func(s *Spec) *int { return &s.Frets }),
		real("scale", "length of the open string in mm", "648", 200, 1200, func(s *Spec) *float64 { return &s.Scale }),
		real("reach", "reach between first and fourth finger in mm", "100", 40, 200, func(s *Spec) *float64 { return &s.Reach }),
		whole("capo", "the fret a capo sits behind; 0 for none", "0", 0, 24, func(s *Spec) *int { return &s.Capo }),
		{Name: "left", Meaning: "a left-handed neck", Example: "true", kind: boolKind, get: getLeft, set: setLeft},
		text("picking", "the picking: alternate, economy or legato", "alternate", func(s *Spec) *string { return &s.Picking }),
		text("names", "note names in english, german or solfege", "english", func(s *Spec) *string { return &s.Names }),
	}
}

// Set gives the named field the value, read as every text form writes it.
// A field that repeats gains the value.
func (s *Spec) Set(name, value string) error {
	for _, f := range fields() {
		if f.Name == name {
			return f.Set(s, value)
		}
	}
	return unknownField(name)
}

// Set gives the field of s the value.
func (f Field) Set(s *Spec, value string) error {
	value = strings.TrimSpace(value)
	if value == "" || len(value) > maxText || strings.ContainsAny(value, "\n\r") {
		return &pitch.InputError{What: f.Name, Value: clip(value), Want: f.want()}
	}
	return f.set(s, value)
}

// Get returns the field's values as text, none when it is unset.
func (f Field) Get(s Spec) []string { return f.get(s) }

// maxText bounds the length of one field's value in bytes.
const maxText = 2000

func (f Field) want() string { return f.Meaning + ", such as " + f.Example }

func unknownField(name string) error {
	var names []string
	for _, f := range fields() {
		names = append(names, f.Name)
	}
	return &pitch.InputError{What: "field", Value: clip(name), Want: "one of " + strings.Join(names, ", "), Nearest: pitch.Nearest(name, names)}
}

// clip shortens a value for a message of one line.
func clip(s string) string {
	const most = 60
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "…"
	}
	return s
}

func text(name, meaning, example string, at func(*Spec) *string) Field {
	return Field{Name: name, Meaning: meaning, Example: example,
		get: func(s Spec) []string { return some(*at(&s), *at(&s) != "") },
		set: func(s *Spec, v string) error { *at(s) = strings.Join(strings.Fields(v), " "); return nil },
	}
}

func whole(name, meaning, example string, low, high int, at func(*Spec) *int) Field {
	f := Field{Name: name, Meaning: meaning, Example: example, kind: numberKind,
		get: func(s Spec) []string { return some(strconv.Itoa(*at(&s)), *at(&s) != 0) },
	}
	f.set = func(s *Spec, v string) error {
		n, err := strconv.Atoi(v)
		if err != nil || n < low || n > high {
			return &pitch.InputError{What: name, Value: clip(v), Want: "a whole number from " + strconv.Itoa(low) + " to " + strconv.Itoa(high) + ", " + meaning}
		}
		*at(s) = n
		return nil
	}
	return f
}

func real(name, meaning, example string, low, high float64, at func(*Spec) *float64) Field {
	f := Field{Name: name, Meaning: meaning, Example: example, kind: numberKind,
		get: func(s Spec) []string { return some(number(*at(&s)), *at(&s) != 0) },
	}
	f.set = func(s *Spec, v string) error {
		x, err := strconv.ParseFloat(v, 64)
		if err != nil || math.IsNaN(x) || x < low || x > high {
			return &pitch.InputError{What: name, Value: clip(v), Want: "a number from " + number(low) + " to " + number(high) + ", " + meaning}
		}
		*at(s) = x
		return nil
	}
	return f
}

func some(value string, given bool) []string {
	if !given {
		return nil
	}
	return []string{value}
}

func number(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

func getGroups(s Spec) []string { return some(line.FormatGroups(s.Groups), len(s.Groups) > 0) }

func setGroups(s *Spec, v string) error {
	sizes, err := line.ParseGroups(v)
	if err != nil {
		return named("groups", err)
	}
	s.Groups = sizes
	return nil
}

func getLeft(s Spec) []string { return some("true", s.Left) }

func setLeft(s *Spec, v string) error {
	switch v {
	case "true", "yes", "on":
		s.Left = true
	case "false", "no", "off":
		s.Left = false
	default:
		return &pitch.InputError{What: "left", Value: clip(v), Want: "true or false"}
	}
	return nil
}
