package line

import (
	"strings"
	"testing"

	"heddle/neck"
	"heddle/pitch"
)

// minorPentatonic is typed here so that these tests lean on no table of scale
// types.
var minorPentatonic = pitch.Type{Name: "minor pentatonic", Degrees: []pitch.Degree{{Number: 1}, {Number: 3, Alter: -1}, {Number: 4}, {Number: 5}, {Number: 7, Alter: -1}}}

// name reads a note name that is known to be good.
func name(s string) pitch.Name {
	n, err := pitch.ParseName(s)
	if err != nil {
		panic(err)
	}
	return n
}

// note reads a pitch that is known to be good.
func note(s string) *pitch.Pitch {
	p, err := pitch.Parse(s)
	if err != nil {
		panic(err)
	}
	return &p
}

// inWindow lays a scale by hand: every tone between the frets, each pitch
// once, on the lowest string that has it.
func inWindow(s pitch.Scale, low, high int) neck.Placement {
	in := neck.Guitar()
	p := neck.Placement{Scale: s, Window: neck.Window{Low: low, High: high}}
	top := -1
	for str := in.Strings(); str >= 1; str-- {
		for fret := low; fret <= high; fret++ {
			spot := neck.Spot{String: str, Fret: fret}
			key := in.MIDI(spot)
			if n, ok := s.Named(key % 12); ok && key > top {
				p.Places = append(p.Places, neck.Place{Spot: spot, Pitch: pitch.Named(n, key)})
				top = key
			}
		}
	}
	return p
}

// source is a scale in a window of frets with straight groups.
func source(root string, t pitch.Type, low, high, size int) Source {
	s := pitch.NewScale(name(root), t)
	return Source{Scale: s, Placement: inWindow(s, low, high), Size: size}
}

// outAndBack is the worked example of the design: G minor pentatonic at fret
// 10 and A♭ minor pentatonic at fret 11.
func outAndBack(sizes ...int) []Source {
	return []Source{
		source("G", minorPentatonic, 10, 13, sizes[0]),
		source("Ab", minorPentatonic, 11, 14, sizes[1]),
	}
}

// eighths is straight eighths in 4/4 from the first bar line.
var eighths = Rhythm{Value: Eighth, Meter: CommonTime}

// weave is a request for one stretch of scales.
func weave(d Direction, f Follow, sources ...Source) Request {
	return Request{Sections: []Section{{Sources: sources}}, Direction: d, Follow: f, Repeats: KeepRepeats, Rhythm: eighths}
}

// build builds a line that is known to be good.
func build(t testing.TB, r Request) []Note {
	t.Helper()
	notes, err := Build(r)
	if err != nil {
		t.Fatal(err)
	}
	return notes
}

// spoken writes a line as a teacher would say it: "F5 D5 C5 | Eb5 …".
func spoken(notes []Note) string {
	var b strings.Builder
	for i, n := range notes {
		if i > 0 && n.Group != notes[i-1].Group {
			b.WriteString(" |")
		}
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(n.Pitch.String())
	}
	return b.String()
}
