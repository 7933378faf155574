package practice

import (
	"slices"
	"time"
)

// A Standing is what the runs of a unit add up to.
type Standing struct {
	Unit
	Staircase
	Memory
	Runs    int
	Clean   int // how many of them were at least clean
	Seconds float64
	Latest  Went      // how the last one went; 0 without runs
	Played  time.Time // when the last one began; zero without runs
}

// after returns the standing after a run of the unit. The first run of a day
// tests the memory; those after it only count for the tempo, because what was
// played a minute ago is not recalled from memory.
func (s Standing) after(r Run, target float64) Standing {
	s.Staircase = s.Staircase.after(r.Tempo, r.Went, target)
	if s.tests(r) {
		s.Memory = s.Memory.After(r.At, r.Went)
	}
	s.Runs++
	s.Seconds += r.Seconds
	if r.Went >= Clean {
		s.Clean++
	}
	s.Latest, s.Played = r.Went, r.At
	return s
}

// tests reports whether a run is the first of its day.
func (s Standing) tests(r Run) bool {
	return s.Runs == 0 || Day(s.Played.In(r.At.Location())) != Day(r.At)
}

// Add brings the standings of one item up to date after a run of one of its
// units, and returns the indices of those that changed. Runs are added in the
// order of their times; see [Refold] for any other.
func Add(standings []Standing, r Run, target float64) (changed []int) {
	at := slices.IndexFunc(standings, func(s Standing) bool { return s.Unit == r.Unit })
	if at < 0 {
		return nil
	}
	tests := standings[at].tests(r)
	for i, s := range standings {
		switch {
		case i == at:
			standings[i] = s.after(r, target)
		case tests && s.neighbours(r.Unit):
			standings[i].Memory = s.Memory.helped(r.At, r.Went)
			if standings[i].Memory == s.Memory {
				continue
			}
		default:
			continue
		}
		changed = append(changed, i)
	}
	return changed
}

// Refold works out the standings of an item's units from all its runs that are
// not struck out, oldest first.
func Refold(units []Unit, runs []Run, target float64) []Standing {
	standings := make([]Standing, len(units))
	for i, u := range units {
		standings[i].Unit = u
	}
	for _, r := range runs {
		if !r.Struck {
			Add(standings, r, target)
		}
	}
	return standings
}

// Next is the tempo to play the unit at next.
func (s Standing) Next(target float64) float64 {
	if s.Tempo == 0 {
		return FirstTempo(target)
	}
	return bounded(s.Tempo, target)
}
