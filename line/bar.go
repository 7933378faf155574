package line

// A Bar is one bar as it is written.
type Bar struct {
	Number     int // 1 is the first whole bar, 0 the pickup; bars before that are negative
	Start, End Beat
	Downbeat   Beat // where the whole bar would begin: before Start in a pickup
}

// Bars divides the time from first (below 0 for a pickup) to the end of the bar that
// holds last. The first bar of a pickup is as short as possible.
func Bars(m Meter, first, last Beat) []Bar {
	p := PulseOf(m)
	length := p.Bar()
	first = min(first, 0)
	var bars []Bar
	for n := FloorDiv(first, length); n*length < max(last, 1); n++ {
		b := Bar{Number: int(n) + 1, Start: n * length, End: (n + 1) * length, Downbeat: n * length}
		if b.Start < first {
			b.Start = pickupStart(p.from(b.Downbeat), first)
		}
		bars = append(bars, b)
	}
	return bars
}

// pickupStart moves the beginning of a pickup that can't be written in plain values
// back to its beat, so that its tuplet is whole.
func pickupStart(p Pulse, first Beat) Beat {
	if first%grain == 0 {
		return first
	}
	from, _ := p.Span(p.BeatAt(first))
	return from
}
