package fretboard

import (
	"strconv"

	"heddle/exercise"
	"heddle/neck"
)

// A view is the part of a neck that is shown.
type view struct {
	exercise *exercise.Exercise
	options  Options
	in       neck.Instrument
	scales   []exercise.Scale // of one section, home first
	chord    exercise.Chord   // that the section begins over
	from, to int              // frets shown, as wires
	width    float64
	left     float64 // x of the first wire shown
	gap      float64 // between strings
	mm       float64 // on paper for a mm of the neck
	radius   float64
	played   map[neck.Spot][]int
}

func newView(ex *exercise.Exercise, opt Options) *view {
	gap := stringGap
	if opt.Paper {
		gap = paperStringGap
	}
	n := &view{exercise: ex, options: opt, in: ex.Instrument, width: neckWidth, gap: gap}
	n.setSection(opt.Section)
	n.radius = min(spotRadius, gap*widestSpot)
	if opt.Width > 0 {
		n.width = opt.Width
	}
	n.played = map[neck.Spot][]int{}
	for i, note := range ex.Notes {
		n.played[note.Spot] = append(n.played[note.Spot], i)
	}
	n.choose()
	room := 1.0
	n.left = nameRoom
	if n.from == 0 {
		n.left = nameRoom + nutRoom
	}
	span := n.in.FretMM(n.to) - n.in.FretMM(n.from)
	if span <= 0 {
		span = 1
	}
	n.mm = (n.width - n.left - room) / span
	if n.to > 0 {
		narrowest := (n.in.FretMM(n.to) - n.in.FretMM(n.to-1)) * n.mm
		n.radius = min(n.radius, narrowest/tightestFrets)
	}
	return n
}

// setSection sets the scales of one section (a home scale and those after it up
// to the next) and the chord that it begins over.
func (n *view) setSection(section int) {
	all := n.exercise.Scales
	first, end, seen := 0, len(all), -1
	for i, s := range all {
		if s.Home || i == 0 {
			if seen == section {
				end = i
				break
			}
			first = i
			seen++
		}
	}
	n.scales = all[first:end]
	if len(n.exercise.Chords) == 0 {
		return
	}
	n.chord = n.exercise.Chords[0]
	for _, note := range n.exercise.Notes {
		if note.Scale >= first && note.Scale < end {
			n.chord = n.exercise.ChordAt(note.Start)
			return
		}
	}
}

// choose decides which frets are shown: around every spot, one fret to spare
// on each side, the nut where the hand is near it; the whole neck if asked.
func (n *view) choose() {
	n.from, n.to = 0, n.in.LastFret()
	if n.options.Whole || len(n.scales) == 0 && len(n.played) == 0 {
		return
	}
	low, high := n.in.LastFret(), 0
	see := func(fret int) {
		low, high = min(low, fret), max(high, fret)
	}
	for _, s := range n.scales {
		for _, p := range s.Placement.Places {
			see(p.Fret)
		}
	}
	for spot := range n.played {
		see(spot.Fret)
	}
	n.from, n.to = low-2, min(high+1, n.in.LastFret())
	const nearNut = 2
	if n.from <= nearNut {
		n.from = 0
	}
	const fewest = 5
	if n.to-n.from < fewest {
		n.to = min(n.from+fewest, n.in.LastFret())
		n.from = max(0, n.to-fewest)
	}
}

// wire returns the x of a fret's wire.
func (n *view) wire(fret int) float64 {
	x := n.left + (n.in.FretMM(fret)-n.in.FretMM(n.from))*n.mm
	return n.mirror(x)
}

// mirror mirrors x for a left-handed player.
func (n *view) mirror(x float64) float64 {
	if n.in.Left {
		return n.width - x
	}
	return x
}

// finger returns the x where a fret is stopped: the middle before its wire,
// or left of the nut for an open string.
func (n *view) finger(fret int) float64 {
	if fret <= 0 {
		return n.mirror(n.left - n.radius - nutWidth - 0.6)
	}
	return (n.wire(fret-1) + n.wire(fret)) / 2
}

// y returns where a string lies.
func (n *view) y(number int) float64 {
	return neckEdge + 1.0 + n.gap*float64(number-1)
}

func (n *view) shown(fret int) bool {
	return fret > n.from && fret <= n.to || fret == 0 && n.from == 0
}

// SpotID returns what the id of a spot's group ends with, after the prefix:
// "s2f13" for string 2 at fret 13.
func SpotID(s neck.Spot) string { return "s" + strconv.Itoa(s.String) + "f" + strconv.Itoa(s.Fret) }
