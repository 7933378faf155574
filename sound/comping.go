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
	thinPenalty  = 2   // for each voice left out
	stampPenalty = 3.5 // the same voicing twice running
	chancePlay   = 4.0 // how far chance may outweigh movement, in semitones
)

// spreads are the ways to lay out a chord's voices, each by which voices of the
// close position, counted from the top, go down an octave (common practice of
// keys and guitar). Without a root, close positions are the rootless voicings of
// the left hand; three voices are shells.
var spreads = []struct {
	name    string
	voices  int
	lowered []int
}{
	{"shell", 3, nil},
	{"close", 4, nil},
	{"drop 2", 4, []int{2}},
	{"drop 3", 4, []int{3}},
	{"drop 2 and 4", 4, []int{2, 4}},
}

// voicings returns every voicing of a chord in range: each spread of each
// inversion.
func voicings(c *exercise.Chord) [][]int {
	classes := voices(c)
	var all [][]int
	for _, s := range spreads {
		chosen := classes[:min(s.voices, len(classes))]
		if len(chosen) < s.voices && s.lowered != nil {
			continue
		}
		for low := compLowest; low < compLowest+24; low++ {
			if !slices.Contains(chosen, low%12) {
				continue
			}
			v := stack(low, chosen)
			for _, voice := range s.lowered {
				v[s.voices-voice] -= 12
			}
			slices.Sort(v)
			known := func(w []int) bool { return slices.Equal(v, w) }
			if v[0] >= compLowest-3 && v[len(v)-1] <= compHighest && !slices.ContainsFunc(all, known) {
				all = append(all, v)
			}
		}
	}
	return all
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
	cost := thinPenalty * float64(max(0, mostVoices-len(v)))
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
