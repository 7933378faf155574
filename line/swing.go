package line

import (
	"strconv"
	"strings"

	"heddle/pitch"
)

// A Swing is the ratio of the first to the second half of a divided beat; 1:1 (and
// the zero Swing) is straight. It changes sounding positions, not written ones.
type Swing struct {
	Long, Short int
}

// The meaning of "swing" alone: two notes of a triplet, then the third (common
// practice).
const plainLong, plainShort = 2, 1

// mostSwing is the largest ratio of long to short: 3:1 is the dotted eighth, and
// beyond 4:1 the short note is a grace note.
const mostSwing = 4

// Straight reports whether both halves of the beat are equal.
func (s Swing) Straight() bool { return s.Long == s.Short }

// String returns what ParseSwing reads: "straight" or "swing 2:1".
func (s Swing) String() string {
	if s.Straight() {
		return "straight"
	}
	return "swing " + strconv.Itoa(s.Long) + ":" + strconv.Itoa(s.Short)
}

// Check returns an error for a ratio that is shorter first, or beyond 4:1.
func (s Swing) Check() error {
	if s == (Swing{}) || s.Short >= 1 && s.Long >= s.Short && s.Short <= 1000 && s.Long <= mostSwing*s.Short {
		return nil
	}
	return swingError(s.String())
}

// ParseSwing reads "straight", "swing" (2:1), a ratio as in "swing 3:2", or the
// first half's share of the beat as in "swing 58%". It returns the ratio in lowest
// terms.
func ParseSwing(s string) (Swing, error) {
	word := foldWord(s)
	if word == "straight" || word == "even" {
		return Swing{}, nil
	}
	rest, found := strings.CutPrefix(word, "swing")
	if !found {
		return Swing{}, swingError(s)
	}
	rest = strings.TrimSpace(rest)
	swing, ok := Swing{plainLong, plainShort}, true
	if share, isShare := strings.CutSuffix(rest, "%"); isShare {
		swing.Long, ok = parseCount(share)
		swing.Short = 100 - swing.Long
	} else if rest != "" {
		swing, ok = parseRatio(rest)
	}
	if !ok || swing.Short < 1 || swing.Check() != nil {
		return Swing{}, swingError(s)
	}
	return swing.lowest(), nil
}

func parseRatio(s string) (Swing, bool) {
	long, short, _ := strings.Cut(s, ":")
	l, longOK := parseCount(long)
	r, shortOK := parseCount(short)
	return Swing{l, r}, longOK && shortOK
}

// lowest reduces the ratio; a straight one becomes the zero Swing.
func (s Swing) lowest() Swing {
	if s.Straight() {
		return Swing{}
	}
	by := int(GCD(Beat(s.Long), Beat(s.Short)))
	return Swing{s.Long / by, s.Short / by}
}

func swingError(typed string) error {
	return &pitch.InputError{What: "feel", Value: typed,
		Want:    "straight, or swing with a ratio from 1:1 to 4:1, such as swing 2:1, swing 3:2 or swing 58%",
		Nearest: pitch.Nearest(foldWord(typed), []string{"straight", "swing"})}
}

// Sounding returns when a written position sounds. Eighths swing in pairs from the
// bar line: with 2:1 the second of a pair sounds two thirds of a quarter after the
// first. Positions in between stretch evenly with their half of the beat, so that
// sixteenths swing with the eighths they divide. An eighth without a partner at the
// end of an odd bar does not move.
func (s Swing) Sounding(b Beat, m Meter) Beat {
	bar := m.Bar()
	if s.Straight() || s.Long+s.Short <= 0 || bar <= 0 {
		return b
	}
	start := FloorDiv(b, bar) * bar
	pair := start + (b-start)/Quarter*Quarter
	if pair+Quarter > start+bar {
		return b
	}
	const half = Quarter / 2
	long := (Quarter*Beat(s.Long) + Beat(s.Long+s.Short)/2) / Beat(s.Long+s.Short)
	if in := b - pair; in < half {
		return pair + (in*long+half/2)/half
	} else {
		return pair + long + ((in-half)*(Quarter-long)+half/2)/half
	}
}
