package landing

import (
	"fmt"
	"math"

	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
)

// An Ending is one way to land: notes that replace the end of the pattern, and the
// target they reach.
type Ending struct {
	Replaced int         // how many of the pattern's last notes are replaced
	Notes    []line.Note // approach notes, then the target, all with the landing role
	Target   pitch.Degree
	At       line.Beat // the beat it lands on, also if the target comes early
	Kind     Kind
	Cost     float64
}

// A Target is a note to land on and its degree over the chord.
type Target struct {
	Name   pitch.Name
	Degree pitch.Degree
}

// A Goal is a beat to land on, with the harmony there.
type Goal struct {
	At      line.Beat
	Targets []Target // any of these, in any octave under the hand; the first one counts if two are the same key
	Chord   []int    // pitch classes of the chord tones
}

// A Request describes how a line should end.
type Request struct {
	Line       []line.Note // the pattern, at least one note
	Goals      []Goal      // in time: first those that are only tried, last the one asked for; see Beats
	Sections   []line.Section
	Instrument neck.Instrument
	Rhythm     line.Rhythm
	Replace    int // at most this many notes are replaced; 0 is defaultReplace, below 0 none
}

const (
	// defaultReplace is how many of the pattern's last notes may be replaced: half a
	// bar of eighths. mostReplace bounds it.
	defaultReplace = 4
	mostReplace    = 16

	// mostApproach is how many notes may lead to a target. Three fourths go farther
	// than the next octave of any target, so more would be a line of its own.
	mostApproach = 6
)

// Beats returns the beats where a line that ends at a time may land. The last one
// is what is asked for: the given beat of the bar (counted from 1, in the metre's
// lower number; 2.5 is the off-beat of 2), the first one at or after the end or, if
// bars is above 0, the one in the bar after the last of bars. Before it come the
// strong beats at or after the end that are less than a bar earlier, but only if beat
// 1 is asked for: a player who names another beat means that beat.
func Beats(end line.Beat, m line.Meter, beat float64, bars int) ([]line.Beat, error) {
	if err := m.Check(); err != nil {
		return nil, err
	}
	// The comparison is written so that NaN fails it.
	if !(beat >= 1 && beat < float64(m.Beats+1)) {
		return nil, &pitch.InputError{What: "land-beat", Value: fmt.Sprint(beat),
			Want: fmt.Sprintf("a beat of the bar from 1 to %d in %v", m.Beats, m)}
	}
	bar := m.Bar()
	into := line.Beat(math.Round((beat - 1) * float64(m.Beat())))
	at := line.Beat(bars)*bar + into
	if bars <= 0 {
		at = -line.FloorDiv(into-end, bar)*bar + into
	}
	if beat != 1 {
		return []line.Beat{at}, nil
	}
	var beats []line.Beat
	for _, part := range line.PulseOf(m).Parts()[1:] {
		if early := at - bar + part; early >= end {
			beats = append(beats, early)
		}
	}
	return append(beats, at), nil
}

// Find returns the endings of a line. If the line can land before the last of its
// goals, the cheapest ending on the earliest such beat comes first. The cheapest
// ending of each kind on the last goal follows, best first. No two endings are of
// one kind, and no two have the same last three notes: a kind whose cheapest ending
// would repeat those of a better one is given its next cheapest, and a kind whose
// cheapest ending costs costDetour more than the first on its goal is left out.
//
// The approach and its target are a group of their own, numbered after the last
// group kept, with steps counted from 1. The target lasts to the end of its bar, and
// at least a quarter.
//
// The search is exact: no ending that obeys the rules of the package and is left
// out is cheaper than the one returned of its kind. If no target is in reach, there
// are no endings.
func Find(r Request) []Ending {
	if len(r.Line) == 0 || len(r.Sections) == 0 || r.Rhythm.Value.Length() == 0 || r.Rhythm.Meter.Check() != nil {
		return nil
	}
	c := choice{request: r, hands: make([]*hand, len(r.Sections))}
	for _, lenient := range []bool{false, true} {
		for i, goal := range r.Goals {
			switch {
			case i == len(r.Goals)-1:
				c.take(int(kinds), c.search(goal, 0, lenient), c.search(goal, anticipation(r.Rhythm.Value), lenient))
			case len(c.endings) == 0:
				c.take(1, c.search(goal, 0, lenient))
			}
		}
		if len(c.endings) > 0 {
			break
		}
	}
	return c.endings
}

// anticipation returns how early an anticipated target comes: an eighth or, in
// triplets, the last third of the beat. It is 0 for values that do not fill an
// eighth.
func anticipation(v line.Value) line.Beat {
	switch length := v.Length(); {
	case v == line.EighthTriplet:
		return length
	case line.Quarter/2%length == 0:
		return line.Quarter / 2
	}
	return 0
}

// A choice is the endings taken so far.
type choice struct {
	request Request
	hands   []*hand // over each section, laid when needed

	endings []Ending
	kinds   [kinds]bool
	tails   []tail
}

// take takes up to a number of the cheapest endings that the searches find, each of
// a new kind and with new last notes.
func (c *choice) take(most int, searches ...*search) {
	for _, s := range searches {
		s.run()
	}
	var limit float32
	for i := range most {
		var best *candidate
		var from *search
		for _, s := range searches {
			for i := range s.found {
				if found := &s.found[i]; (best == nil || found.before(best)) && c.isNew(found) {
					best, from = found, s
				}
			}
		}
		if best == nil || i > 0 && best.cost > limit {
			return
		}
		if i == 0 {
			limit = best.cost + costDetour
		}
		c.kinds[best.kind] = true
		c.tails = append(c.tails, best.tail)
		c.endings = append(c.endings, from.ending(best))
	}
}

func (c *choice) isNew(found *candidate) bool {
	if c.kinds[found.kind] {
		return false
	}
	for _, t := range c.tails {
		if t == found.tail {
			return false
		}
	}
	return true
}
