package landing

// A Kind is how an ending reaches its target, told by its last four notes. Notes
// kept from the pattern count, because they are heard. The names of most kinds are
// common practice; where they overlap, the order of [search.shape] decides.
type Kind int

// The kinds.
const (
	// EnclosedFromAbove has the note above the target, then the one below it, each a
	// tone away or less; EnclosedFromBelow the other way round.
	EnclosedFromAbove Kind = iota
	EnclosedFromBelow

	// DownTheScale comes down two steps of the home scale, UpTheScale comes up. A
	// target outside home counts as the step next to its neighbour in the scale.
	DownTheScale
	UpTheScale

	// ByTwoSemitones goes two semitones in one direction.
	ByTwoSemitones

	// ByArpeggio has two neighbouring chord tones, a third or a fourth apart, on the
	// way to the target, with at most one note between them and it.
	ByArpeggio

	// LeapAndFill leaps a third or more away and comes back by two steps of a tone
	// or less, which fill the leap.
	LeapAndFill

	// Anticipated plays the target an eighth early and holds it, whatever the notes
	// before it.
	Anticipated

	kinds
)

var kindWords = [kinds]string{
	"enclosed from above", "enclosed from below", "down the scale", "up the scale", "by two semitones",
	"by the chord's arpeggio", "leap and fill", "anticipated by an eighth",
}

// String returns the kind in words: "enclosed from above".
func (k Kind) String() string { return kindWords[k] }

// none is the key of a note that there is not.
const none = -1

// shape returns the kind of an ending on the beat by its last four keys, target t
// last; w and x may be none. ok is false if the notes have no kind.
func (s *search) shape(w, x, y, t int) (k Kind, ok bool) {
	if x == none {
		return 0, false
	}
	toY, toT := y-x, t-y
	switch {
	case (x-t)*(y-t) < 0:
		if max(x-t, t-x) > lastWidth {
			return 0, false
		}
		if x > t {
			return EnclosedFromAbove, true
		}
		return EnclosedFromBelow, true
	case toY*toT <= 0:
		return 0, false
	case w != none && (x-w)*toY < 0 && max(x-w, w-x) >= leastLeap && max(toY, -toY) <= lastWidth:
		return LeapAndFill, true
	case toY == toT && (toT == 1 || toT == -1):
		return ByTwoSemitones, true
	case s.hands[0].scaleStep(x, y) && s.hands[0].scaleStep(y, t):
		if toT < 0 {
			return DownTheScale, true
		}
		return UpTheScale, true
	case s.arpeggiates(x, y), w != none && s.arpeggiates(w, x) && (x-w)*toY > 0:
		return ByArpeggio, true
	}
	return 0, false
}

// leastLeap is the narrowest leap in semitones: a minor third.
const leastLeap = 3

// arpeggiates reports whether two keys are neighbouring chord tones a third or a
// fourth apart.
func (s *search) arpeggiates(a, b int) bool {
	low, high := min(a, b), max(a, b)
	if high-low < leastLeap || high-low > widest || !s.inChord(low) || !s.inChord(high) {
		return false
	}
	for key := low + 1; key < high; key++ {
		if s.inChord(key) {
			return false
		}
	}
	return true
}

func (s *search) inChord(key int) bool { return s.chord[key%12] }
