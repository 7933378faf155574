package sound

import "heddle/pitch"

// A Part is one strip of the mix.
type Part int

// The parts.
const (
	Line   Part = iota // the exercise's own notes
	Chords             // comping keys
	Bass
	Drums
	Click
	Voice // note names spoken

	parts
)

// partNames holds each part's name as it is typed.
var partNames = [parts]string{"line", "chords", "bass", "drums", "click", "voice"}

// Parts returns every part in the order of the mix.
func Parts() []Part { return []Part{Line, Chords, Bass, Drums, Click, Voice} }

// String returns the part's name.
func (p Part) String() string {
	if p < 0 || p >= parts {
		return "no part"
	}
	return partNames[p]
}

// MarshalText writes the part's name.
func (p Part) MarshalText() ([]byte, error) { return []byte(p.String()), nil }

// ParsePart reads a part's name.
func ParsePart(s string) (Part, error) {
	i, err := choose("part", s, partNames[:])
	return Part(i), err
}

// A Strip is a part's place in the mix. The zero Strip is the part's usual
// level in the middle.
type Strip struct {
	LevelDB float64 // against the part's usual level, −60 to 24
	Pan     float64 // −1 left to 1 right
	Mute    bool
}

// The limits of a strip.
const (
	lowestLevelDB  = -60.0
	highestLevelDB = 24.0
)

// check says what is wrong with the strip, if anything.
func (s Strip) check(p Part) error {
	if !(s.LevelDB >= lowestLevelDB && s.LevelDB <= highestLevelDB) {
		return &pitch.InputError{What: p.String() + " level", Value: number(s.LevelDB), Want: "dB from -60 to 24"}
	}
	if !(s.Pan >= -1 && s.Pan <= 1) {
		return &pitch.InputError{What: p.String() + " pan", Value: number(s.Pan), Want: "-1 (left) to 1 (right)"}
	}
	return nil
}
