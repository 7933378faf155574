package sound

// An Articulation is how long the line's notes ring. The empty Articulation
// is Ringing.
type Articulation string

// The articulations.
const (
	Ringing   Articulation = "ringing"    // as long as they are written
	Staccato  Articulation = "staccato"   // half as long
	PalmMuted Articulation = "palm-muted" // under the side of the hand, near the bridge
)

// Articulations returns every articulation.
func Articulations() []Articulation { return []Articulation{Ringing, Staccato, PalmMuted} }

// ParseArticulation reads an articulation; hyphens may stand for spaces.
func ParseArticulation(s string) (Articulation, error) {
	i, err := choose("articulation", s, typed(Articulations()))
	if err != nil {
		return "", err
	}
	return Articulations()[i], nil
}

// mutedDB makes up for what the palm takes away.
const mutedDB = 4.5

// levelDB is how much louder the line is made.
func (a Articulation) levelDB() float64 {
	if a == PalmMuted {
		return mutedDB
	}
	return 0
}

// The share of its length for which a staccato note sounds, and how firmly the
// palm rests on a muted string.
const (
	staccatoShare = 0.5
	palmFirmness  = 0.7
)
