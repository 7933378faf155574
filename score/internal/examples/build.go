// Package examples holds the exercises that the tests of the drawings share.
// They are written out by hand, so that pictures change when the engraving does,
// and not when the search for fingers or endings finds better ones.
package examples

import (
	"strings"
	"testing"

	"heddle/exercise"
	"heddle/finger"
	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
)

func degrees(t testing.TB, text string) []pitch.Degree {
	t.Helper()
	var out []pitch.Degree
	for word := range strings.FieldsSeq(text) {
		d := pitch.Degree{}
		for _, r := range word {
			switch {
			case r == 'b':
				d.Alter--
			case r == '#':
				d.Alter++
			default:
				d.Number = 10*d.Number + int(r-'0')
			}
		}
		out = append(out, d)
	}
	return out
}

// MinorPentatonic returns the scale on a root.
func MinorPentatonic(t testing.TB, root string) pitch.Scale {
	t.Helper()
	n, err := pitch.ParseName(root)
	if err != nil {
		t.Fatal(err)
	}
	return pitch.NewScale(n, pitch.Type{Name: "minor pentatonic", Degrees: degrees(t, "1 b3 4 5 b7")})
}

// InWindow lays a scale over the frets low … high, each pitch once.
func InWindow(in neck.Instrument, s pitch.Scale, low, high int) neck.Placement {
	p := neck.Placement{Scale: s, Window: neck.Window{Low: low, High: high}}
	last := -1
	for number := in.Strings(); number >= 1; number-- {
		for fret := low; fret <= high; fret++ {
			key := in.MIDI(neck.Spot{String: number, Fret: fret})
			if name, ok := s.Named(key % 12); ok && key > last {
				p.Places = append(p.Places, neck.Place{Spot: neck.Spot{String: number, Fret: fret}, Pitch: pitch.Named(name, key)})
				last = key
			}
		}
	}
	return p
}

// Spelled builds an exercise from groups written as "F5 D5 C5 | E♭5 …", each
// group from the next scale in turn, on the placements of its scales.
func Spelled(t testing.TB, in neck.Instrument, groups string, value line.Beat, meter line.Meter, scales ...neck.Placement) *exercise.Exercise {
	t.Helper()
	ex := &exercise.Exercise{
		Instrument: in, Tempo: 84, Sentence: "Over Gm7, weave " + scales[0].Scale.Symbol() + ", three notes and three notes, falling.",
		Rhythm: line.Rhythm{Meter: meter},
		Chords: []exercise.Chord{{Chord: chord(t, "Gm7"), Voicing: []int{43, 53, 58, 62}}},
	}
	for i, p := range scales {
		ex.Scales = append(ex.Scales, exercise.Scale{Scale: p.Scale, Placement: p, Home: i == 0})
	}
	at := line.Beat(0)
	for g, group := range strings.Split(groups, "|") {
		for step, word := range strings.Fields(group) {
			p, err := pitch.Parse(word)
			if err != nil {
				t.Fatal(err)
			}
			scale := g % len(scales)
			n := exercise.Note{Index: len(ex.Notes)}
			n.Pitch, n.Group, n.Scale, n.Step, n.Start, n.Duration, n.Role = p, g, scale, step+1, at, value, line.PatternRole
			for _, place := range scales[scale].Places {
				if place.Pitch.MIDI() == p.MIDI() {
					n.Spot = place.Spot
				}
			}
			if n.String == 0 {
				n.Spot = lowestSpot(in, p.MIDI(), scales[scale].Window.Low)
			}
			n.Finger = max(0, min(4, n.Fret-scales[0].Window.Low+1))
			n.Stroke = finger.Down
			if len(ex.Notes)%2 == 1 {
				n.Stroke = finger.Up
			}
			over := ex.Chords[0]
			n.Degree, n.Function = over.Degree(p.Name, ex.Scales[scale].Scale), over.Function(p.Name, ex.Scales[0].Scale)
			n.Roughness = pitch.Hear(over.Voicing).Roughness(p.MIDI())
			ex.Notes = append(ex.Notes, n)
			at += value
		}
	}
	ex.Length = (at + meter.Bar() - 1) / meter.Bar() * meter.Bar()
	ex.Chords[0].End = ex.Length
	return ex
}

func lowestSpot(in neck.Instrument, key, near int) neck.Spot {
	for number := 1; number <= in.Strings(); number++ {
		if fret := key - in.Open[number-1].MIDI() - in.Capo; fret >= near-2 && fret <= in.LastFret() && fret >= 0 {
			return neck.Spot{String: number, Fret: fret}
		}
	}
	return neck.Spot{String: in.Strings(), Fret: max(0, key-in.Open[in.Strings()-1].MIDI())}
}

const workedGroups = "F5 D5 C5 | Eb5 Db5 Cb5 | D5 C5 Bb4 | Db5 Cb5 Ab4 | C5 Bb4 G4 | Cb5 Ab4 Gb4 | Bb4 G4 F4 | Ab4 Gb4 Eb4 | G4 F4 D4 | Gb4 Eb4 Db4 | F4 D4 C4 | Eb4 Db4 Cb4 | D4 C4 Bb3 | Db4 Cb4 Ab3 | C4 Bb3 G3 | Cb4 Ab3 Gb3 | Bb3 G3 F3 | Ab3 Gb3 Eb3 | G3 F3 D3"

// Worked is the line of the domain's worked example.
func Worked(t testing.TB) *exercise.Exercise {
	in := neck.Guitar()
	ex := Spelled(t, in, workedGroups, line.Quarter/2, line.Meter{Beats: 4, Unit: 4},
		InWindow(in, MinorPentatonic(t, "G"), 10, 13), InWindow(in, MinorPentatonic(t, "Ab"), 11, 14))
	return ex
}

func chord(t testing.TB, symbol string) pitch.Chord {
	t.Helper()
	c, err := pitch.ParseChord(symbol)
	if err != nil {
		t.Fatal(err)
	}
	return c
}
