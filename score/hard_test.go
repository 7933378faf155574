package score

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

// A hardCase is an exercise chosen to hurt, and how it is drawn.
type hardCase struct {
	name     string
	exercise *exercise.Exercise
	options  Options
}

var fourFour = line.Meter{Beats: 4, Unit: 4}

func hardCases(t testing.TB) []hardCase {
	return []hardCase{
		{"worked-example", workedExample(t), Options{}},
		{"sixteenth-triplets-double-accidentals", doubleAccidentals(t), Options{}},
		{"threes-in-five-four-with-pickup", fiveFourPickup(t), Options{}},
		{"eight-strings", eightStrings(t), Options{}},
		{"left-handed-dark", leftHanded(t), Options{Theme: surface.Dark}},
		{"four-string-bass", bass(t), Options{}},
		{"off-both-ends", offBothEnds(t), Options{}},
		{"one-note", oneNote(t), Options{}},
		{"three-hundred-notes", threeHundred(t), Options{Page: Letter}},
		{"legato-swing-landing", legatoSwing(t), Options{Repeat: true}},
		{"odd-durations", oddDurations(t), Options{}},
		{"four-scales-over-changes", fourScales(t), Options{Theme: surface.BlackAndWhite}},
		{"narrow-screen", doubleAccidentals(t), Options{Width: 95}},
	}
}

func doubleAccidentals(t testing.TB) *exercise.Exercise {
	in := neck.Guitar()
	return spelled(t, in,
		"Gb4 Fb4 Db4 | F#4 E4 C#4 | Cb4 Bbb3 Gb3 | B3 A3 F#3 | Fb4 Db4 Cb4 | G#4 F##4 D#4 | Bbb4 Gb4 Fb4 | B4 A4 F#4 | Db5 Cb5 Bbb4 | C#5 B#4 A4 | Bbb4 Bb4 B4 | A4 A#4 A##4 | Gb4 Fb4 Db4 | F#4 E4 C#4 | Cb4 Bbb3 Gb3 | B3 A3 F#3",
		line.Quarter/6, fourFour,
		inWindow(in, minorPentatonic(t, "Gb"), 2, 5), inWindow(in, minorPentatonic(t, "F#"), 2, 5))
}

func fiveFourPickup(t testing.TB) *exercise.Exercise {
	in := neck.Guitar()
	ex := spelled(t, in, workedGroups, line.Quarter/2, line.Meter{Beats: 5, Unit: 4},
		inWindow(in, minorPentatonic(t, "G"), 10, 13), inWindow(in, minorPentatonic(t, "Ab"), 11, 14))
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
	return spelled(t, in, "G4 E4 D4 B3 | G#4 F#4 D#4 C#4 | A3 G3 E3 D3 | B3 G#3 F#3 D#3 | B2 A2 G2 E2 | C#3 B2 G#2 F#2 | D2 B1 A1 G1 | D#2 C#2 B1 G#1",
		line.Quarter/4, fourFour,
		inWindow(in, minorPentatonic(t, "E"), 2, 5), inWindow(in, minorPentatonic(t, "G#"), 1, 4))
}

func leftHanded(t testing.TB) *exercise.Exercise {
	ex := workedExample(t)
	ex.Instrument.Left = true
	ex.Naming = pitch.German
	return ex
}

func bass(t testing.TB) *exercise.Exercise {
	in := tuned(t, "bass", 24, 864, "E1 A1 D2 G2")
	return spelled(t, in, "D3 C3 | Db3 Cb3 | A2 G2 | Ab2 Gb2 | F2 D2 | Eb2 Db2 | C2 A1 | Cb2 Ab1 | G1 F1", line.Quarter, fourFour,
		inWindow(in, minorPentatonic(t, "D"), 5, 8), inWindow(in, minorPentatonic(t, "Ab"), 4, 7))
}

func offBothEnds(t testing.TB) *exercise.Exercise {
	in := tuned(t, "guitar", 24, 648, "E2 A2 D3 G3 B3 E4")
	return spelled(t, in, "E6 D6 B5 A5 | F6 Eb6 C6 Bb5 | E2 G2 A2 B2 | F2 Ab2 Bb2 C3 | E6 E2 E6 E2 | F2 F6 F2 F6", line.Quarter/2, fourFour,
		inWindow(in, minorPentatonic(t, "E"), 0, 3), inWindow(in, minorPentatonic(t, "F"), 1, 4))
}

func oneNote(t testing.TB) *exercise.Exercise {
	in := neck.Guitar()
	ex := spelled(t, in, "Bb4", 4*line.Quarter, fourFour, inWindow(in, minorPentatonic(t, "G"), 3, 6))
	return ex
}

func threeHundred(t testing.TB) *exercise.Exercise {
	in := neck.Guitar()
	whole := strings.Repeat(workedGroups+"|", 6)
	words := strings.Split(whole, "|")[:100]
	return spelled(t, in, strings.Join(words, "|"), line.Quarter/3, fourFour,
		inWindow(in, minorPentatonic(t, "G"), 10, 13), inWindow(in, minorPentatonic(t, "Ab"), 11, 14))
}

func legatoSwing(t testing.TB) *exercise.Exercise {
	ex := workedExample(t)
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
	ex := spelled(t, in, workedGroups, line.Quarter/2, line.Meter{Beats: 7, Unit: 8},
		inWindow(in, minorPentatonic(t, "G"), 10, 13), inWindow(in, minorPentatonic(t, "Ab"), 11, 14))
	lengths := []line.Beat{480, 1440, 192, 192, 192, 192, 192, 960, 320, 160, 480, 240, 720, 240, 240, 1920, 640, 320, 119, 121, 233, 487, 960, 2880, 60, 60, 120, 240, 480}
	at := line.Beat(0)
	for i := range ex.Notes {
		d := lengths[i%len(lengths)]
		ex.Notes[i].Start, ex.Notes[i].Duration = at, d
		at += d
	}
	bar := ex.Rhythm.Meter.Bar()
	ex.Length = (at + bar - 1) / bar * bar
	return ex
}

func fourScales(t testing.TB) *exercise.Exercise {
	in := neck.Guitar()
	ex := spelled(t, in, "D5 C5 A4 | C#5 A#4 G#4 | Eb5 Db5 Cb5 | E5 D5 C5 | C5 A4 G4 | A#4 G#4 F#4 | Db5 Cb5 Ab4 | D5 C5 A4", line.Quarter/3, fourFour,
		inWindow(in, minorPentatonic(t, "D"), 5, 8), inWindow(in, minorPentatonic(t, "A#"), 6, 9),
		inWindow(in, minorPentatonic(t, "Ab"), 4, 7), inWindow(in, minorPentatonic(t, "A"), 5, 8))
	ex.Chords = nil
	for i, symbol := range []string{"Dm7", "G7(b9,#11)", "Cmaj7/E", "A7b13"} {
		start := line.Beat(i) * 2 * line.Quarter
		ex.Chords = append(ex.Chords, exercise.Chord{Chord: chord(t, symbol), Start: start, End: start + 2*line.Quarter})
	}
	return ex
}
