package notefile

import (
	"strconv"

	"heddle/line"
	"heddle/pitch"
)

// bar finds the bar lines: it takes the metre at the first note, moves the
// first bar line to zero and tells a pickup.
//
// A first bar that a time signature cuts short is a pickup bar. Else a line
// that begins in the second half of its bar begins with a pickup.
func (m *midiImport) bar() error {
	first := m.Notes[0].Start
	m.Meter = line.CommonTime
	from := line.Beat(0)
	meters := m.usableMeters()
	for i, c := range meters {
		start := m.beat(c.Tick)
		if start > first {
			break
		}
		m.Meter, from = c.Is, start
		if i+1 < len(meters) {
			next := meters[i+1]
			if end := m.beat(next.Tick); end == start+c.Is.Bar() && end > first && c.Is.Bar() < next.Is.Bar() {
				m.Meter, from = next.Is, end
				break
			}
		}
	}
	if m.Meter.Check() != nil {
		m.remark("metre %s left out, want %s", m.Meter, meterWant)
		m.Meter = line.CommonTime
	}
	length := m.Meter.Bar()
	m.zero = from
	if first >= from {
		m.zero += (first - from) / length * length
		if late := first - m.zero; late > 0 && 2*late >= length {
			m.zero += length
		}
	}
	m.shift()
	m.meterRemarks(meters)
	last := m.Notes[len(m.Notes)-1]
	if bars := int(last.End() / length); bars > maxBars {
		return &pitch.InputError{What: "length of the line", Value: strconv.Itoa(bars) + " bars",
			Want: "at most " + strconv.Itoa(maxBars)}
	}
	return nil
}

// shift moves the line so that the first bar line is at zero.
func (m *midiImport) shift() {
	silent := m.zero / m.Meter.Bar()
	for i := range m.Notes {
		m.Notes[i].Start -= m.zero
	}
	if m.Notes[0].Start < 0 {
		silent--
	}
	if silent > 0 {
		m.remark("%s before the line left out", count(int(silent), "silent bar"))
	}
}

// meterWant says which metres a line can have.
const meterWant = "1 to 32 beats over 2, 4, 8 or 16"

// usableMeters returns the time signatures that a line can have. The first may
// be that of a pickup bar, in a unit finer than a line's.
func (m *midiImport) usableMeters() []midiChange[line.Meter] {
	var usable []midiChange[line.Meter]
	for _, c := range m.file.Meters {
		if c.Is.Check() == nil || c.Is.Unit <= 32 && c.Tick == 0 {
			usable = append(usable, c)
			continue
		}
		m.remark("metre %s left out, want %s", c.Is, meterWant)
	}
	return usable
}

// meterRemarks says that later metres are left out.
func (m *midiImport) meterRemarks(meters []midiChange[line.Meter]) {
	changes := 0
	for _, c := range meters {
		if m.beat(c.Tick) > m.zero && c.Is != m.Meter {
			changes++
		}
	}
	if changes > 0 {
		m.remark("the metre at the first note (%s) is kept; %s after it left out", m.Meter, count(changes, "metre change"))
	}
}

// unswing takes the swing that our own files state in a text event, and moves
// the notes back to where they are written.
func (m *midiImport) unswing() {
	for _, text := range m.file.Texts {
		if swing, err := line.ParseSwing(text); err == nil && !swing.Straight() {
			m.Swing = swing
		}
	}
	if m.Swing.Straight() {
		return
	}
	for i := range m.Notes {
		n := &m.Notes[i]
		start, end := writtenAt(m.Swing, m.Meter, n.Start), writtenAt(m.Swing, m.Meter, n.End())
		n.Start, n.Duration = start, max(1, end-start)
	}
}

// writtenAt returns the written position that sounds at a beat: of those that
// round to it, the one on the coarsest division of the quarter.
func writtenAt(swing line.Swing, meter line.Meter, sounding line.Beat) line.Beat {
	best, bestPart := sounding, line.Beat(0)
	// No half of a beat moves by more than a quarter.
	for b := sounding - quarter; b <= sounding; b++ {
		if swing.Sounding(b, meter) != sounding {
			continue
		}
		if part := gcd(quarter, max(b, -b)); part > bestPart {
			best, bestPart = b, part
		}
	}
	return best
}

// gcd returns the greatest common divisor; that of a and 0 is a.
func gcd(a, b line.Beat) line.Beat {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
