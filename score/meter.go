package score

import "heddle/line"

// A pulse is how a metre divides: the lengths of its beats in order, and the
// beats where a stronger part of the bar begins.
type pulse struct {
	bar    line.Beat
	beats  []line.Beat // where each beat begins
	ends   []line.Beat // where each beat ends
	strong map[line.Beat]bool
}

// pulseOf divides a metre in the usual way: compound metres in threes, five
// and seven with the longer part where players expect it (3+2 in quarters,
// 2+2+3 in eighths), four in two halves.
func pulseOf(m line.Meter) pulse {
	if m.Beats <= 0 || m.Unit <= 0 {
		m = line.Meter{Beats: 4, Unit: 4}
	}
	unit := whole / line.Beat(m.Unit)
	p := pulse{bar: m.Bar(), strong: map[line.Beat]bool{}}
	at := line.Beat(0)
	for _, n := range beatSizes(m) {
		p.beats = append(p.beats, at)
		at += line.Beat(n) * unit
		p.ends = append(p.ends, at)
	}
	switch {
	case m.Unit == 4 && m.Beats == 4:
		p.strong[2*unit] = true
	case m.Unit == 4 && (m.Beats == 5 || m.Beats == 7):
		p.strong[line.Beat(m.Beats-2)*unit] = true
		if m.Beats == 7 {
			p.strong[3*unit] = true
		}
	case m.Unit == 4 && m.Beats == 6:
		p.strong[3*unit] = true
	case m.Unit == 4 && m.Beats > 4 && m.Beats%2 == 0:
		for b := 2; b < m.Beats; b += 2 {
			p.strong[line.Beat(b)*unit] = true
		}
	case m.Unit == 8 && m.Beats == 12:
		p.strong[6*unit] = true
	}
	return p
}

// beatSizes returns the units in each beat.
func beatSizes(m line.Meter) []int {
	fill := func(size int) []int {
		var sizes []int
		for left := m.Beats; left > 0; left -= size {
			sizes = append(sizes, min(size, left))
		}
		return sizes
	}
	switch {
	case m.Unit >= 8 && m.Beats%3 == 0:
		return fill(3)
	case m.Unit >= 8 && m.Beats == 5:
		return []int{3, 2}
	case m.Unit >= 8 && m.Beats == 7:
		return []int{2, 2, 3}
	case m.Unit >= 8:
		return fill(m.Unit / 4)
	}
	return fill(1)
}

// beat returns the number of the beat that a position in the bar lies in.
func (p pulse) beat(at line.Beat) int {
	for i, end := range p.ends {
		if at < end {
			return i
		}
	}
	return len(p.ends) - 1
}

// The strengths of a position in the bar.
const (
	barStrength  = 9
	halfStrength = 8
	beatStrength = 7
)

// strength says how strong a position in the bar is: the bar line, a strong
// part of the bar, a beat, then each halving of a beat one less.
func (p pulse) strength(at line.Beat) int {
	if at%p.bar == 0 {
		return barStrength
	}
	if p.strong[at] {
		return halfStrength
	}
	b := p.beat(at)
	into, size := at-p.beats[b], p.ends[b]-p.beats[b]
	if into == 0 {
		return beatStrength
	}
	if compound := whole / 16 * 3; size%compound == 0 {
		size /= 3
	} else {
		size /= 2
	}
	for level := beatStrength - 1; level > 0 && size > 0; level-- {
		if into%size == 0 {
			return level
		}
		size /= 2
	}
	return 0
}
