package groove

import (
	"heddle/line"
	"heddle/sound/drumkit"
)

// A Groove is how a band plays in one style.
type Groove struct {
	Limbs []Limb
	// Fill takes over the last pulse of every fourth bar on one piece, BigFill
	// the last two of every eighth; then a cymbal marks the next bar.
	Fill, BigFill []string
	FillOn        drumkit.Piece
	Mark          drumkit.Piece
	Ending        []drumkit.Piece // what is struck with the last chord
	Keys          Keys
	Bass          Bass
	Swing         line.Swing // of a band whose style swings, where the line is straight
}

// A Limb is what one hand or foot of the drummer plays.
type Limb struct {
	Piece  drumkit.Piece
	Soft   drumkit.Piece // for soft letters, where the piece has another sound for them
	Plays  Figure
	LateMS float64 // behind the beat, positive for laid back
	Stray  float64 // how often it leaves its home
}

// Keys is how the keys comp.
type Keys struct {
	Plays   Figure
	Hold    line.Beat // how long a chord lasts, at most up to the next; 0 for all the way
	LateMS  float64
	RollMS  float64 // between one key of a chord and the next
	Stray   float64
	Silence float64 // how often a chord is left out
	Force   float64
}

// Bass is how the bass plays: patterns, or a walk where there are none.
type Bass struct {
	Plays Figure
	Hold  float64 // the share of the way to the next note for which a note sounds
	Stray float64
}

// Lateness of a few milliseconds is how grooves are felt: snare behind, hats on
// top (our figures, within the range measured on recordings by Butterfield 2010
// and Senn et al. 2016). The patterns are common practice of each style.
