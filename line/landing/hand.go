package landing

import (
	"math"

	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
)

// lowestKey and highestKey bound the MIDI keys of any neck.
const (
	lowestKey  = 0
	highestKey = 127
)

// beside is how many frets a hand stretches beyond its window for a chromatic note.
const beside = 1

// A hand is what is under the fingers in a section: for each MIDI key, the scale
// that names it and its price as an approach note, never if it is out of reach.
type hand struct {
	sources   []line.Source
	base      int // the first source's index over all sections
	low, high int // the lowest and highest key in reach
	prices    [highestKey + 1]float32
	scales    [highestKey + 1]int // the source's index, or line.Chromatic
	names     [highestKey + 1]pitch.Name
	owners    [12]int // for each pitch class, the first scale that has it, from 0 for home; or line.Chromatic
}

// newHand returns the hand over a section's placements.
func newHand(s line.Section, base int, in neck.Instrument) *hand {
	h := &hand{sources: s.Sources, base: base, low: highestKey, high: lowestKey - 1}
	for key := range h.prices {
		h.prices[key], h.scales[key] = never, line.Chromatic
	}
	for class := range h.owners {
		h.owners[class], _ = h.scaleWith(class)
	}
	low, high := window(s)
	for i := range in.Open {
		for fret := max(0, low-beside); fret <= min(in.LastFret(), high+beside); fret++ {
			key := in.MIDI(neck.Spot{String: i + 1, Fret: fret})
			if key >= lowestKey && key <= highestKey {
				h.reach(key, fret >= low && fret <= high)
			}
		}
	}
	return h
}

// reach puts a key under the hand; within reports whether it is in the window, as
// notes of a scale must be.
func (h *hand) reach(key int, within bool) {
	price := float32(costApproaching)
	i, name := h.scaleWith(key % 12)
	switch {
	case i == line.Chromatic:
		price += costChromatic
	case !within:
		return
	default:
		h.scales[key], h.names[key] = h.base+i, name
		if i > 0 {
			price += costAway
		}
	}
	h.prices[key] = price
	h.low, h.high = min(h.low, key), max(h.high, key)
}

// scaleWith returns the first scale that has a pitch class, with its name for it, or
// line.Chromatic.
func (h *hand) scaleWith(class int) (int, pitch.Name) {
	for i, source := range h.sources {
		if name, found := source.Scale.Named(class); found {
			return i, name
		}
	}
	return line.Chromatic, pitch.Name{}
}

// scaleCalling returns the index of the first scale that has the name, or
// line.Chromatic.
func (h *hand) scaleCalling(name pitch.Name) int {
	for i, source := range h.sources {
		if own, found := source.Scale.Named(name.Class()); found && own == name {
			return h.base + i
		}
	}
	return line.Chromatic
}

// inReach reports whether the key is under the hand.
func (h *hand) inReach(key int) bool {
	return key >= lowestKey && key <= highestKey && h.prices[key] < never
}

// home, away and chromatic report whether a key belongs to the home scale, only to a
// superimposed one, or to none.
func (h *hand) home(key int) bool      { return h.owners[key%12] == 0 }
func (h *hand) away(key int) bool      { return h.owners[key%12] > 0 }
func (h *hand) chromatic(key int) bool { return h.owners[key%12] == line.Chromatic }

// scaleStep reports whether a note is the home note next to another, which need not
// be one.
func (h *hand) scaleStep(note, to int) bool {
	for key := min(note, to) + 1; key < max(note, to); key++ {
		if h.home(key) {
			return false
		}
	}
	return h.home(note)
}

// window returns the frets that all placements of a section cover.
func window(s line.Section) (low, high int) {
	low, high = math.MaxInt32, -1
	for _, source := range s.Sources {
		low = min(low, source.Placement.Window.Low)
		high = max(high, source.Placement.Window.High)
	}
	return low, high
}
