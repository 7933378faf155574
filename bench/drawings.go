package bench

import (
	"hash"
	"hash/crc32"
	"html/template"
	"io"
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

// A drawn is the pictures of one exercise.
type drawn struct {
	Neck, Strip, Map picture
	Systems          []picture // of the line
	Room             int       // of the music
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
		stripWidth = score.StripWidth(len(ex.Notes)) // to be moved sideways within its own frame
	}
	pairs := make([]neck.Pair, 0, len(places))
	for _, p := range places {
		pairs = append(pairs, p.pair)
	}
	for _, view := range []struct {
		to      *picture
		drawing score.Drawing
	}{
		{&d.Neck, score.Neck(ex, score.Options{Prefix: "neck-", Width: float64(r.neck) / neckScale, Labels: v.labels(), Whole: v.neck == "whole"})},
		{&d.Strip, score.Strip(ex, score.Options{Prefix: "strip-", Width: stripWidth})},
		{&d.Map, score.Map(ex.Instrument, pairs, score.Options{Prefix: "map-", Width: mapWidth})},
	} {
		drawn, err := pictureOf(view.drawing)
		if err != nil {
			return d, err
		}
		*view.to = drawn
	}
	var err error
	d.Systems, err = picturesOf(score.Systems(ex, score.Options{Prefix: "sheet-", Width: width, Space: space, Without: v.without()})...)
	return d, err
}

// mapWidth is the width of the map of places in mm.
const mapWidth = 85

// neckScale is how many pixels a mm of the neck takes: a little less than in
// the music, so that a whole hand leaves room for the line beneath it.
const neckScale = 3.6

// A picture is a drawing written for a page, with a short word that is the same
// for the same drawing: by it a page knows what it shows already.
type picture struct {
	SVG  template.HTML
	Mark string
}

// pictureOf writes a drawing. What score writes is escaped already.
func pictureOf(d score.Drawing) (picture, error) {
	pictures, err := picturesOf(d)
	return pictures[0], err
}

// picturesOf writes drawings that stand on one page.
func picturesOf(drawings ...score.Drawing) ([]picture, error) {
	svgs := make([]strings.Builder, len(drawings))
	writers := make([]io.Writer, len(drawings))
	sums := make([]hash.Hash32, len(drawings))
	for i := range drawings {
		sums[i] = crc32.New(castagnoli)
		writers[i] = io.MultiWriter(&svgs[i], sums[i])
	}
	err := score.WriteSVGs(writers, drawings)
	pictures := make([]picture, len(drawings))
	for i := range pictures {
		mark := uint64(svgs[i].Len())<<32 | uint64(sums[i].Sum32())
		pictures[i] = picture{template.HTML(svgs[i].String()), strconv.FormatUint(mark, 36)}
	}
	return pictures, err
}

var castagnoli = crc32.MakeTable(crc32.Castagnoli) // the polynomial that processors compute themselves
