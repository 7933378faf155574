package fretboard

import "heddle/score/surface"

// Options say how a neck is drawn. The zero Options draw the part around the
// hand, with note names, in colour on white.
type Options struct {
	Title   string // for screen readers; empty for the exercise's sentence
	Prefix  string // put before every id, so that several views share a page
	Theme   surface.Theme
	Width   float64 // mm; 0 for the view's own
	Section int     // with changes, which home scale (from 0) is shown
	Labels  Labels
	Whole   bool // the whole neck instead of the part around the hand
	Paper   bool // the strings a little closer, to leave room for the music
	NoNames bool // note names are hidden from the description too
}

// Labels say what is written on the spots of a neck.
type Labels int

// The labels.
const (
	NameLabels   Labels = iota // note names
	DegreeLabels               // degrees over the chord, as under the staff
	NoLabels                   // nothing
)
