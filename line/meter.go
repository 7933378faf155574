package line

import (
	"strconv"
	"strings"

	"heddle/pitch"
)

// A Meter is a time signature.
type Meter struct {
	Beats int // upper number, 1 to 32
	Unit  int // lower number: 2, 4, 8 or 16
}

// mostBeats is the largest upper number of a time signature: twice the largest in
// print, so that added metres are accepted.
const mostBeats = 32

// CommonTime is 4/4.
var CommonTime = Meter{Beats: 4, Unit: 4}

// Bar returns the length of a bar.
func (m Meter) Bar() Beat { return Beat(m.Beats) * m.Beat() }

// Beat returns the length of one beat, the lower number's note; 0 if the
// lower number is 0.
func (m Meter) Beat() Beat {
	if m.Unit == 0 {
		return 0
	}
	return 4 * Quarter / Beat(m.Unit)
}

// Compound reports whether the bar's pulses divide in three, as those of 6/8,
// 9/8 and 12/8 do.
func (m Meter) Compound() bool { return m.Unit >= 8 && m.Beats%3 == 0 }

// Counted returns the beat that a tempo counts: a dotted note in compound metres, a
// half note in halves, otherwise a quarter (common practice).
func (m Meter) Counted() Beat {
	switch {
	case m.Compound():
		return 3 * m.Beat()
	case m.Unit == 2:
		return 2 * Quarter
	}
	return Quarter
}

// String returns the time signature: "4/4".
func (m Meter) String() string { return strconv.Itoa(m.Beats) + "/" + strconv.Itoa(m.Unit) }

// Check returns an error for a metre that can't be counted.
func (m Meter) Check() error {
	switch m.Unit {
	case 2, 4, 8, 16:
		if m.Beats >= 1 && m.Beats <= mostBeats {
			return nil
		}
	}
	return meterError(m.String())
}

// ParseMeter reads a time signature such as "4/4" or "7/8".
func ParseMeter(s string) (Meter, error) {
	beats, unit, _ := strings.Cut(s, "/")
	m := Meter{}
	var beatsOK, unitOK bool
	m.Beats, beatsOK = parseCount(beats)
	m.Unit, unitOK = parseCount(unit)
	if !beatsOK || !unitOK || m.Check() != nil {
		return Meter{}, meterError(s)
	}
	return m, nil
}

func meterError(typed string) error {
	return &pitch.InputError{What: "meter", Value: typed, Want: "1 to 32 beats over 2, 4, 8 or 16, such as 4/4"}
}

// parseCount reads a whole number of at most three digits, without a sign.
func parseCount(s string) (int, bool) {
	s = strings.TrimSpace(s)
	if len(s) == 0 || len(s) > 3 {
		return 0, false
	}
	n := 0
	for _, digit := range []byte(s) {
		if digit < '0' || digit > '9' {
			return 0, false
		}
		n = 10*n + int(digit-'0')
	}
	return n, true
}
