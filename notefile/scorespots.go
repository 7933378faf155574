package notefile

import (
	"heddle/finger"
	"heddle/line"
	"heddle/neck"
)

// borrowSpots takes strings and frets from another part that plays the same
// notes: some programs write tablature as a part of its own. Octaves are not
// compared, for one of the two may be written an octave higher.
func borrowSpots(im *Import, scores []*scorePart, parts []part, chosen int) {
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
		places := map[sound]finger.Fingering{}
		for _, n := range p.Notes {
			if n.String > 0 {
				places[sound{n.Start, n.Pitch.Name.Class()}] = n.Fingering
			}
		}
		found := 0
		for _, n := range im.Notes {
			if _, ok := places[sound{n.Start, n.Pitch.Name.Class()}]; ok {
				found++
			}
		}
		if found < len(im.Notes) {
			continue
		}
		for j := range im.Notes {
			n := &im.Notes[j]
			n.adopt(places[sound{n.Start, n.Pitch.Name.Class()}])
		}
		im.Open, im.Capo = scores[i].open, scores[i].capo
		im.remark("strings and frets are those of %q", p.Name)
		return
	}
}

// adopt takes what another writing of the same note says of the hands, where
// this one does not say it. Tablature knows best how the fretting hand joins.
func (n *Note) adopt(f finger.Fingering) {
	if n.String == 0 {
		n.Spot = f.Spot
	}
	n.Finger = max(n.Finger, f.Finger)
	if n.Stroke == "" || legato(f.Stroke) {
		n.Stroke = f.Stroke
	}
}

// checkSpots compares strings and frets with what sounds. Some programs write
// guitar music without saying that it sounds an octave lower: where every spot
// says so, the neck is believed. A spot that does not fit is left out.
func (im *Import) checkSpots() {
	if len(im.Open) == 0 {
		return
	}
	in := neck.Instrument{Open: im.Open, Capo: im.Capo}
	apart := map[int]int{}
	spots := 0
	for _, n := range im.Notes {
		if n.String > 0 && n.String <= len(im.Open) {
			apart[in.MIDI(n.Spot)-n.Pitch.MIDI()]++
			spots++
		}
	}
	for _, octave := range []int{-1, 1} {
		if spots > 0 && apart[12*octave] == spots {
			for i := range im.Notes {
				im.Notes[i].Pitch.Octave += octave
			}
			im.remark("pitches moved by an octave to where strings and frets sound")
			return
		}
	}
	wrong := 0
	for i := range im.Notes {
		n := &im.Notes[i]
		if n.String > len(im.Open) || n.String > 0 && in.MIDI(n.Spot) != n.Pitch.MIDI() {
			n.Spot = neck.Spot{}
			wrong++
		}
	}
	if wrong > 0 {
		im.remark("%s that would sound another pitch left out", count(wrong, "string and fret"))
	}
}
