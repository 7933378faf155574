package finger

import "heddle/neck"

// A Stroke is how a note is sounded.
type Stroke string

// The strokes.
const (
	Down     Stroke = "down"
	Up       Stroke = "up"
	HammerOn Stroke = "hammer-on"
	PullOff  Stroke = "pull-off"
	Slide    Stroke = "slide"
)

// A Fingering is how one note is played.
type Fingering struct {
	neck.Spot
	Finger int // 0 open string, 1 index to 4 little finger
	Stroke Stroke
}
