package midi

import (
	"heddle/line"
	"heddle/pitch"
)

// bar finds the bar lines: it takes the metre at the first note and moves the
// first bar line to zero.
//
// A first bar that a new time signature cuts short is a pickup bar. Otherwise a
// line that begins in the second half of its bar begins with a pickup.
func (m *midiImport) bar() error {
	first := m.Notes[0].Start
	m.Rhythm.Meter = line.CommonTime
	from := line.Beat(0)
	meters := m.usableMeters()
	for i, c := range meters {
		start := m.beat(c.Tick)
		if start > first {
			break
		}
		m.Rhythm.Meter, from = c.Is, start
		if i+1 < len(meters) {
			next := meters[i+1]
			if end := m.beat(next.Tick); end == start+c.Is.Bar() && end > first && c.Is.Bar() < next.Is.Bar() {
				m.Rhythm.Meter, from = next.Is, end
				break
			}
		}
	}
	if m.Rhythm.Meter.Check() != nil {
		m.Remark("metre %s left out, want %s", m.Rhythm.Meter, meterWant)
		m.Rhythm.Meter = line.CommonTime
	}
	length := m.Rhythm.Meter.Bar()
	m.zero = from
	if first >= from {
		m.zero += (first - from) / length * length
		if late := first - m.zero; late > 0 && 2*late >= length {
			m.zero += length
		}
	}
	m.shift()
	m.meterRemarks(meters)
	return m.CheckLength()
}

func (m *midiImport) shift() {
	silent := m.zero / m.Rhythm.Meter.Bar()
	for i := range m.Notes {
		m.Notes[i].Start -= m.zero
	}
	if m.Notes[0].Start < 0 {
		silent--
	}
	if silent > 0 {
		m.Remark("%s before the line left out", pitch.Count(int(silent), "silent bar"))
	}
}

// meterWant says which metres a line can have.
const meterWant = "1 to 32 beats over 2, 4, 8 or 16"

// usableMeters returns the time signatures that a line can have. The first may
// be a pickup bar's, with a finer unit.
func (m *midiImport) usableMeters() []midiChange[line.Meter] {
	var usable []midiChange[line.Meter]
	for _, c := range m.file.Meters {
		if c.Is.Check() == nil || c.Is.Unit <= 32 && c.Tick == 0 {
			usable = append(usable, c)
			continue
		}
		m.Remark("metre %s left out, want %s", c.Is, meterWant)
	}
	return usable
}

// meterRemarks reports later metres, which are left out.
func (m *midiImport) meterRemarks(meters []midiChange[line.Meter]) {
	changes := 0
	for _, c := range meters {
		if m.beat(c.Tick) > m.zero && c.Is != m.Rhythm.Meter {
			changes++
		}
	}
	if changes > 0 {
		m.Remark("the metre at the first note (%s) is kept; %s after it left out", m.Rhythm.Meter, pitch.Count(changes, "metre change"))
	}
}

// unswing reads the swing from the text event that our own files have, and
// moves the notes back to their written positions.
func (m *midiImport) unswing() {
	for _, text := range m.file.Texts {
		if swing, err := line.ParseSwing(text); err == nil && !swing.Straight() {
			m.Rhythm.Swing = swing
		}
	}
	if m.Rhythm.Swing.Straight() {
		return
	}
	for i := range m.Notes {
		n := &m.Notes[i]
		start, end := writtenAt(m.Rhythm.Swing, m.Rhythm.Meter, n.Start), writtenAt(m.Rhythm.Swing, m.Rhythm.Meter, n.End())
		n.Start, n.Duration = start, max(1, end-start)
	}
}

// writtenAt returns the written position that sounds at a beat. If several do,
// it is the one on the coarsest division of the quarter note.
func writtenAt(swing line.Swing, meter line.Meter, sounding line.Beat) line.Beat {
	best, bestPart := sounding, line.Beat(0)
	// No half of a beat moves by more than a quarter.
	for b := sounding - line.Quarter; b <= sounding; b++ {
		if swing.Sounding(b, meter) != sounding {
			continue
		}
		if part := line.GCD(line.Quarter, max(b, -b)); part > bestPart {
			best, bestPart = b, part
		}
	}
	return best
}
