// Package chart draws a player's progress as pictures, each of which answers
// one question, which is its title: on one sheet, or one by one
// for a page. What was never touched stays blank. Nothing is shown by colour
// alone: amounts are lengths, heights and sizes.
package chart

import (
	"heddle/practice"
	"heddle/score/surface"
)

// Sizes in mm.
const (
	width     = 180.0
	textSize  = 3.2
	titleSize = 4.6
	lineStep  = 5.0
	gap       = 9.0

	sheetMargin = 12.0
)

// A Picture is one question with its answer in words and in a drawing.
type Picture struct {
	Name     string // for an address
	Question string
	Answer   string
	Drawing  surface.Drawing
}

// Pictures draws everything that there is to see. A picture without anything to
// show has a drawing of height 0.
func Pictures(p *practice.Progress) []Picture {
	list := []Picture{
		{"keys", "Which keys can I play, and how fast?", p.KeysText(), keys(p)},
		{"neck", "Where on the neck do I miss?", p.NeckText(), misses(p)},
		{"moves", "Which moves fail?", p.MovesText(), moves(p)},
		{"minutes", "How long did I play?", p.MinutesText(), minutes(p)},
		{"asked", "How well do I know the neck?", p.AskedText(), asked(p)},
		{"tempo", "How does the tempo grow?", tempoText(p), tempo(p)},
	}
	for i := range list {
		list[i].Drawing.Title, list[i].Drawing.Description, list[i].Drawing.Prefix = list[i].Question, list[i].Answer, list[i].Name+"-"
	}
	return list
}

// Sheet puts all pictures under one another.
func Sheet(p *practice.Progress) surface.Drawing {
	d := surface.Drawing{Width: width + 2*sheetMargin, Title: "Progress", Description: "What was practised up to " + p.Day + "."}
	y := sheetMargin
	for _, picture := range Pictures(p) {
		y += titleSize
		d.Items = append(d.Items,
			surface.Text{Text: picture.Question, At: surface.Pt(sheetMargin, y), Size: titleSize, Face: surface.SerifBold, Paint: surface.Ink},
			surface.Text{Text: picture.Answer, At: surface.Pt(sheetMargin, y+lineStep), Size: textSize, Face: surface.Serif, Paint: surface.Ink})
		y += lineStep + 3
		d.Items = append(d.Items, surface.Shift(picture.Drawing.Items, sheetMargin, y)...)
		y += picture.Drawing.Height + gap
	}
	d.Height = y
	return d
}

// label is a small text.
func label(text string, x, y float64, align surface.Align) surface.Text {
	return surface.Text{Text: text, At: surface.Pt(x, y), Size: textSize, Face: surface.Sans, Align: align, Paint: surface.Soft}
}

// fitted cuts a text to a width.
func fitted(text string, room float64) string {
	letters := []rune(text)
	for n := len(letters); n > 1; n-- {
		short := string(letters[:n])
		if n < len(letters) {
			short += "…"
		}
		if surface.Sans.Width(short, textSize) <= room {
			return short
		}
	}
	return text
}

func bar(paint surface.Paint, x, y, w, h float64) surface.Shape {
	return surface.Shape{Fill: paint, Path: surface.Polygon(surface.Pt(x, y), surface.Pt(x+w, y), surface.Pt(x+w, y+h), surface.Pt(x, y+h))}
}

func rule(paint surface.Paint, width, x1, y1, x2, y2 float64) surface.Rules {
	return surface.Rules{Lines: [][2]surface.Point{{surface.Pt(x1, y1), surface.Pt(x2, y2)}}, Width: width, Paint: paint}
}
