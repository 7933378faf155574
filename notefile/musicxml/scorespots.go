package musicxml

import (
	"slices"

	"heddle/exercise"
	"heddle/finger"
	"heddle/line"
	"heddle/neck"
	"heddle/notefile/melody"
	"heddle/notefile/sheet"
	"heddle/pitch"
	"heddle/touch"
)

// borrowSpots takes strings and frets from another part with the same notes:
// some programs write tablature as a separate part. Octaves are not compared,
// because one of the two may be written an octave higher.
func borrowSpots(im *melody.Import, scores []*scorePart, parts []melody.Part, chosen int) {
	type sound struct {
		start line.Beat
		class int
	}
	for _, n := range im.Notes {
		if n.String > 0 {
			return
		}
	}
	for i, p := range parts {
		if i == chosen {
			continue
		}
		places := map[sound]exercise.GivenNote{}
		for _, n := range p.Notes {
			if n.String > 0 {
				places[sound{n.Start, n.Pitch.Name.Class()}] = n
			}
		}
		missing := func(n exercise.GivenNote) bool {
			_, ok := places[sound{n.Start, n.Pitch.Name.Class()}]
			return !ok
		}
		if slices.ContainsFunc(im.Notes, missing) {
			continue
		}
		for j := range im.Notes {
			n := &im.Notes[j]
			adopt(n, places[sound{n.Start, n.Pitch.Name.Class()}])
		}
		im.Open, im.Capo = scores[i].open, scores[i].capo
		im.Remark("strings and frets are those of %q", p.Name)
		return
	}
}

// adopt adds the fingering and the touch that another staff or part gives for the
// same note. Its legato strokes replace the note's own, because tablature has them
// right, unless the note slid to is picked.
func adopt(n *exercise.GivenNote, other exercise.GivenNote) {
	if n.String == 0 {
		n.Spot = other.Spot
	}
	n.Finger = max(n.Finger, other.Finger)
	pickedSlide := n.Touch.Slide == touch.Between && other.Stroke == finger.Slide
	if n.Stroke == "" || sheet.Legato(other.Stroke) && !pickedSlide {
		n.Stroke = other.Stroke
	}
	if both := join(n.Touch, other.Touch); both.Check() == nil {
		n.Touch = both
	}
}

// checkSpots compares strings and frets with the pitches. Some programs write
// guitar music without saying that it sounds an octave lower: if every spot is
// an octave off, the spots are right. Otherwise a spot that does not fit is left
// out.
func checkSpots(im *melody.Import) {
	if len(im.Open) == 0 {
		return
	}
	in := neck.Instrument{Open: im.Open, Capo: im.Capo}
	apart := map[int]int{}
	spots := 0
	for _, n := range im.Notes {
		if n.String > 0 && n.String <= len(im.Open) {
			apart[in.MIDI(n.Spot)+n.Touch.Bend.Below()-n.Pitch.MIDI()]++
			spots++
		}
	}
	for _, octave := range []int{-1, 1} {
		if spots > 0 && apart[12*octave] == spots {
			for i := range im.Notes {
				im.Notes[i].Pitch.Octave += octave
			}
			im.Remark("pitches moved by an octave to where strings and frets sound")
			return
		}
	}
	wrong := 0
	for i := range im.Notes {
		n := &im.Notes[i]
		if n.String > len(im.Open) || n.String > 0 && in.MIDI(n.Spot)+n.Touch.Bend.Below() != n.Pitch.MIDI() {
			n.Spot = neck.Spot{}
			wrong++
		}
	}
	if wrong > 0 {
		im.Remark("%s that would sound another pitch left out", pitch.Count(wrong, "string and fret"))
	}
}
