package weave

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"heddle/line"
	"heddle/pitch"
)

// fewCandidates are enough to choose from and few enough to try every reading.
func fewCandidates(t *testing.T) candidateList {
	t.Helper()
	var list candidateList
	for _, name := range []string{"G minor pentatonic", "Ab minor pentatonic", "C minor pentatonic", "G dorian", "Db major", "G whole tone"} {
		s, err := pitch.ParseScale(name)
		if err != nil {
			t.Fatal(err)
		}
		list.add(classesOf(s.Notes), float64(len(list))/8)
	}
	return list
}

func notesOf(keys []int) []line.Note {
	notes := make([]line.Note, len(keys))
	for i, key := range keys {
		notes[i] = line.Note{Pitch: pitch.Named(pitch.PlainName(key%12, true), key), Start: line.Beat(i) * line.Quarter, Duration: line.Quarter}
	}
	return notes
}

// price is the cost of a reading by the words of costs.go, computed by itself.
func price(list candidateList, known bool, home int, keys, scales []int) float64 {
	cost := 0.0
	heard := map[int]bool{}
	for _, key := range keys {
		heard[key%12] = true
	}
	own := func(c int) float64 {
		price := list[c].unfamiliar
		for class := range 12 {
			if list[c].has(class) && !heard[class] {
				price += costUnheard
			}
		}
		return price
	}
	if !known {
		cost += own(home)
	}
	for i, c := range scales {
		if (i == 0 || scales[i-1] != c) && c != home {
			cost += costScale + own(c)
			if list[c].kind != list[home].kind {
				cost += costOtherType
			}
		}
		if list[c].has(keys[i] % 12) {
			cost += costLarge * math.Max(0, float64(list[c].size()-5))
		} else {
			cost += costOutside
		}
		switch {
		case i == 0:
		case scales[i-1] != c:
			cost += costChange
		default:
			skipped := 0
			for class := range 12 {
				for key := min(keys[i-1], keys[i]) + 1; key < max(keys[i-1], keys[i]); key++ {
					if key%12 == class && list[c].has(class) {
						skipped++
						break
					}
				}
			}
			cost += costSkip * math.Min(mostSkipped, float64(skipped))
		}
	}
	return cost
}

// Every assignment of scales to the notes of short lines is tried.
func TestTheBestPathIsTheBestOfAll(t *testing.T) {
	list := fewCandidates(t)
	random := rand.New(rand.NewPCG(1, 2))
	for trial := range 60 {
		keys := make([]int, 1+trial%6)
		for i := range keys {
			keys[i] = 55 + random.IntN(20)
		}
		known := trial%2 == 1
		r := Request{Notes: notesOf(keys)}
		s := newSearch(r, list, known)
		newPaths(s).freely()
		best, scales := math.Inf(1), make([]int, len(keys))
		for {
			for home := range s.homes() {
				best = math.Min(best, price(list, known, home, keys, scales))
			}
			at := 0
			for at < len(scales) && scales[at] == len(list)-1 {
				scales[at] = 0
				at++
			}
			if at == len(scales) {
				break
			}
			scales[at]++
		}
		if math.Abs(best-s.best.cost) > 1e-9 {
			t.Errorf("%v, home known %v: cost %g, the best of all %g", keys, known, s.best.cost, best)
		}
		if got := price(list, known, s.best.home, keys, s.best.scales); math.Abs(got-s.best.cost) > 1e-9 {
			t.Errorf("%v: cost %g is said to be %g (%v)", keys, got, s.best.cost, s.best.scales)
		}
	}
}

// The scales of a pattern are the cheapest of all pairs of scales that make it.
func TestThePatternsScalesAreTheBestOfAll(t *testing.T) {
	list := fewCandidates(t)
	line := []int{77, 74, 72, 75, 73, 71, 74, 72, 70, 73, 71, 68, 72, 70, 67, 71, 68, 66}
	s := newSearch(Request{Notes: notesOf(line)}, list, false)
	newPaths(s).patterns()
	if s.best.pattern == nil {
		t.Fatal("no pattern found")
	}
	if got := fmt.Sprint(s.best.pattern.Groups, s.best.scales[0], s.best.scales[3]); got != "[3 3] 0 1" {
		t.Errorf("groups and scales %s", got)
	}
	want := costPattern + costScale + list[0].unfamiliar + list[1].unfamiliar
	if math.Abs(s.best.cost-want) > 1e-9 {
		t.Errorf("cost %g, want %g", s.best.cost, want)
	}
}

func TestEveryTypeIsKnown(t *testing.T) {
	for _, known := range types {
		if _, err := pitch.FindType(known.name); err != nil {
			t.Error(err)
		}
	}
	for _, name := range homeTypes {
		if _, err := pitch.FindType(name); err != nil {
			t.Error(err)
		}
	}
}
