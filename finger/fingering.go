package finger

import "heddle/neck"

// A Stroke is how a note is set going.
type Stroke string

// The strokes.
const (
	Down     Stroke = "down"
	Up       Stroke = "up"
	HammerOn Stroke = "hammer-on"
	PullOff  Stroke = "pull-off"
	Slide    Stroke = "slide"
)

// A Picking is a picking technique.
type Picking string

// The techniques.
const (
	Alternate Picking = "alternate"
	Economy   Picking = "economy"
	Legato    Picking = "legato"
)

// A Fingering is how one note is played.
type Fingering struct {
	neck.Spot
	Finger int // 0 open string, 1 index to 4 little finger
	Stroke Stroke
}

// A Hand is what the whole line asks of the hands.
type Hand struct {
	TravelMM  float64 // how far the first finger's place moves in all
	WidestMM  float64 // the widest span of the fretted notes held in one place
	Crossings int     // changes of string
}
