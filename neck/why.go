package neck

import (
	"fmt"
	"heddle/pitch"
)

// why explains a pair's rank in one line: "first finger moves up 1 fret (20 mm);
// 10–14 spans 75 mm; no shared spots".
func why(p *Pair) string {
	line := ""
	if len(p.Superimposed) > 0 {
		line = shiftWords(p) + "; "
	}
	line += spanWords(p)
	switch {
	case len(p.Superimposed) > 0 && p.SharedSpots == 0:
		line += "; no shared spots"
	case len(p.Superimposed) > 0:
		line += "; " + pitch.Count(p.SharedSpots, "shared spot")
	}
	line += middleWords(p)
	if !p.Joined {
		line += "; out of reach"
	}
	return line
}

// middleWords says what a place off the middle of the neck counts for.
func middleWords(p *Pair) string {
	off, where := offMiddle(p.Home.Window), "high on the neck"
	switch {
	case off == 0:
		return ""
	case off < 0:
		where = "near the nut"
	}
	return fmt.Sprintf("; %s, which counts as %.2g frets more", where, costOffMiddle*float64(apart(off, 0)))
}

// shiftWords says how the first finger moves. With more than two placements there
// is no single way it moves, only how far apart its frets are.
func shiftWords(p *Pair) string {
	up := p.Superimposed[0].FirstFinger() - p.Home.FirstFinger()
	way := "down"
	switch {
	case p.ShiftFrets == 0:
		return "first finger stays"
	case len(p.Superimposed) > 1:
		way = "within"
	case up > 0:
		way = "up"
	}
	return fmt.Sprintf("first finger moves %s %s (%.0f mm)", way, pitch.Count(p.ShiftFrets, "fret"), p.ShiftMM)
}

// spanWords says which frets all the placements cover.
func spanWords(p *Pair) string {
	first, high, open := p.Home.FirstFinger(), p.Home.Window.High, p.Home.Window.Low == 0
	for _, s := range p.Superimposed {
		first, high = min(first, s.FirstFinger()), max(high, s.Window.High)
		open = open || s.Window.Low == 0
	}
	line := fmt.Sprintf("%d–%d spans %.0f mm", first, high, p.WidthMM)
	if open {
		line += " with open strings"
	}
	return line
}

// Frets returns the frets of each placement: "10–13 and 11–14".
func (p Pair) Frets() string {
	frets := p.Home.Window.String()
	for _, s := range p.Superimposed {
		frets += " and " + s.Window.String()
	}
	return frets
}
