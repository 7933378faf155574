package surface

import "image/color"

// A Paint is a colour by what it is used for; the theme says which it is.
type Paint uint8

// The paints. Scale returns the others.
const (
	None  Paint = iota // not drawn
	Ink                // notes and text
	Soft               // labels in the background
	Hair               // fine lines: strings, frets, guides
	Wood               // the ground of the neck
	Glow               // the window under the hand
	Inlay              // the dots of the fingerboard
	Paper              // the ground; letters upon a filled spot
	home
)

// superimposedPaints is how many scales besides home have a colour of their own;
// more scales use them again in turn.
const superimposedPaints = 5

// Scale returns the paint of a scale: 0 for home, 1 for the first
// superimposed one, and so on.
func Scale(number int) Paint {
	if number <= 0 {
		return home
	}
	return home + 1 + Paint((number-1)%superimposedPaints)
}

// paintCount is the number of paints, None included.
const paintCount = int(home) + 1 + superimposedPaints

// classes holds the paints' names in a page's style sheet.
var classes = [paintCount]string{"", "ink", "soft", "hair", "wood", "glow", "inlay", "paper", "s0", "s1", "s2", "s3", "s4", "s5"}

// A Theme is a set of colours for a purpose.
type Theme int

// The themes.
const (
	Light         Theme = iota // colours on white
	Dark                       // colours on a dark ground
	BlackAndWhite              // black and greys, for a printer without colours
)

// palettes hold the themes' colours. The scale colours of Light have a
// contrast of at least 4.5 against the paper (WCAG 2.2, 1.4.3) and differ in
// lightness as well as in hue, for readers who tell few hues apart.
var palettes = [...][paintCount]uint32{
	Light: {
		Ink: 0x1c1b19, Soft: 0x6b6861, Hair: 0x8f8b82, Wood: 0xf7f4ee, Glow: 0xece6d8, Inlay: 0xcfc8b8, Paper: 0xffffff,
		home: 0x1d4e79, home + 1: 0xb3460f, home + 2: 0x2f6b3c, home + 3: 0x7a3b7d, home + 4: 0x705600, home + 5: 0xa8174e,
	},
	Dark: {
		Ink: 0xebe8e1, Soft: 0xa8a49a, Hair: 0x77736a, Wood: 0x24221f, Glow: 0x35322c, Inlay: 0x55504a, Paper: 0x191816,
		home: 0x8fbfe8, home + 1: 0xf0a06a, home + 2: 0x93cf9f, home + 3: 0xd7a3da, home + 4: 0xd9c46a, home + 5: 0xff9dbb,
	},
	BlackAndWhite: {
		Ink: 0x000000, Soft: 0x444444, Hair: 0x777777, Wood: 0xffffff, Glow: 0xeeeeee, Inlay: 0xbbbbbb, Paper: 0xffffff,
		home: 0x000000, home + 1: 0x000000, home + 2: 0x000000, home + 3: 0x000000, home + 4: 0x000000, home + 5: 0x000000,
	},
}

// rgb returns the colour of a paint as 0xRRGGBB.
func (t Theme) rgb(p Paint) uint32 {
	if t < Light || t > BlackAndWhite {
		t = Light
	}
	return palettes[t][p]
}

// color returns the colour of a paint.
func (t Theme) color(p Paint) color.RGBA {
	c := t.rgb(p)
	return color.RGBA{uint8(c >> 16), uint8(c >> 8), uint8(c), 0xff}
}
