package neck

import (
	"math"
	"strconv"
)

// why explains a pair's rank in a plain line: "first finger moves up 1 fret
// (20 mm); 10–14 spans 75 mm; no shared spots".
func why(p *Pair) string {
	line := make([]byte, 0, 128)
	if len(p.Superimposed) > 0 {
		line = append(appendShift(line, p), "; "...)
	}
	line = appendSpan(line, p)
	if len(p.Superimposed) > 0 {
		line = append(line, "; "...)
		line = appendShared(line, p.SharedSpots)
	}
	if !p.Joined {
		line = append(line, "; out of reach"...)
	}
	return string(line)
}

// appendShift says how the first finger moves. Among more than two
// placements there is no one way it goes, only how far apart it stands.
func appendShift(line []byte, p *Pair) []byte {
	up := p.Superimposed[0].FirstFinger() - p.Home.FirstFinger()
	switch {
	case p.ShiftFrets == 0:
		return append(line, "first finger stays"...)
	case len(p.Superimposed) > 1:
		line = append(line, "first finger moves within "...)
	case up > 0:
		line = append(line, "first finger moves up "...)
	default:
		line = append(line, "first finger moves down "...)
	}
	line = appendCount(line, p.ShiftFrets, "fret")
	return append(appendMM(append(line, " ("...), p.ShiftMM), ')')
}

// appendSpan says which frets all the placements take up.
func appendSpan(line []byte, p *Pair) []byte {
	first, high, open := p.Home.FirstFinger(), p.Home.Window.High, p.Home.Window.Low == 0
	for _, s := range p.Superimposed {
		first, high = min(first, s.FirstFinger()), max(high, s.Window.High)
		open = open || s.Window.Low == 0
	}
	line = append(strconv.AppendInt(line, int64(first), 10), "–"...)
	line = append(strconv.AppendInt(line, int64(high), 10), " spans "...)
	line = appendMM(line, p.WidthMM)
	if open {
		line = append(line, " with open strings"...)
	}
	return line
}

func appendShared(line []byte, spots int) []byte {
	if spots == 0 {
		return append(line, "no shared spots"...)
	}
	return appendCount(line, spots, "shared spot")
}

func appendCount(line []byte, n int, what string) []byte {
	line = append(strconv.AppendInt(line, int64(n), 10), ' ')
	line = append(line, what...)
	if n != 1 {
		line = append(line, 's')
	}
	return line
}

func appendMM(line []byte, mm float64) []byte {
	return append(strconv.AppendInt(line, int64(math.Round(mm)), 10), " mm"...)
}
