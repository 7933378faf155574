package examples

import (
	"strings"
	"testing"

	"heddle/exercise"
	"heddle/finger"
	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
	"heddle/score/surface"
)

// A Case is an exercise that is hard to draw well, and how it is drawn.
type Case struct {
	Name     string
	Exercise *exercise.Exercise
	Theme    surface.Theme
	Width    float64 // mm; 0 for the view's own
	Repeat   bool
}

// FourFour is common time.
var FourFour = line.Meter{Beats: 4, Unit: 4}

// Cases returns the hard cases.
func Cases(t testing.TB) []Case {
	return []Case{
		{Name: "worked-example", Exercise: Worked(t)},
		{Name: "sixteenth-triplets-double-accidentals", Exercise: doubleAccidentals(t)},
		{Name: "threes-in-five-four-with-pickup", Exercise: fiveFourPickup(t)},
		{Name: "eight-strings", Exercise: eightStrings(t)},
		{Name: "left-handed-dark", Exercise: leftHanded(t), Theme: surface.Dark},
		{Name: "four-string-bass", Exercise: bass(t)},
		{Name: "off-both-ends", Exercise: offBothEnds(t)},
		{Name: "one-note", Exercise: oneNote(t)},
		{Name: "three-hundred-notes", Exercise: ThreeHundred(t)},
		{Name: "legato-swing-landing", Exercise: legatoSwing(t), Repeat: true},
		{Name: "odd-durations", Exercise: oddDurations(t)},
		{Name: "six-eight", Exercise: sixEight(t)},
		{Name: "line-break", Exercise: lineBreak(t), Width: 95},
		{Name: "four-scales-over-changes", Exercise: fourScales(t), Theme: surface.BlackAndWhite},
		{Name: "narrow-screen", Exercise: doubleAccidentals(t), Width: 95},
	}
}

func doubleAccidentals(t testing.TB) *exercise.Exercise {
	in := neck.Guitar()
	return Spelled(t, in,
		"Gb4 Fb4 Db4 | F#4 E4 C#4 | Cb4 Bbb3 Gb3 | B3 A3 F#3 | Fb4 Db4 Cb4 | G#4 F##4 D#4 | Bbb4 Gb4 Fb4 | B4 A4 F#4 | Db5 Cb5 Bbb4 | C#5 B#4 A4 | Bbb4 Bb4 B4 | A4 A#4 A##4 | Gb4 Fb4 Db4 | F#4 E4 C#4 | Cb4 Bbb3 Gb3 | B3 A3 F#3",
		line.Quarter/6, FourFour,
		InWindow(in, MinorPentatonic(t, "Gb"), 2, 5), InWindow(in, MinorPentatonic(t, "F#"), 2, 5))
}

func fiveFourPickup(t testing.TB) *exercise.Exercise {
	in := neck.Guitar()
	ex := Spelled(t, in, workedGroups, line.Quarter/2, line.Meter{Beats: 5, Unit: 4},
		InWindow(in, MinorPentatonic(t, "G"), 10, 13), InWindow(in, MinorPentatonic(t, "Ab"), 11, 14))
	pickup(ex, 3*line.Quarter/2)
	ex.Naming = pitch.Solfege
	return ex
}

// pickup moves the line to begin before the first bar line.
func pickup(ex *exercise.Exercise, by line.Beat) {
	for i := range ex.Notes {
		ex.Notes[i].Start -= by
	}
	ex.Rhythm.Pickup = by
	last := ex.Notes[len(ex.Notes)-1]
	bar := ex.Rhythm.Meter.Bar()
	ex.Length = (last.Start + last.Duration + bar - 1) / bar * bar
}

func tuned(t testing.TB, name string, frets int, scale float64, open string) neck.Instrument {
	t.Helper()
	in := neck.Instrument{Name: name, Frets: frets, ScaleMM: scale}
	for word := range strings.FieldsSeq(open) {
		p, err := pitch.Parse(word)
		if err != nil {
			t.Fatal(err)
		}
		in.Open = append([]pitch.Pitch{p}, in.Open...)
	}
	return in
}

func eightStrings(t testing.TB) *exercise.Exercise {
	in := tuned(t, "eight-string guitar", 24, 686, "F#1 B1 E2 A2 D3 G3 B3 E4")
	return Spelled(t, in, "G4 E4 D4 B3 | G#4 F#4 D#4 C#4 | A3 G3 E3 D3 | B3 G#3 F#3 D#3 | B2 A2 G2 E2 | C#3 B2 G#2 F#2 | D2 B1 A1 G1 | D#2 C#2 B1 G#1",
		line.Quarter/4, FourFour,
		InWindow(in, MinorPentatonic(t, "E"), 2, 5), InWindow(in, MinorPentatonic(t, "G#"), 1, 4))
}

func leftHanded(t testing.TB) *exercise.Exercise {
	ex := Worked(t)
	ex.Instrument.Left = true
	ex.Naming = pitch.German
	return ex
}

func bass(t testing.TB) *exercise.Exercise {
	in := tuned(t, "bass", 24, 864, "E1 A1 D2 G2")
	return Spelled(t, in, "D3 C3 | Db3 Cb3 | A2 G2 | Ab2 Gb2 | F2 D2 | Eb2 Db2 | C2 A1 | Cb2 Ab1 | G1 F1", line.Quarter, FourFour,
		InWindow(in, MinorPentatonic(t, "D"), 5, 8), InWindow(in, MinorPentatonic(t, "Ab"), 4, 7))
}

func offBothEnds(t testing.TB) *exercise.Exercise {
	in := tuned(t, "guitar", 24, 648, "E2 A2 D3 G3 B3 E4")
	return Spelled(t, in, "E6 D6 B5 A5 | F6 Eb6 C6 Bb5 | E2 G2 A2 B2 | F2 Ab2 Bb2 C3 | E6 E2 E6 E2 | F2 F6 F2 F6", line.Quarter/2, FourFour,
		InWindow(in, MinorPentatonic(t, "E"), 0, 3), InWindow(in, MinorPentatonic(t, "F"), 1, 4))
}

func oneNote(t testing.TB) *exercise.Exercise {
	in := neck.Guitar()
	ex := Spelled(t, in, "Bb4", 4*line.Quarter, FourFour, InWindow(in, MinorPentatonic(t, "G"), 3, 6))
	return ex
}

// ThreeHundred returns a line of 300 notes.
func ThreeHundred(t testing.TB) *exercise.Exercise {
	in := neck.Guitar()
	whole := strings.Repeat(workedGroups+"|", 6)
	words := strings.Split(whole, "|")[:100]
	return Spelled(t, in, strings.Join(words, "|"), line.Quarter/3, FourFour,
		InWindow(in, MinorPentatonic(t, "G"), 10, 13), InWindow(in, MinorPentatonic(t, "Ab"), 11, 14))
}

func legatoSwing(t testing.TB) *exercise.Exercise {
	ex := Worked(t)
	ex.Rhythm.Swing = line.Swing{Long: 2, Short: 1}
	strokes := []finger.Stroke{finger.Down, finger.PullOff, finger.Up, finger.Down, finger.HammerOn, finger.PullOff, finger.Up, finger.Slide}
	ex.Notes = ex.Notes[:27]
	for i := range ex.Notes {
		n := &ex.Notes[i]
		n.Stroke = strokes[i%len(strokes)]
		n.Start += line.Beat(n.Group) * line.Quarter / 2 // a rest between groups
		if n.Step == 3 {
			n.Duration += line.Quarter / 4
		}
	}
	for i := 23; i < 27; i++ {
		ex.Notes[i].Role = line.LandingRole
	}
	ex.Notes[24].Scale = line.Chromatic
	last := &ex.Notes[26]
	last.Duration = 5 * line.Quarter / 2
	ex.Length = (last.Start + last.Duration + 3839) / 3840 * 3840
	return ex
}

func oddDurations(t testing.TB) *exercise.Exercise {
	in := neck.Guitar()
	ex := Spelled(t, in, workedGroups, line.Quarter/2, line.Meter{Beats: 7, Unit: 8},
		InWindow(in, MinorPentatonic(t, "G"), 10, 13), InWindow(in, MinorPentatonic(t, "Ab"), 11, 14))
	lengthen(ex, 480, 1440, 192, 192, 192, 192, 192, 960, 320, 160, 480, 240, 720, 240, 240, 1920, 640, 320, 119, 121, 233, 487, 960, 2880, 60, 60, 120, 240, 480)
	return ex
}

// lengthen gives the notes lengths in turn, end to end.
func lengthen(ex *exercise.Exercise, lengths ...line.Beat) {
	at := line.Beat(0)
	for i := range ex.Notes {
		d := lengths[i%len(lengths)]
		ex.Notes[i].Start, ex.Notes[i].Duration = at, d
		at += d
	}
	bar := ex.Rhythm.Meter.Bar()
	ex.Length = (at + bar - 1) / bar * bar
}

// sixEight mixes eighths, sixteenths and triplets under dotted quarters.
func sixEight(t testing.TB) *exercise.Exercise {
	in := neck.Guitar()
	ex := Spelled(t, in, workedGroups, line.Quarter/2, line.Meter{Beats: 6, Unit: 8},
		InWindow(in, MinorPentatonic(t, "G"), 10, 13), InWindow(in, MinorPentatonic(t, "Ab"), 11, 14))
	lengthen(ex, 480, 480, 480, 240, 240, 480, 480, 160, 160, 160, 480, 480, 1440, 960, 480)
	return ex
}

// lineBreak is broken between two bars of eighths, and ends high on the neck.
func lineBreak(t testing.TB) *exercise.Exercise {
	in := neck.Guitar()
	ex := Spelled(t, in, "D5 C5 Bb4 | Cb5 Ab4 Gb4 | Bb4 C5 D5 | Eb5 Gb5 Ab5 | Bb5 G5 F5 | Eb5 Db5 Cb5", line.Quarter/2, FourFour,
		InWindow(in, MinorPentatonic(t, "G"), 15, 18), InWindow(in, MinorPentatonic(t, "Ab"), 16, 19))
	return ex
}

func fourScales(t testing.TB) *exercise.Exercise {
	in := neck.Guitar()
	ex := Spelled(t, in, "D5 C5 A4 | C#5 A#4 G#4 | Eb5 Db5 Cb5 | E5 D5 C5 | C5 A4 G4 | A#4 G#4 F#4 | Db5 Cb5 Ab4 | D5 C5 A4", line.Quarter/3, FourFour,
		InWindow(in, MinorPentatonic(t, "D"), 5, 8), InWindow(in, MinorPentatonic(t, "A#"), 6, 9),
		InWindow(in, MinorPentatonic(t, "Ab"), 4, 7), InWindow(in, MinorPentatonic(t, "A"), 5, 8))
	ex.Chords = nil
	for i, symbol := range []string{"Dm7", "G7(b9,#11)", "Cmaj7/E", "A7b13"} {
		start := line.Beat(i) * 2 * line.Quarter
		ex.Chords = append(ex.Chords, exercise.Chord{Chord: chord(t, symbol), Start: start, End: start + 2*line.Quarter})
	}
	return ex
}
