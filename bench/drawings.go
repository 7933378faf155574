package bench

import (
	"hash"
	"hash/crc32"
	"html/template"
	"io"
	"net/http"
	"strconv"
	"strings"

	"heddle/deliver"
	"heddle/exercise"
	"heddle/neck"
	"heddle/score"
)

// mmPerPixel turns the pixels of a style sheet (CSS Values 4: 96 to the inch)
// into mm.
const mmPerPixel = 25.4 / 96

// The widths in pixels that a page is drawn for. The usual one serves readers
// whose browser has not said how much room there is: it is what a window of 1440
// has beside the cards.
const (
	usualWidth     = 1024
	narrowestWidth = 280
	widestWidth    = 2400
	widthStep      = 8 // what is left over is white at the right
)

// widthHeader is how the page's script says how many pixels wide the music
// may be.
const widthHeader = "Heddle-Width"

// A room is how many pixels wide the pictures may be.
type room struct {
	music int // the column of the line and the strip
	neck  int
	asked int // for the music, before it was rounded to what is drawn
}

// roomOf returns the room that the page's script found, "music neck".
func roomOf(r *http.Request) room {
	usual := room{usualWidth, usualWidth, usualWidth}
	words := strings.Fields(r.Header.Get(widthHeader))
	if len(words) != 2 {
		return usual
	}
	music, err := strconv.Atoi(words[0])
	neck, err2 := strconv.Atoi(words[1])
	if err != nil || err2 != nil {
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

// A drawn is the pictures of one exercise.
type drawn struct {
	Neck, Strip, Map picture
	Systems          []picture // of the line
	Room             int       // of the music, as the page asked
}

// draw draws what the page that asks wants of the exercise, for the room there
// is.
func (p *benchPage) draw(ex *exercise.Exercise, v deliver.Choices, r room) (drawn, error) {
	width := float64(r.music) * mmPerPixel
	space := screenSpace
	if r.music < narrowRoom {
		space = narrowSpace
	}
	d := drawn{Room: r.asked}
	stripWidth := width
	if r.music < narrowRoom {
		stripWidth = score.StripWidth(len(ex.Notes)) // to be moved sideways within its own frame
	}
	// A browser shows rows in half the time of notes; only a line that is known
	// by heart comes back note by note.
	byHeart := v.Hides("line")
	pairs, current := make([]neck.Pair, 0, len(p.Places)), -1
	for i, p := range p.Places {
		pairs = append(pairs, p.pair)
		if p.Current {
			current = i
		}
	}
	var err error
	write := func(to *picture, wanted bool, drawing func() score.Drawing) {
		if err == nil && wanted {
			*to, err = pictureOf(drawing())
		}
	}
	write(&d.Neck, p.Wants("neck", ""), func() score.Drawing {
		return score.Neck(ex, score.Options{Title: "The neck", Prefix: "neck-", Width: float64(r.neck) * mmPerPixel, Labels: v.Labels(), Whole: v.Neck == "whole", Without: v.Without()})
	})
	write(&d.Strip, p.Wants("strip", ""), func() score.Drawing {
		return score.Strip(ex, score.Options{Prefix: "strip-", Width: stripWidth, Without: v.Without(), ByRow: !byHeart, ByHeart: byHeart})
	})
	write(&d.Map, p.Wants("cards", p.Marks.Cards), func() score.Drawing {
		return score.Map(ex.Instrument, pairs, current, score.Options{Prefix: "map-", Width: mapWidth})
	})
	systems := score.Systems(ex, score.Options{Prefix: "sheet-", Width: width, Space: space, Without: v.Without(), ByRow: !byHeart, ByHeart: byHeart})
	d.Systems = make([]picture, len(systems))
	for i, system := range systems {
		if _, told := p.shown[systemPlace(i)]; !told && i > 0 && p.shown[systemPlace(i-1)] == later {
			p.shown[systemPlace(i)] = later // what is beneath what is out of sight is so too
		}
		write(&d.Systems[i], p.Wants(systemPlace(i), ""), func() score.Drawing { return system })
	}
	return d, err
}

// systemPlace is the id of the place of a system.
func systemPlace(i int) string { return "system-" + strconv.Itoa(i) }

// mapWidth is the width of the map of places in mm.
const mapWidth = 85

// A picture is a drawing written for a page, with a short word that is the same
// for the same drawing: by it a page knows what it shows already.
type picture struct {
	SVG  template.HTML
	Mark string
}

// pictureOf writes a drawing. What score writes is escaped already.
func pictureOf(d score.Drawing) (picture, error) {
	var svg strings.Builder
	sum := crc32.New(castagnoli)
	err := score.WritePageSVG(io.MultiWriter(&svg, sum), d)
	// A page makes a node of each line's end too.
	return picture{template.HTML(strings.ReplaceAll(svg.String(), ">\n", ">")), markOf(svg.Len(), sum)}, err
}

// markOf is a short word for so many bytes with a check sum.
func markOf(length int, sum hash.Hash32) string {
	return strconv.FormatUint(uint64(length)<<32|uint64(sum.Sum32()), 36)
}

// markOfTexts is a short word that is the same for the same texts.
func markOfTexts(texts ...string) string {
	sum, length := crc32.New(castagnoli), 0
	for _, text := range texts {
		n, _ := io.WriteString(sum, text+"\x00") // a sum takes everything
		length += n
	}
	return markOf(length, sum)
}

var castagnoli = crc32.MakeTable(crc32.Castagnoli) // the polynomial that processors compute themselves
