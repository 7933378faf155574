package line

// A Pulse is how a bar is felt: where its beats begin, and which of them begin a
// stronger part of the bar.
type Pulse struct {
	edges  []Beat // where each beat begins, and where the last one ends
	strong []bool // whether each beat begins a part of the bar; the first is not set
	uneven bool   // whether the parts differ in length, as 3+2 in 5/4
}

// PulseOf divides a bar that begins at 0 in the usual way: compound metres in
// threes, five and seven with the longer part where players expect it (3+2 in
// quarters and in eighths, 2+2+3 in eighths), four beats in two halves. A metre that
// can't be counted is felt as 4/4.
func PulseOf(m Meter) Pulse {
	if m.Check() != nil {
		m = CommonTime
	}
	sizes := beatSizes(m)
	p := Pulse{edges: make([]Beat, 1, len(sizes)+1), strong: make([]bool, len(sizes))}
	for i, units := range sizes {
		p.edges = append(p.edges, p.edges[i]+Beat(units)*m.Beat())
	}
	// Beats of another length begin a part; those of one length are divided
	// among themselves.
	for from, to := 0, 0; from < len(sizes); from = to {
		for to = from; to < len(sizes) && sizes[to] == sizes[from]; to++ {
		}
		p.strong[from] = from > 0
		for _, beat := range partsOfBar(to - from) {
			p.strong[from+beat] = true
		}
	}
	p.uneven = unequal(p.parts())
	return p
}

// parts returns where each part of the bar begins, and where the last one ends.
func (p Pulse) parts() []Beat {
	edges := []Beat{p.edges[0]}
	for beat, strong := range p.strong {
		if strong {
			edges = append(edges, p.edges[beat])
		}
	}
	return append(edges, p.edges[len(p.edges)-1])
}

// unequal reports whether edges are not equally far apart.
func unequal(edges []Beat) bool {
	for i := 2; i < len(edges); i++ {
		if edges[i]-edges[i-1] != edges[1]-edges[0] {
			return true
		}
	}
	return false
}

// beatSizes returns the units in each beat. Units shorter than a quarter are felt
// in threes if their number is a multiple of three, otherwise in quarters; a single
// one left over makes a group of three.
func beatSizes(m Meter) []int {
	size := max(1, m.Unit/4)
	if m.Compound() {
		size = 3
	} else if m.Unit >= 8 && m.Beats == 5 {
		return []int{3, 2}
	}
	var sizes []int
	for left := m.Beats; left > 0; {
		n := min(size, left)
		if left == size+1 && size > 1 {
			n = 3
		}
		sizes = append(sizes, n)
		left -= n
	}
	return sizes
}

// partsOfBar returns the beats that begin a part of a bar of equal beats.
func partsOfBar(beats int) []int {
	switch {
	case beats == 5 || beats == 6:
		return []int{3}
	case beats == 7:
		return []int{3, 5}
	case beats%2 != 0:
		return nil
	}
	var parts []int
	for beat := 2; beat < beats; beat += 2 {
		parts = append(parts, beat)
	}
	return parts
}

// from returns the pulse of a bar that begins at a time.
func (p Pulse) from(downbeat Beat) Pulse {
	edges := make([]Beat, len(p.edges))
	for i, at := range p.edges {
		edges[i] = at - p.edges[0] + downbeat
	}
	return Pulse{edges, p.strong, p.uneven}
}

// Parts returns the strong beats: where the bar begins, and each part of it.
func (p Pulse) Parts() []Beat {
	parts := p.edges[:1:1]
	for beat, strong := range p.strong {
		if strong {
			parts = append(parts, p.edges[beat])
		}
	}
	return parts
}

// Bar returns the length of the bar.
func (p Pulse) Bar() Beat { return p.edges[len(p.edges)-1] - p.edges[0] }

// Span returns where a beat, counted from 0, begins and ends.
func (p Pulse) Span(beat int) (from, to Beat) { return p.edges[beat], p.edges[beat+1] }

// BeatAt returns the number of the beat at a time in the bar.
func (p Pulse) BeatAt(t Beat) int {
	last := len(p.strong) - 1
	for beat := range last {
		if t < p.edges[beat+1] {
			return beat
		}
	}
	return last
}

// The strengths of positions in the bar.
const (
	barStrength  = 9
	partStrength = 8
	beatStrength = 7
)

// strength returns how strong a position in the bar is: the bar line, the beginning
// of a part of the bar, a beat, then one less for each division of a beat.
func (p Pulse) strength(t Beat) int {
	beat := p.BeatAt(t)
	from, to := p.Span(beat)
	switch {
	case t == p.edges[0] || t == p.edges[len(p.edges)-1]:
		return barStrength
	case t == from && p.strong[beat]:
		return partStrength
	case t == from:
		return beatStrength
	}
	strength := beatStrength - 1
	for size := part(to - from); strength > 0 && (t-from)%size != 0; size /= 2 {
		strength--
	}
	return strength
}

// strongest returns the strongest position between two (in a tie, the earliest) and
// its strength; false if they are within one step of the finest grain.
func (p Pulse) strongest(from, to Beat) (at Beat, strength int, found bool) {
	for _, edge := range p.edges {
		if edge > from && edge < to {
			if s := p.strength(edge); s > strength {
				at, strength, found = edge, s, true
			}
		}
	}
	if found {
		return at, strength, true
	}
	start, end := p.Span(p.BeatAt(from))
	for size := part(end - start); size >= grain; size /= 2 {
		if at = from + size - (from-start)%size; at < to {
			return at, p.strength(at), true
		}
	}
	return 0, 0, false
}

// part returns the first division of a beat: its third or its half.
func part(beat Beat) Beat {
	if inThrees(beat) {
		return beat / 3
	}
	return beat / 2
}

// inThrees reports whether a beat divides in three, as a dotted value does:
// plain values have one factor 3 in their beats, dotted ones two.
func inThrees(beat Beat) bool { return beat%9 == 0 }
