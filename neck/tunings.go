package neck

import (
	"slices"
	"strings"

	"heddle/pitch"
)

// A namedTuning is a tuning of one instrument by its usual names.
type namedTuning struct {
	instrument string
	names      []string // the first is the most usual
	open       string   // lowest string first
}

// namedTunings lists tunings that players call by name (common practice). Every
// instrument also has "standard", "half step down" and "whole step down", see
// [ParseTuning].
var namedTunings = []namedTuning{
	{"guitar", []string{"drop D", "dropped D"}, "D2 A2 D3 G3 B3 E4"},
	{"guitar", []string{"double drop D"}, "D2 A2 D3 G3 B3 D4"},
	{"guitar", []string{"DADGAD", "D modal", "Celtic"}, "D2 A2 D3 G3 A3 D4"},
	{"guitar", []string{"open D", "Vestapol"}, "D2 A2 D3 F#3 A3 D4"},
	{"guitar", []string{"open D minor", "open Dm"}, "D2 A2 D3 F3 A3 D4"},
	{"guitar", []string{"open E"}, "E2 B2 E3 G#3 B3 E4"},
	{"guitar", []string{"open E minor", "open Em"}, "E2 B2 E3 G3 B3 E4"},
	{"guitar", []string{"open G", "Spanish", "slack key", "taro patch"}, "D2 G2 D3 G3 B3 D4"},
	{"guitar", []string{"open G minor", "open Gm"}, "D2 G2 D3 G3 Bb3 D4"},
	{"guitar", []string{"open A"}, "E2 A2 E3 A3 C#4 E4"},
	{"guitar", []string{"open C"}, "C2 G2 C3 G3 C4 E4"},
	{"guitar", []string{"open C6"}, "C2 A2 C3 G3 C4 E4"},
	{"guitar", []string{"C standard"}, "C2 F2 Bb2 Eb3 G3 C4"},
	{"guitar", []string{"B standard"}, "B1 E2 A2 D3 F#3 B3"},
	{"guitar", []string{"drop C#", "drop Db"}, "C#2 G#2 C#3 F#3 A#3 D#4"},
	{"guitar", []string{"drop C"}, "C2 G2 C3 F3 A3 D4"},
	{"guitar", []string{"drop B"}, "B1 F#2 B2 E3 G#3 C#4"},
	{"guitar", []string{"all fourths", "fourths", "perfect fourths"}, "E2 A2 D3 G3 C4 F4"},
	{"guitar", []string{"high strung", "Nashville"}, "E3 A3 D4 G4 B3 E4"},
	{"seven-string guitar", []string{"drop A", "dropped A"}, "A1 E2 A2 D3 G3 B3 E4"},
	{"seven-string guitar", []string{"open G", "Russian"}, "D2 G2 B2 D3 G3 B3 D4"},
	{"eight-string guitar", []string{"drop E", "dropped E"}, "E1 B1 E2 A2 D3 G3 B3 E4"},
	{"bass", []string{"drop D", "dropped D"}, "D1 A1 D2 G2"},
	{"bass", []string{"BEAD"}, "B0 E1 A1 D2"},
	{"bass", []string{"tenor"}, "A1 D2 G2 C3"},
	{"bass", []string{"fifths", "all fifths"}, "C1 G1 D2 A2"},
	{"five-string bass", []string{"drop A", "dropped A"}, "A0 E1 A1 D2 G2"},
	{"five-string bass", []string{"high C", "tenor"}, "E1 A1 D2 G2 C3"},
	{"ukulele", []string{"low G"}, "G3 C4 E4 A4"},
	{"ukulele", []string{"D"}, "A4 D4 F#4 B4"},
	{"ukulele", []string{"baritone"}, "D3 G3 B3 E4"},
}

// lowered lists the names of standard tunings and of those a number of semitones
// lower. Guitarists also name them after the lowest string.
var lowered = []struct {
	name   string
	down   int
	guitar bool // on a guitar only
}{
	{"standard", 0, false}, {"half step down", 1, false}, {"whole step down", 2, false},
	{"semitone down", 1, false}, {"whole tone down", 2, false}, {"tone down", 2, false},
	{"E standard", 0, true}, {"Eb standard", 1, true}, {"E flat", 1, true}, {"Eb", 1, true}, {"D standard", 2, true},
}

// tuningNamed returns the instrument's open strings in a tuning known by name,
// string 1 first, or nil.
func (in Instrument) tuningNamed(name string) []pitch.Pitch {
	key := tuningKey(name)
	for _, t := range namedTunings {
		if t.instrument == in.Name && slices.ContainsFunc(t.names, func(n string) bool { return tuningKey(n) == key }) {
			return mustTune(t.open)
		}
	}
	for _, t := range lowered {
		if tuningKey(t.name) != key || t.guitar && in.Name != Guitar().Name {
			continue
		}
		open := slices.Clone(in.Open)
		for i, p := range open {
			if key := p.MIDI() - t.down; t.down > 0 {
				open[i] = pitch.Named(pitch.PlainName(key%12, true), key)
			}
		}
		return open
	}
	return nil
}

// tuningKey returns the one spelling of a tuning's name for look-ups.
func tuningKey(name string) string {
	key := tuningSigns.Replace(strings.ToLower(strings.TrimPrefix(name, "a ")))
	return strings.TrimSuffix(key, "tuning")
}

var tuningSigns = strings.NewReplacer("-", "", "♭", "b", "♯", "#", " ", "", ",", "")

// nearestTuning returns the name of a tuning of the instrument close to what was
// typed, or "".
func (in Instrument) nearestTuning(typed string) string {
	var names []string
	for _, t := range namedTunings {
		if t.instrument == in.Name {
			names = append(names, t.names...)
		}
	}
	for _, t := range lowered {
		names = append(names, t.name)
	}
	keys := make([]string, len(names))
	for i, name := range names {
		keys[i] = tuningKey(name)
	}
	if at := slices.Index(keys, pitch.Nearest(tuningKey(typed), keys)); at >= 0 {
		return names[at]
	}
	return ""
}

// mustTune reads open strings of a table.
func mustTune(open string) []pitch.Pitch {
	pitches, err := ParseTuning(open, Instrument{})
	if err != nil {
		panic(err) // the table is wrong
	}
	return pitches
}
