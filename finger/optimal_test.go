package finger

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"heddle/line"
	"heddle/neck"
	"heddle/pitch"

	"pgregory.net/rapid"
)

// This file works out the published costs a second time, in mm and floating
// point, straight from the text of costs.go, and tries every way to play a
// line. It shares the constants with the search and nothing else.

// A choice is one way to play one note, as the reckoning sees it.
type choice struct {
	spot        neck.Spot
	finger      int
	first, span int // the hand; first 0 before the first stopped note
	stroke      Stroke
}

// A reckoning tries every sequence of choices.
type reckoning struct {
	in        neck.Instrument
	notes     []Note
	technique Technique
	keep      []Fingering // when not nil, only this fingering is reckoned
	pace      []float64   // for the change to each note, 1 at the usual gap
	best      float64
}

func inMM(e effort) float64 { return float64(e) / float64(mm) }

// fingersReach lists, for each span of the hand, the frets above the first
// that each finger has.
var fingersReach = []map[int][]int{
	{1: {0}},
	{1: {0}, 2: {1}},
	{1: {0}, 2: {1}, 4: {2}},
	{1: {0}, 2: {1}, 3: {2}, 4: {3}},
	{1: {0}, 2: {1, 2}, 3: {2, 3}, 4: {4}},
	{1: {0}, 2: {1, 2, 3}, 3: {2, 3, 4}, 4: {5}},
}

// hands lists the spans the hand may have with the first finger on a fret.
func (r *reckoning) hands(first int) []int {
	fits := func(span int) bool {
		return math.Round(r.in.FretMM(first+span)-r.in.FretMM(first)) <= r.technique.ReachMM
	}
	usual := 0
	for span := 0; span <= 3; span++ {
		if fits(span) {
			usual = span
		}
	}
	list := []int{usual}
	for span := usual + 1; span <= 5 && usual == 3; span++ {
		if fits(span) && first+span <= r.in.LastFret() {
			list = append(list, span)
		}
	}
	return list
}

// choices lists the ways to play note i after the choice before.
func (r *reckoning) choices(i int, before *choice) []choice {
	var list []choice
	for _, spot := range r.notes[i].Spots {
		for _, stroke := range []Stroke{Down, Up, HammerOn, PullOff, Slide} {
			c := choice{spot: spot, stroke: stroke}
			if spot.Fret == 0 {
				if before != nil {
					c.first, c.span = before.first, before.span
				}
				list = append(list, c)
				continue
			}
			for c.first = 1; c.first <= spot.Fret; c.first++ {
				for _, c.span = range r.hands(c.first) {
					for c.finger = 1; c.finger <= 4; c.finger++ {
						if slices.Contains(fingersReach[c.span][c.finger], spot.Fret-c.first) {
							list = append(list, c)
						}
					}
				}
			}
		}
	}
	if r.keep != nil {
		list = slices.DeleteFunc(list, func(c choice) bool {
			return r.keep[i] != Fingering{c.spot, c.finger, c.stroke}
		})
	}
	return list
}

// try walks every sequence from note i on.
func (r *reckoning) try(i int, before *choice, sum float64) {
	if i == len(r.notes) {
		r.best = min(r.best, sum)
		return
	}
	for _, c := range r.choices(i, before) {
		cost := r.alone(i, &c)
		if before == nil {
			if c.stroke == Up && r.technique.Picking != Alternate {
				cost += inMM(upFirst)
			} else if c.stroke != Down {
				continue
			}
		} else {
			change := r.frettingHand(i, before, &c) + r.pickingHand(i, before, &c)
			if math.IsInf(change, 1) {
				continue
			}
			cost += change * r.pace[i]
		}
		r.try(i+1, &c, sum+cost)
	}
}

// alone is what a choice costs by itself.
func (r *reckoning) alone(i int, c *choice) float64 {
	n := &r.notes[i]
	var cost float64
	if n.Preferred.String == 0 {
		cost += inMM(perFret)*float64(c.spot.Fret) + inMM(perHighFret)*math.Max(0, float64(c.spot.Fret-highFret))
	} else if c.spot != n.Preferred {
		cost += inMM(notPreferred)
	}
	if c.finger == 0 {
		return cost + inMM(openString) + inMM(openFromAfar)*math.Max(0, float64(c.first-1))
	}
	cost += []float64{0, 0, inMM(weakSecond), inMM(weakThird), inMM(weakFourth)}[c.finger]
	if n.Bend >= 1 {
		cost += []float64{0, inMM(bendFirst), inMM(bendSecond), 0, inMM(bendFourth)}[c.finger]
	}
	cost += math.Max(0, r.way(c.first, c.first+c.span)-comfortMM) * strainPercent / 100
	if c.span > 3 {
		cost += r.way(c.first+3, c.first+c.span) * openedPercent / 100
	}
	return cost
}

// way is the distance up the neck from one fret to another in mm.
func (r *reckoning) way(from, to int) float64 { return r.in.FretMM(to) - r.in.FretMM(from) }

func (r *reckoning) frettingHand(i int, a, b *choice) float64 {
	if b.finger == 0 || a.first == 0 {
		return 0
	}
	first, fourth := r.way(a.first, b.first), r.way(a.first+a.span, b.first+b.span)
	var together float64 // what both ends do alike
	if first*fourth > 0 {
		together = math.Copysign(math.Min(math.Abs(first), math.Abs(fourth)), first)
	}
	cost := (math.Abs(first-together) + math.Abs(fourth-together)) * openingPercent / 100
	shifted := together != 0
	if shifted {
		cost += math.Abs(together) + inMM(shiftStart)
		if r.notes[i].Group == r.notes[i-1].Group {
			cost += inMM(shiftInsideGroup)
		}
		if together > 0 && b.finger != 1 || together < 0 && b.finger != 4 {
			cost += inMM(shiftUnled)
		}
	}
	if a.finger == 0 {
		return cost * fromOpenPercent / 100
	}
	return cost + r.twoFingers(a, b, shifted)
}

func (r *reckoning) twoFingers(a, b *choice, shifted bool) float64 {
	frets, sameString := b.spot.Fret-a.spot.Fret, a.spot.String == b.spot.String
	if a.finger == b.finger {
		switch {
		case frets == 0 && sameString:
			return 0
		case frets == 0:
			return inMM(fingerRoll)
		case !shifted:
			return math.Inf(1)
		case sameString && a.finger == 4:
			return inMM(fingerGuide) + inMM(guideFourth)
		case sameString:
			return inMM(fingerGuide)
		}
		return inMM(fingerJump)
	}
	if frets == 0 && sameString {
		return inMM(fingerChanged)
	}
	if shifted {
		if a.spot.String > b.spot.String+1 || b.spot.String > a.spot.String+1 {
			return 0
		}
		between := math.Abs(float64(a.finger-b.finger)) - math.Abs(float64(frets))
		cost := math.Max(0, between) * inMM(fingersCrowded)
		if neighbours := a.finger-b.finger == 1 || b.finger-a.finger == 1; sameString && neighbours && frets*(b.finger-a.finger) < 0 {
			cost += inMM(fingersCrossed)
		}
		return cost
	}
	apart, low, high := frets, a.finger, b.finger
	if low > high {
		apart, low, high = -frets, high, low
	}
	if apart < 0 {
		return math.Inf(1)
	}
	beyond := math.Max(0, float64(apart-(high-low)))
	return beyond * map[[2]int]float64{
		{1, 2}: inMM(stretchFirstSecond), {1, 3}: inMM(stretchFirstSecond), {1, 4}: inMM(stretchFirstSecond),
		{2, 3}: inMM(stretchSecondThird), {2, 4}: inMM(stretchThirdFourth), {3, 4}: inMM(stretchThirdFourth),
	}[[2]int{low, high}]
}

func (r *reckoning) pickingHand(i int, a, b *choice) float64 {
	toFirst := a.spot.String - b.spot.String
	picked := b.stroke == Down || b.stroke == Up
	with := Down
	if toFirst < 0 {
		with = Up
	}
	allowed := picked
	switch r.technique.Picking {
	case Alternate:
		allowed = b.stroke == []Stroke{Down, Up}[i%2]
	case Economy:
		allowed = picked && (toFirst == 0 && a.stroke != b.stroke || toFirst != 0 && b.stroke == with)
	case Legato:
		silence := r.notes[i-1].Start+r.notes[i-1].Duration < r.notes[i].Start
		bent := r.notes[i-1].Bend >= 1 || r.notes[i].Bend >= 1
		if toFirst == 0 && !silence && !bent && a.spot.Fret != b.spot.Fret {
			return r.slurred(a, b)
		}
	}
	if !allowed {
		return math.Inf(1)
	}
	fromSlur := a.stroke != Down && a.stroke != Up
	if toFirst == 0 {
		switch {
		case a.stroke == b.stroke:
			return inMM(strokeRepeated)
		case fromSlur && b.stroke == Up:
			return inMM(upFirst)
		}
		return 0
	}
	cost := inMM(stringSkipped) * (math.Abs(float64(toFirst)) - 1)
	switch {
	case fromSlur && b.stroke == with:
		return cost + inMM(crossFromSlur)
	case fromSlur:
		return cost + inMM(crossFromSlurAgainst)
	case a.stroke == b.stroke && b.stroke == with:
		return cost + inMM(crossSweep)
	case a.stroke == b.stroke:
		return cost + inMM(strokeHop)
	case b.stroke == with:
		return cost + inMM(crossInside)
	}
	return cost + inMM(crossOutside)
}

func (r *reckoning) slurred(a, b *choice) float64 {
	stopped := a.finger != 0 && b.finger != 0
	want := HammerOn
	if b.spot.Fret < a.spot.Fret {
		want = PullOff
	}
	if stopped && a.finger == b.finger {
		want = Slide
	}
	if b.stroke != want {
		return math.Inf(1)
	}
	if want == Slide {
		return inMM(slurSlide)
	}
	var cost float64
	if stopped && a.first != b.first {
		cost += inMM(slurShift)
	}
	if a.finger == 4 || b.finger == 4 {
		cost += inMM(slurFourth)
	}
	return cost
}

// reckon returns the least cost of all ways to play the notes, or of the ways
// that look like keep.
func reckon(in neck.Instrument, notes []Note, t Technique, keep []Fingering) float64 {
	r := reckoning{in: in, notes: notes, technique: t, keep: keep, best: math.Inf(1), pace: make([]float64, len(notes))}
	var gaps []line.Beat
	for i := 1; i < len(notes); i++ {
		gaps = append(gaps, notes[i].Start-notes[i-1].Start)
	}
	sorted := slices.Sorted(slices.Values(gaps))
	for i, gap := range gaps {
		pace := math.Floor(100 * float64(sorted[len(sorted)/2]) / float64(gap))
		r.pace[i+1] = math.Min(math.Max(pace, leisurely), hurried) / 100
	}
	r.try(0, nil, 0)
	return r.best
}

// shortLine draws a line of up to four notes that lies within some frets,
// some notes with a second spot.
func shortLine(t *rapid.T, in neck.Instrument) []Note {
	low := rapid.IntRange(0, 13).Draw(t, "lowest fret")
	var start line.Beat
	var notes []Note
	for range rapid.IntRange(1, 5).Draw(t, "notes") {
		spot := neck.Spot{
			String: rapid.IntRange(1, in.Strings()).Draw(t, "string"),
			Fret:   rapid.IntRange(low, low+7).Draw(t, "fret"),
		}
		n := Note{Start: start, MIDI: in.MIDI(spot), Spots: []neck.Spot{spot}, Group: rapid.IntRange(0, 1).Draw(t, "group")}
		if rapid.Bool().Draw(t, "preferred") {
			n.Preferred = spot
		}
		if other := spot.String%in.Strings() + 1; rapid.IntRange(0, 3).Draw(t, "second spot") == 0 {
			second := neck.Spot{String: other, Fret: n.MIDI - in.MIDI(neck.Spot{String: other})}
			if second.Fret >= 0 && second.Fret <= in.LastFret() {
				n.Spots = append(n.Spots, second)
			}
		}
		if spot.Fret > 0 && len(n.Spots) == 1 {
			n.Bend = rapid.SampledFrom([]float64{0, 0, 0, 0.5, 1, 2}).Draw(t, "bend")
		}
		gap := rapid.SampledFrom([]line.Beat{240, 480, 480, 480, 960, 1920}).Draw(t, "gap")
		n.Duration = gap
		if rapid.IntRange(0, 4).Draw(t, "rest") == 0 {
			n.Duration = gap / 2
		}
		start += gap
		notes = append(notes, n)
	}
	return notes
}

// short cuts a line where trying every way would take too long.
func short(in neck.Instrument, notes []Note, t Technique) []Note {
	const most = 150_000
	r := reckoning{in: in, notes: notes, technique: t}
	sequences := 1
	for i := range notes {
		sequences *= len(r.choices(i, nil)) * map[Picking]int{Alternate: 1, Economy: 2, Legato: 3}[t.Picking] / 5
		if sequences > most {
			return notes[:i]
		}
	}
	return notes
}

// TestNoOtherWayIsCheaper proves the path optimal on short lines: the sum it
// claims is the least of all ways there are, and the way it returns is worth
// what it claims. The search rounds each share to 1/100 mm, hence the slack.
func TestNoOtherWayIsCheaper(t *testing.T) {
	bass := neck.Instrument{Name: "bass", Frets: 20, ScaleMM: 864}
	for _, octave := range []int{2, 2, 1, 1} {
		name := []pitch.Letter{pitch.G, pitch.D, pitch.A, pitch.E}[len(bass.Open)]
		bass.Open = append(bass.Open, pitch.Pitch{Name: pitch.Name{Letter: name}, Octave: octave})
	}
	rapid.Check(t, func(t *rapid.T) {
		in := rapid.SampledFrom([]neck.Instrument{neck.Guitar(), bass}).Draw(t, "instrument")
		technique := Technique{
			Picking: rapid.SampledFrom([]Picking{Alternate, Economy, Legato}).Draw(t, "picking"),
			ReachMM: rapid.SampledFrom([]float64{40, 70, 100, 130}).Draw(t, "reach"),
		}
		notes := short(in, shortLine(t, in), technique)
		played, hand, err := Assign(in, notes, technique)
		if err != nil {
			t.Fatal(err)
		}
		const slack = 0.2 // mm
		if best := reckon(in, notes, technique, nil); math.Abs(best-hand.EffortMM) > slack {
			t.Fatalf("claims %.2f mm, the best of all ways is %.2f mm: %s", hand.EffortMM, best, fmt.Sprint(played))
		}
		if worth := reckon(in, notes, technique, played); math.Abs(worth-hand.EffortMM) > slack {
			t.Fatalf("claims %.2f mm, its way is worth %.2f mm: %s", hand.EffortMM, worth, fmt.Sprint(played))
		}
	})
}
