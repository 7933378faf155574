package pitch

// A Chord is a chord symbol read to what sounds. Degrees rise from the root:
// 1, b3, 5, b7, 9.
type Chord struct {
	Symbol  string // as typed
	Root    Name
	Degrees []Degree // chord tones and the tensions the symbol names
	Bass    Name     // the root unless the symbol has a slash
}

// A Function is what a note does over a chord.
type Function string

// The functions.
const (
	ChordTone Function = "chord tone"
	Tension   Function = "tension"
	Avoid     Function = "avoid"
	Outside   Function = "outside"
)
