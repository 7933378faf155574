package phrase

import (
	"fmt"
	"strconv"
	"strings"

	"heddle/line"
	"heddle/pitch"
)

// A Busy is how much is played.
type Busy string

// How busy a phrase may be.
const (
	Sparse Busy = "sparse"
	Medium Busy = "medium"
	Lively Busy = "busy"
)

// ParseBusy reads how busy a phrase is.
func ParseBusy(s string) (Busy, error) {
	switch b := Busy(strings.ToLower(strings.TrimSpace(s))); b {
	case Sparse, Medium, Lively:
		return b, nil
	}
	return "", &pitch.InputError{What: "busy", Value: s, Want: "sparse, medium or busy", Nearest: pitch.Nearest(s, []string{"sparse", "medium", "busy"})}
}

// rhythms are two-bar rhythms in eighths, a bar after the other (common practice). An x is
// a note, a dash holds it, a dot is a rest, and r is run through in the phrase's note
// value; runs fill whole beats.
var rhythms = map[string]map[Busy][]string{
	"4/4": {
		Sparse: {"..x-xx..|..rrrrx-", "x-x-..xx|x-..rrrr", ".xx-..x-|..rrrrx-", "..xxx-..|x-rrrrx-", "x---..rr|rrx-..x-", "..rrrrx-|....x-xx"},
		Medium: {"..xxx-xx|..rrrrx-", "x-xx..rr|rrrrx-..", "..xxrrrr|x-rrrrx-", "..rrrrxx|x-..xxx-", "xxx-..xx|x-rrrr..", ".xrrrrxx|..x-rrx-"},
		Lively: {"..rrrrrr|x-rrrrxx", "rrrrx-..|rrrrrrrr", "xxrrrrxx|..rrrrrr", ".xrrrrrr|xx..rrrr", "rrrrrrx-|..xxrrrr", "..xxrrrr|rrrrx-xx"},
	},
	"3/4": {
		Sparse: {"..x-x-|x-..rr", "x-..rr|rrx-..", "..rrrr|x-..x-", "x---..|..rrx-"},
		Medium: {"..xxxx|x-rr..", "xxx-..|rrrrx-", "..rrrr|rrx-xx", "x-rrrr|x-..xx", "..x-rr|rrrrx-"},
		Lively: {"..rrrr|rrrrrr", "rrrrxx|..rrrr", "xxrrrr|rr..xx", "rrrrrr|x-..rr"},
	},
	"2/4": {
		Sparse: {"..xx|x-..", "x-rr|x-..", "..rr|rrx-", "x-..|rrx-"},
		Medium: {"..rr|rrxx", "xxx-|..rr", "x-rr|rr..", "..rr|x-rr"},
		Lively: {"..rr|rrrr", "rrrr|..rr", "rrrr|rr..", "..rr|rrxx"},
	},
	"6/8": {
		Sparse: {"...x-x|x--...", "x--...|rrrx--", "...rrr|x--...", "x-x...|rrrx--"},
		Medium: {"x-xrrr|x--...", "...rrr|rrrx--", "x--...|rrrrrr", "...x-x|rrrx--"},
		Lively: {"...rrr|rrrrrr", "rrrrrr|...rrr", "rrrx-x|...rrr", "...rrr|rrrx-x"},
	},
	"12/8": {
		Sparse: {"...x-xx--...|...rrrx--...", "x--...rrrx--|...rrrx--...", "...x--x-x...|x--rrrx--...", "x-x......rrr|x--...rrrx--"},
		Medium: {"...xxxx--x-x|...rrrrrrx--", "x-xrrrx--...|x--rrrrrrx--", "...rrrrrrx-x|x--...rrrx--", "x-x...rrrrrr|x--rrrx--..."},
		Lively: {"...rrrrrrrrr|x-xrrrrrrx--", "rrrrrrx--...|x-xrrrrrrrrr", "x-xrrrrrrx-x|...rrrrrrrrr", "rrrrrrrrrx--|...rrrrrrx-x"},
	},
	"7/8": {
		Sparse: {"..x-x--|x-rr...", "x-..rrr|x-..x--", "..rrx--|x-..x-x"},
		Medium: {"..rrrrr|x-xxx--", "x-rrx-x|..rrx--", "..x-rrr|rrx-..."},
		Lively: {"..rrrrr|rrrrx-x", "rrrrrrr|..rrrrr", "x-rrrrr|..rrrrr"},
	},
}

// joined are the metres whose bars are those of others one after the other.
var joined = map[string][]string{
	"5/4": {"3/4", "2/4"}, "7/4": {"4/4", "3/4"},
}

// mostNotes is the most notes of the phrase's value that its bars may hold: twelve bars of
// sixteenth triplets in 4/4.
const mostNotes = 288

// CheckRhythm returns an error for a metre without rhythms, for a note value that does
// not fill the metre's beats, and for bars that hold more than mostNotes.
func CheckRhythm(r line.Rhythm, bars int) error {
	if _, ok := rhythms[r.Meter.String()]; !ok && joined[r.Meter.String()] == nil {
		return &pitch.InputError{What: "meter", Value: r.Meter.String(), Want: "4/4, 3/4, 2/4, 5/4, 7/4, 6/8, 12/8 or 7/8 for a phrase"}
	}
	p := line.PulseOf(r.Meter)
	for from, to := line.Beat(0), line.Beat(0); from < p.Bar(); from = to {
		_, to = p.Span(p.BeatAt(from))
		if (to-from)%r.Value.Length() != 0 {
			return &pitch.InputError{What: "value", Value: string(r.Value), Want: "a note value that fills the beats of " + r.Meter.String() + ", such as eighth"}
		}
	}
	if most := mostNotes / int(r.Meter.Bar()/r.Value.Length()); bars > most {
		return &pitch.InputError{What: "bars", Value: strconv.Itoa(bars), Want: fmt.Sprintf("at most %d bars of this note value in %v", most, r.Meter)}
	}
	return nil
}

// barsOf returns the two-bar rhythms of a metre, each as two bars of eighths.
func barsOf(m line.Meter, busy Busy) [][2]string {
	parts := joined[m.String()]
	if parts == nil {
		parts = []string{m.String()}
	}
	var list [][2]string
	for i := range rhythms[parts[0]][busy] {
		var two [2]string
		for k, part := range parts {
			rows := rhythms[part][busy]
			first, second, _ := strings.Cut(rows[(i+k)%len(rows)], "|")
			two[0] += first
			two[1] += second
		}
		list = append(list, two)
	}
	return list
}

// A span is one note of a rhythm.
type span struct{ start, end line.Beat }

// eighth is the grid of the table.
const eighth = line.Quarter / 2

// spansOf reads one bar of the table that begins at a time.
func spansOf(bar string, at line.Beat, r line.Rhythm) []span {
	if r.Value == line.QuarterNote {
		bar = quarters(bar)
	}
	p := line.PulseOf(r.Meter)
	var list []span
	for i := 0; i < len(bar); i++ {
		start := line.Beat(i) * eighth
		switch bar[i] {
		case 'x':
			list = append(list, span{at + start, at + start + eighth})
		case '-':
			if len(list) > 0 {
				list[len(list)-1].end = at + start + eighth
			}
		case 'r':
			from, to := p.Span(p.BeatAt(start))
			if start > from && bar[i-1] == 'r' {
				continue // the beat is already filled
			}
			for t := start; t < to; t += r.Value.Length() {
				list = append(list, span{at + t, at + t + r.Value.Length()})
			}
		}
	}
	return list
}

// quarters leaves only notes on the beats, for phrases in quarters.
func quarters(bar string) string {
	slots := []byte(bar)
	for i := 0; i+1 < len(slots); i += 2 {
		switch {
		case slots[i] == 'x' || slots[i] == 'r':
			slots[i], slots[i+1] = 'x', '-'
		case slots[i] == '-':
			slots[i+1] = '-'
		default:
			slots[i+1] = '.'
		}
	}
	return string(slots)
}
