package site

import (
	"html/template"
	"net/http"
	"strconv"
	"strings"

	"heddle/score/surface"
)

// MMPerPixel turns the pixels of a style sheet (CSS Values 4: 96 to the inch)
// into mm.
const MMPerPixel = 25.4 / 96

// The widths in pixels that a page is drawn for. The usual one, the room beside
// the cards in a window of 1440, is for browsers that have not said how much room
// there is.
const (
	usualWidth     = 1024
	narrowestWidth = 280
	widestWidth    = 2400
	widthStep      = 8 // what is left over is white at the right
)

// WidthHeader says how many pixels wide the music and the neck may be.
const WidthHeader = "Heddle-Width"

// A Room is how many pixels wide the pictures may be.
type Room struct {
	Music int // the column of the line and the strip
	Neck  int
	Asked int // for the music, before it was rounded to what is drawn
}

// RoomOf reads the room that the page's script measured: "music neck".
func RoomOf(r *http.Request) Room {
	usual := Room{usualWidth, usualWidth, usualWidth}
	words := strings.Fields(r.Header.Get(WidthHeader))
	if len(words) != 2 {
		return usual
	}
	music, err := strconv.Atoi(words[0])
	neck, err2 := strconv.Atoi(words[1])
	if err != nil || err2 != nil || music == 0 { // 0: the page shows no music yet
		return usual
	}
	return Room{stepped(music), stepped(neck), music}
}

func stepped(width int) int {
	return max(narrowestWidth, min(widestWidth, width)) / widthStep * widthStep
}

// Staff spaces in mm, larger than in print: 8 pixels on a screen, and on a small
// one as few as keep the smallest figure, a finger's, at 11 pixels.
const (
	screenSpace = 8 * MMPerPixel
	narrowSpace = 7.6 * MMPerPixel
	narrowRoom  = 560 // pixels
)

// Narrow reports whether music is drawn for a small screen.
func Narrow(pixels int) bool { return pixels < narrowRoom }

// StaffSpace returns the staff space in mm for music that is so many pixels wide.
func StaffSpace(pixels int) float64 {
	if Narrow(pixels) {
		return narrowSpace
	}
	return screenSpace
}

// Picture writes a drawing for a page. What surface writes is escaped already;
// a browser would make a node of each line break.
func Picture(d surface.Drawing) (template.HTML, error) {
	var svg strings.Builder
	err := surface.WritePageSVG(&svg, d)
	return template.HTML(strings.ReplaceAll(svg.String(), ">\n", ">")), err
}
