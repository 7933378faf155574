package finger

import (
	"fmt"
	"math"
	"strconv"

	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
)

// A Note is one note to play and where it can be played.
type Note struct {
	Start    line.Beat
	Duration line.Beat
	MIDI     int // at its fret, without a bend

	// Bend is how far the string is pushed from its fret, in semitones; 0 for a
	// plain note.
	Bend float64

	// Group tells which notes the player thinks of together: the hand moves
	// more readily between two groups than inside one.
	Group int

	// Spots are the spots where the note may be played; each must sound MIDI on
	// the instrument. Their order matters only between equally good ways.
	Spots []neck.Spot

	// Preferred is the spot to use unless another saves a real movement. String
	// 0 means no preference.
	Preferred neck.Spot

	// Given is the finger that must play the note if it is stopped, 1 to 4; 0
	// leaves the finger free.
	Given int
}

// A Technique is how the player plays. It has no tempo: a fingering learned slowly
// must also be the one to play fast.
type Technique struct {
	Picking Picking // Alternate when empty
	ReachMM float64 // between first and fourth finger; neck.DefaultReachMM when zero
}

// completed returns the technique with its defaults filled in.
func (t Technique) completed() (Technique, error) {
	if t.Picking == "" {
		t.Picking = Alternate
	}
	if _, err := ParsePicking(string(t.Picking)); err != nil {
		return t, err
	}
	if t.ReachMM == 0 {
		t.ReachMM = neck.DefaultReachMM
	}
	if !(t.ReachMM > 0) || math.IsInf(t.ReachMM, 0) {
		return t, &pitch.InputError{What: "reach", Value: fmt.Sprint(t.ReachMM), Want: "mm between first and fourth finger, more than 0"}
	}
	return t, nil
}

// mostFrets and mostStrings are more than any fretted instrument has, and mostBend
// more semitones than any string is pushed.
const (
	mostFrets   = 60
	mostStrings = 60
	mostBend    = 4.0
)

// pushed reports whether the string is bent so far that it takes a strong finger.
func (n *Note) pushed() bool { return n.Bend >= 1 }

// check returns an error if the notes are not one line on the instrument.
func check(in neck.Instrument, notes []Note) error {
	switch {
	case in.LastFret() < 0 || in.LastFret() > mostFrets:
		return &pitch.InputError{What: "frets", Value: strconv.Itoa(in.LastFret()), Want: fmt.Sprintf("0 to %d frets above the capo", mostFrets)}
	case in.Strings() > mostStrings:
		return &pitch.InputError{What: "strings", Value: strconv.Itoa(in.Strings()), Want: fmt.Sprintf("at most %d", mostStrings)}
	case !(in.ScaleMM > 0) || in.ScaleMM > 1e5:
		return &pitch.InputError{What: "scale length", Value: fmt.Sprint(in.ScaleMM), Want: "mm, more than 0"}
	}
	for i := range notes {
		if err := checkNote(in, notes, i); err != nil {
			return err
		}
	}
	return nil
}

// checkNote returns an error if note i can't be played.
func checkNote(in neck.Instrument, notes []Note, i int) error {
	n := &notes[i]
	if i > 0 && n.Start <= notes[i-1].Start {
		return &pitch.InputError{What: fmt.Sprintf("note %d start", i+1), Value: n.Start.String(),
			Want: fmt.Sprintf("later than %v quarter notes, where the note before it starts", notes[i-1].Start)}
	}
	if n.Given < 0 || n.Given > 4 {
		return &pitch.InputError{What: fmt.Sprintf("note %d finger", i+1), Value: strconv.Itoa(n.Given), Want: "1 to 4, or 0 for any"}
	}
	if len(n.Spots) == 0 {
		return &pitch.InputError{What: fmt.Sprintf("note %d", i+1), Value: "MIDI " + strconv.Itoa(n.MIDI), Want: "a place on the neck to play it"}
	}
	if !(n.Bend >= 0 && n.Bend <= mostBend) {
		return &pitch.InputError{What: fmt.Sprintf("note %d bend", i+1), Value: fmt.Sprint(n.Bend), Want: fmt.Sprintf("0 to %v semitones", mostBend)}
	}
	for _, s := range n.Spots {
		if n.Bend > 0 && s.Fret == 0 {
			return &pitch.InputError{What: fmt.Sprintf("note %d bend", i+1), Value: fmt.Sprint(n.Bend), Want: "a stopped string; this one is open"}
		}
		onNeck := s.String >= 1 && s.String <= in.Strings() && s.Fret >= 0 && s.Fret <= in.LastFret()
		if !onNeck || in.MIDI(s) != n.MIDI {
			return &pitch.InputError{What: fmt.Sprintf("note %d spot", i+1), Value: fmt.Sprintf("string %d fret %d", s.String, s.Fret),
				Want: fmt.Sprintf("a place on the neck that sounds MIDI %d", n.MIDI)}
		}
	}
	return nil
}
