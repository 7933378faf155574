package bench

import (
	"html/template"
	"net/http"
	"strconv"
	"strings"

	"heddle/neck"
	"heddle/score"
)

// mmPerPixel turns the pixels of a style sheet (CSS Values 4: 96 to the inch)
// into mm.
const mmPerPixel = 25.4 / 96

// The widths in pixels that a page is drawn for. The usual one, the room beside
// the cards in a window of 1440, is for browsers that have not said how much room
// there is.
const (
	usualWidth     = 1024
	narrowestWidth = 280
	widestWidth    = 2400
	widthStep      = 8 // what is left over is white at the right
)

// widthHeader says how many pixels wide the music and the neck may be.
const widthHeader = "Heddle-Width"

// A room is how many pixels wide the pictures may be.
type room struct {
	music int // the column of the line and the strip
	neck  int
	asked int // for the music, before it was rounded to what is drawn
}

// roomOf reads the room that the page's script measured: "music neck".
func roomOf(r *http.Request) room {
	usual := room{usualWidth, usualWidth, usualWidth}
	words := strings.Fields(r.Header.Get(widthHeader))
	if len(words) != 2 {
		return usual
	}
	music, err := strconv.Atoi(words[0])
	neck, err2 := strconv.Atoi(words[1])
	if err != nil || err2 != nil || music == 0 { // 0: the page shows no music yet
		return usual
	}
	return room{stepped(music), stepped(neck), music}
}

func stepped(width int) int {
	return max(narrowestWidth, min(widestWidth, width)) / widthStep * widthStep
}

// Staff spaces in mm: larger than print on a screen, a little smaller where
// there is little room.
const (
	screenSpace = 1.7
	narrowSpace = 1.45
	narrowRoom  = 560 // pixels
)

// draw draws the pictures of the exercise for the room there is.
func (p *benchPage) draw(r room) error {
	ex, v := p.Asked.exercise, p.Asked.view
	width := float64(r.music) * mmPerPixel
	space, stripWidth := screenSpace, width
	if r.music < narrowRoom {
		space = narrowSpace
		stripWidth = score.StripWidth(len(ex.Notes)) // to be moved sideways within its own frame
	}
	// A browser shows rows in half the time of notes; only a line that is known
	// by heart comes back note by note.
	byHeart := v.Hides("line")
	neck := score.Neck(ex, score.Options{Title: "The neck", Prefix: "neck-", Width: float64(r.neck) * mmPerPixel, Labels: v.Labels(), Whole: v.Neck == "whole", Without: v.Without()})
	strip := score.Strip(ex, score.Options{Prefix: "strip-", Width: stripWidth, Without: v.Without(), ByRow: !byHeart, ByHeart: byHeart})
	systems := score.Systems(ex, score.Options{Prefix: "sheet-", Width: width, Space: space, Without: v.Without(), ByRow: !byHeart, ByHeart: byHeart})
	p.Sheet.Room, p.Sheet.Systems = strconv.Itoa(r.asked), strconv.Itoa(len(systems))
	if err := p.place("neck", "", pictureOf(neck)); err != nil {
		return err
	}
	for i, system := range systems {
		id := "system-" + strconv.Itoa(i)
		if err := p.place(id, "", pictureOf(system)); err != nil {
			return err
		}
		p.Systems = append(p.Systems, id)
	}
	return p.place("strip", "", pictureOf(strip))
}

// placesMap draws the map of the places.
func (p *benchPage) placesMap() func() (template.HTML, error) {
	pairs, current := make([]neck.Pair, 0, len(p.Places)), -1
	for i, place := range p.Places {
		pairs = append(pairs, place.pair)
		if place.Current {
			current = i
		}
	}
	return pictureOf(score.Map(p.Asked.exercise.Instrument, pairs, current, score.Options{Prefix: "map-", Width: mapWidth}))
}

// mapWidth is the width of the map of places in mm.
const mapWidth = 85
