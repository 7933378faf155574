package line

// A Bar is one bar as it is written.
type Bar struct {
	Number     int // as counted: 1 is the first whole bar, 0 the pickup; before that it goes on down
	Start, End Beat
	Downbeat   Beat // where the whole bar would begin: before Start in a pickup
}

// Bars cuts the time from first, a pickup below 0, to last at the bar lines, to
// the end of the bar in which it ends. The first bar of a pickup is no longer
// than it must be.
func Bars(m Meter, first, last Beat) []Bar {
	p := PulseOf(m)
	length := p.Bar()
	first = min(first, 0)
	var bars []Bar
	for n := floorDiv(first, length); n*length < max(last, 1); n++ {
		b := Bar{Number: int(n) + 1, Start: n * length, End: (n + 1) * length, Downbeat: n * length}
		if b.Start < first {
			b.Start = pickupStart(p.From(b.Downbeat), first)
		}
		bars = append(bars, b)
	}
	return bars
}

// pickupStart moves the beginning of a pickup that can't be written with plain
// values back to its beat, so that the tuplet it stands in is whole.
func pickupStart(p Pulse, first Beat) Beat {
	if first%grain == 0 {
		return first
	}
	from, _ := p.Span(p.BeatAt(first))
	return from
}
