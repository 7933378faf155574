package bench

import (
	"html/template"
	"strconv"

	"heddle/bench/site"
	"heddle/neck"
	"heddle/score"
	"heddle/score/fretboard"
	"heddle/score/strip"
)

func (p *benchPage) draw(r site.Room) error {
	ex, v := p.Asked.Exercise, p.Asked.View
	width := float64(r.Music) * site.MMPerPixel
	space, stripWidth := site.StaffSpace(r.Music), width
	if site.Narrow(r.Music) {
		stripWidth = strip.Width(len(ex.Notes)) // to be moved sideways within its own frame
	}
	// A browser shows rows in half the time of notes; only a line that is known
	// by heart comes back note by note.
	byHeart := v.Hides("line")
	neck := v.Fretboard()
	neck.Title, neck.Prefix, neck.Width = "The neck", "neck-", float64(r.Neck)*site.MMPerPixel
	functions := strip.Draw(ex, strip.Options{Prefix: "strip-", Width: stripWidth, NoNames: v.Hides("names"), ByRow: !byHeart, ByHeart: byHeart})
	systems := score.Systems(ex, score.Options{Prefix: "sheet-", Width: width, Space: space, Without: v.Without(), ByRow: !byHeart, ByHeart: byHeart})
	p.Sheet.Room, p.Sheet.Systems = strconv.Itoa(r.Asked), strconv.Itoa(len(systems))
	if err := p.place("neck", "", pictureOf(fretboard.Draw(ex, neck))); err != nil {
		return err
	}
	for i, system := range systems {
		id := "system-" + strconv.Itoa(i)
		if err := p.place(id, "", pictureOf(system)); err != nil {
			return err
		}
		p.Systems = append(p.Systems, id)
	}
	return p.place("strip", "", pictureOf(functions))
}

func (p *benchPage) placesMap() func() (template.HTML, error) {
	pairs, current := make([]neck.Pair, 0, len(p.Places)), -1
	for i, place := range p.Places {
		pairs = append(pairs, place.pair)
		if place.Current {
			current = i
		}
	}
	return pictureOf(fretboard.Map(p.Asked.Exercise.Instrument, pairs, current, fretboard.Options{Prefix: "map-", Width: mapWidth}))
}

// mapWidth is the width of the map of places in mm.
const mapWidth = 85
