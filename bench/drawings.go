package bench

import (
	"bytes"
	"html/template"
	"net/http"
	"strconv"
	"strings"

	"heddle/exercise"
	"heddle/neck"
	"heddle/score"
)

// mmPerPixel turns the pixels of a style sheet (CSS Values 4: 96 to the inch)
// into mm.
const mmPerPixel = 25.4 / 96

// The widths in pixels that a page is drawn for. The usual one serves readers
// whose browser has not said how much room there is.
const (
	usualWidth     = 1080
	narrowestWidth = 280
	widestWidth    = 2400
	widthStep      = 20 // finer steps would only draw more often
)

// widthHeader is how the page's script says how many pixels wide the music
// may be.
const widthHeader = "Heddle-Width"

// A room is how many pixels wide the pictures may be.
type room struct {
	music int // the column of the line and the strip
	neck  int
}

// roomOf returns the room that the page's script found, "music neck".
func roomOf(r *http.Request) room {
	usual := room{usualWidth, usualWidth}
	words := strings.Fields(r.Header.Get(widthHeader))
	if len(words) != 2 {
		return usual
	}
	music, err := strconv.Atoi(words[0])
	neck, err2 := strconv.Atoi(words[1])
	if err != nil || err2 != nil {
		return usual
	}
	return room{stepped(music), stepped(neck)}
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

// oneRow returns a width in mm that holds the strip of a line in one row: its
// lanes' names and its notes.
func oneRow(notes int) float64 { return 22 + 6.4*float64(notes) }

// A drawn is the pictures of one exercise.
type drawn struct {
	Neck, Sheet, Strip, Map template.HTML
	Room                    int // of the music
}

// draw draws the exercise for the room there is.
func draw(ex *exercise.Exercise, v view, places []place, r room) (drawn, error) {
	width := float64(r.music) * mmPerPixel
	space := screenSpace
	if r.music < narrowRoom {
		space = narrowSpace
	}
	d := drawn{Room: r.music}
	stripWidth := width
	if r.music < narrowRoom {
		stripWidth = oneRow(len(ex.Notes)) // to be moved sideways within its own frame
	}
	pairs := make([]neck.Pair, 0, len(places))
	for _, p := range places {
		pairs = append(pairs, p.pair)
	}
	for _, view := range []struct {
		to      *template.HTML
		drawing score.Drawing
	}{
		{&d.Neck, score.Neck(ex, score.Options{Prefix: "neck-", Width: float64(r.neck) / neckScale, Labels: v.labels(), Whole: v.neck == "whole"})},
		{&d.Sheet, score.Sheet(ex, score.Options{Prefix: "sheet-", Width: width, Space: space, Without: v.without()})},
		{&d.Strip, score.Strip(ex, score.Options{Prefix: "strip-", Width: stripWidth})},
		{&d.Map, score.Map(ex.Instrument, pairs, score.Options{Prefix: "map-", Width: mapWidth})},
	} {
		svg, err := svgOf(view.drawing)
		if err != nil {
			return drawn{}, err
		}
		*view.to = svg
	}
	return d, nil
}

// mapWidth is the width of the map of places in mm.
const mapWidth = 85

// neckScale is how many pixels a mm of the neck takes: a little less than in
// the music, so that a whole hand leaves room for the line beneath it.
const neckScale = 3.6

// svgOf writes a drawing for a page. What score writes is escaped already.
func svgOf(d score.Drawing) (template.HTML, error) {
	var b bytes.Buffer
	if err := score.WriteSVG(&b, d); err != nil {
		return "", err
	}
	return template.HTML(b.String()), nil
}
