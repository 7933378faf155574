package sound

import (
	"math"
	"slices"

	"heddle/exercise"
	"heddle/line"
	"heddle/sound/dsp"
)

// A harmony is one chord for as long as it sounds within one bar.
type harmony struct {
	start, end line.Beat
	chord      *exercise.Chord
	bar        int
}

// A comping knows which chord sounds when.
type comping struct {
	spans   []harmony // of one pass, in time, each within one bar
	voicing [][][]int // of each span: every way to voice it
}

// arrange cuts the chords of a pass at its bar lines. The last chord lasts as
// long as the pass does.
func (b *band) arrange() *comping {
	c := &comping{}
	if len(b.ex.Chords) == 0 {
		return c
	}
	ways := map[*exercise.Chord][][]int{}
	for bar := range b.form.bars {
		start := b.form.beatAt(bar, 0)
		end := start + b.form.meter.Bar()
		for start < end {
			i := b.chordAt(start)
			h := harmony{start: start, end: end, chord: &b.ex.Chords[i], bar: bar}
			if i+1 < len(b.ex.Chords) {
				h.end = min(end, max(b.ex.Chords[i+1].Start, start+1))
			}
			if ways[h.chord] == nil {
				ways[h.chord] = voicings(h.chord)
			}
			c.spans = append(c.spans, h)
			c.voicing = append(c.voicing, ways[h.chord])
			start = h.end
		}
	}
	return c
}

// chordAt returns which chord sounds at a position.
func (b *band) chordAt(at line.Beat) int {
	found := 0
	for i := range b.ex.Chords {
		if b.ex.Chords[i].Start <= at {
			found = i
		}
	}
	return found
}

// at returns the span that holds a position.
func (c *comping) at(b line.Beat) int {
	i, exact := slices.BinarySearchFunc(c.spans, b, func(h harmony, at line.Beat) int { return int(h.start - at) })
	if !exact {
		i--
	}
	return max(i, 0)
}

// The range of the comping hand and how it is judged, in keys.
const (
	compLowest   = 50 // D3: lower, close chords turn to mud
	compHighest  = 74 // D5: higher, they get in the line's way
	compMiddle   = 61
	muddyBelow   = 55 // G3: seconds sound rough below it (low interval limits, common practice)
	mostVoices   = 4
	farPenalty   = 0.35 // a semitone of the middle voice away from compMiddle
	mudPenalty   = 6
	stampPenalty = 3.5 // the same voicing twice running
	chancePlay   = 4.0 // how far chance may outweigh movement, in semitones
)

// voicings returns every close and drop-two voicing of a chord in range.
func voicings(c *exercise.Chord) [][]int {
	classes := voices(c)
	var all [][]int
	for low := compLowest; low < compLowest+12; low++ {
		for _, class := range classes {
			if low%12 != class {
				continue
			}
			for octave := 0; octave <= 12; octave += 12 {
				close := stack(low+octave, classes)
				all = append(all, close)
				if len(close) == mostVoices {
					all = append(all, dropTwo(close))
				}
			}
		}
	}
	return slices.DeleteFunc(all, func(v []int) bool { return v[0] < compLowest-3 || v[len(v)-1] > compHighest })
}

// voices returns the pitch classes to play, most important first: third and
// seventh, then tensions and altered fifths, then fifth and root (the bass
// has the root).
func voices(c *exercise.Chord) []int {
	weight := func(i int) int {
		d := c.Degrees[i]
		switch {
		case d.Number == 3 || d.Number == 7:
			return 0
		case d.Number == 4 || d.Number == 2 || d.Number == 6:
			return 1
		case d.Number > 7 || d.Number == 5 && d.Alter != 0:
			return 2
		case d.Number == 5:
			return 3
		}
		return 4
	}
	order := make([]int, len(c.Degrees))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return weight(a) - weight(b) })
	var classes []int
	for _, i := range order {
		class := c.Degrees[i].Above(c.Root).Class()
		if !slices.Contains(classes, class) && len(classes) < mostVoices {
			classes = append(classes, class)
		}
	}
	if len(classes) == 0 {
		classes = []int{c.Root.Class()}
	}
	return classes
}

// stack puts classes above a lowest key, as close as they go.
func stack(low int, classes []int) []int {
	keys := make([]int, 0, len(classes))
	for _, class := range classes {
		keys = append(keys, low+((class-low)%12+12)%12)
	}
	slices.Sort(keys)
	return keys
}

// dropTwo lowers the second voice from the top by an octave.
func dropTwo(close []int) []int {
	v := slices.Clone(close)
	v[len(v)-2] -= 12
	slices.Sort(v)
	return v
}

// lead chooses a voicing for each span: the shortest way through them all by
// how far the voices move, with some play of chance, so that a long vamp is
// not the same bar over and over (Viterbi's algorithm).
func (c *comping) lead(d *dsp.Dice) [][]int {
	if len(c.spans) == 0 {
		return nil
	}
	cost := make([][]float64, len(c.spans))
	from := make([][]int, len(c.spans))
	for i, ways := range c.voicing {
		cost[i], from[i] = make([]float64, len(ways)), make([]int, len(ways))
		for j, v := range ways {
			own := standing(v) + chancePlay*d.Unit()
			if i == 0 {
				cost[i][j] = own
				continue
			}
			cost[i][j] = math.Inf(1)
			for k, before := range c.voicing[i-1] {
				if sum := cost[i-1][k] + own + movement(before, v); sum < cost[i][j] {
					cost[i][j], from[i][j] = sum, k
				}
			}
		}
	}
	last := len(c.spans) - 1
	j := 0
	for k := range cost[last] {
		if cost[last][k] < cost[last][j] {
			j = k
		}
	}
	led := make([][]int, len(c.spans))
	for i := last; i >= 0; i-- {
		led[i] = c.voicing[i][j]
		j = from[i][j]
	}
	return led
}

// standing is what a voicing costs by itself.
func standing(v []int) float64 {
	sum := 0
	cost := 0.0
	for i, key := range v {
		sum += key
		if i > 0 && v[i-1] < muddyBelow && key-v[i-1] < 3 {
			cost += mudPenalty
		}
	}
	return cost + farPenalty*math.Abs(float64(sum)/float64(len(v))-compMiddle)
}

// movement is how many semitones the voices move in all.
func movement(a, b []int) float64 {
	sum, same := 0, len(a) == len(b)
	for i := range min(len(a), len(b)) {
		step := b[len(b)-1-i] - a[len(a)-1-i] // from the top, where it is heard most
		if step != 0 {
			same = false
		}
		sum += max(step, -step)
	}
	if same {
		return stampPenalty
	}
	return float64(sum)
}
