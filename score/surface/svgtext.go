package surface

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// appendPath writes an outline in absolute coordinates.
func appendPath(out []byte, path Path) []byte {
	for _, seg := range path {
		switch seg.Op {
		case MoveTo:
			out = appendPoint(append(out, 'M'), seg.P[0])
		case LineTo:
			out = appendPoint(append(out, 'L'), seg.P[0])
		case CurveTo:
			out = appendPoint(append(out, 'C'), seg.P[0])
			out = appendPoint(append(out, ' '), seg.P[1])
			out = appendPoint(append(out, ' '), seg.P[2])
		case Close:
			out = append(out, 'Z')
		}
	}
	return out
}

func appendPoint(out []byte, p Point) []byte {
	return appendNumber(append(appendNumber(out, p.X), ' '), p.Y)
}

// appendNumber writes mm to 1/100, without needless zeros: 2540 dots an inch are
// what an imagesetter has, and a 26th of a pixel on a screen.
func appendNumber(out []byte, v float64) []byte {
	return appendHundredths(out, int64(math.Round(v*100)))
}

func appendHundredths(out []byte, n int64) []byte {
	if n < 0 {
		out = append(out, '-')
		n = -n
	}
	whole, part := n/100, n%100
	if whole > 0 || part == 0 {
		out = strconv.AppendInt(out, whole, 10)
	}
	if part == 0 {
		return out
	}
	out = append(out, '.', byte('0'+part/10))
	if part%10 != 0 {
		out = append(out, byte('0'+part%10))
	}
	return out
}

// scaled returns the path enlarged.
func scaled(path Path, by float64) Path {
	large := make(Path, len(path))
	for i, s := range path {
		for k, p := range s.P {
			s.P[k] = Point{p.X * by, p.Y * by}
		}
		large[i] = s
	}
	return large
}

var xmlEscapes = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;")

// escape makes a string safe in XML text and attributes. Characters that XML
// does not allow become the replacement character.
func escape(s string) string {
	clean := true
	for _, r := range s {
		if r < ' ' || r == utf8.RuneError || r == 0xFFFE || r == 0xFFFF || strings.ContainsRune(`&<>"`, r) {
			clean = false
			break
		}
	}
	if clean {
		return s
	}
	s = strings.Map(func(r rune) rune {
		if r < ' ' && r != '\n' && r != '\t' || r == 0xFFFE || r == 0xFFFF {
			return utf8.RuneError
		}
		return r
	}, strings.ToValidUTF8(s, "\uFFFD"))
	return xmlEscapes.Replace(s)
}
