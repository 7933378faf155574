package practice

import (
	"fmt"
	"strconv"

	"heddle/exercise"
	"heddle/line"
	"heddle/pitch"
)

// A Move is something the hands or the head do to reach a note, as a kind and
// which one: "fingers 3-1", "crossing 2-1". Moves of one kind and value are
// counted together over all runs.
type Move struct {
	Kind  MoveKind `json:"kind"`
	Value string   `json:"value"`
}

// A MoveKind says what of the way to a note is looked at.
type MoveKind string

// The kinds of moves.
const (
	Crossing MoveKind = "crossing" // from string to string, "2-3"
	Fingers  MoveKind = "fingers"  // from finger to finger, "3-1"
	Shift    MoveKind = "shift"    // the hand moves along the neck, "up 2"
	Region   MoveKind = "region"   // four frets of the neck, "9-12"
	Degree   MoveKind = "degree"   // of the chord, "b9"
	Join     MoveKind = "join"     // from one scale to another, "0-1"
	Spot     MoveKind = "spot"     // string and fret, "2.10": for the picture of the neck
)

// regionFrets is how many frets a region of the neck has: a hand.
const regionFrets = 4

// regionOf names the region that a fret lies in: "open", "1-4", "5-8".
func regionOf(fret int) string {
	if fret == 0 {
		return "open"
	}
	low := (fret-1)/regionFrets*regionFrets + 1
	return fmt.Sprintf("%d-%d", low, low+regionFrets-1)
}

// movesOf lists, for each note of the exercise, the moves that led to it.
func movesOf(ex *exercise.Exercise) [][]Move {
	moves := make([][]Move, len(ex.Notes))
	hand := 0 // the fret of the first finger
	for i, n := range ex.Notes {
		list := []Move{{Region, regionOf(n.Fret)}, {Degree, n.Degree.String()}, {Spot, fmt.Sprintf("%d.%d", n.String, n.Fret)}}
		before := hand
		if n.Finger > 0 {
			hand = n.Fret - n.Finger + 1
		}
		if i > 0 {
			list = append(list, movesBetween(ex.Notes[i-1], n, hand-before)...)
		}
		moves[i] = list
	}
	return moves
}

func movesBetween(from, to exercise.Note, shift int) (list []Move) {
	if from.String != to.String {
		list = append(list, Move{Crossing, fmt.Sprintf("%d-%d", from.String, to.String)})
	}
	if from.Finger > 0 && to.Finger > 0 {
		list = append(list, Move{Fingers, fmt.Sprintf("%d-%d", from.Finger, to.Finger)})
	}
	switch {
	case to.Finger == 0 || from.Finger == 0:
	case shift > 0:
		list = append(list, Move{Shift, "up " + strconv.Itoa(shift)})
	case shift < 0:
		list = append(list, Move{Shift, "down " + strconv.Itoa(-shift)})
	}
	if from.Scale != to.Scale && from.Scale != line.Chromatic && to.Scale != line.Chromatic {
		list = append(list, Move{Join, fmt.Sprintf("%d-%d", from.Scale, to.Scale)})
	}
	return list
}

var fingerNames = [...]string{"the open string", "the first finger", "the second finger", "the third finger", "the fourth finger"}

// words says a move in a sentence: "the change from the third finger to the
// first".
func (m Move) words() string {
	var a, b int
	pair, _ := fmt.Sscanf(m.Value, "%d-%d", &a, &b)
	switch {
	case m.Kind == Crossing && pair == 2:
		return fmt.Sprintf("the crossing from string %d to string %d", a, b)
	case m.Kind == Fingers && pair == 2 && a >= 0 && a < len(fingerNames) && b >= 0 && b < len(fingerNames):
		if a == b {
			return "the jump of " + fingerNames[a]
		}
		return "the change from " + fingerNames[a] + " to " + fingerNames[b]
	case m.Kind == Shift:
		return "the shift " + m.Value + " frets"
	case m.Kind == Region && m.Value == "open":
		return "open strings"
	case m.Kind == Region:
		return "frets " + m.Value
	case m.Kind == Degree:
		if d, err := pitch.ParseDegree(m.Value); err == nil {
			return "the " + d.Symbol() + " of the chord"
		}
	case m.Kind == Join && pair == 2 && a == 0:
		return "the step out of the home scale"
	case m.Kind == Join && pair == 2 && b == 0:
		return "the step back to the home scale"
	case m.Kind == Join:
		return "the step between two superimposed scales"
	case m.Kind == Spot:
		var string_, fret int
		if n, _ := fmt.Sscanf(m.Value, "%d.%d", &string_, &fret); n == 2 {
			return fmt.Sprintf("string %d, fret %d", string_, fret)
		}
	}
	return string(m.Kind) + " " + m.Value
}

// A Count is how often a move was tried and how often the note was not right.
type Count struct {
	Tries  int
	Misses int
}

// A Tally counts moves.
type Tally map[Move]Count

// Add counts the moves of a marked run, times +1, or takes them back, −1.
func (t Tally) Add(m *Marks, times int) {
	if m == nil {
		return
	}
	for _, note := range m.Notes {
		for _, move := range note.Moves {
			c := t[move]
			c.Tries += times
			if !note.Right {
				c.Misses += times
			}
			t[move] = c
		}
	}
}
