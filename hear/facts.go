package hear

import (
	"fmt"
	"math"
	"strconv"
)

// DelayText says that a take lies late or early as a whole against its click
// and was marked by its own beat; it is empty for any other take.
func (r *Report) DelayText() string {
	if r.Clicked || r.BehindMS == 0 {
		return ""
	}
	return fmt.Sprintf("The whole take is %s against the click. A delay of the device is likelier than one of yours, so your own beat is what it is marked against.", TimingText(r.BehindMS))
}

// Facts says what holds for the take as a whole: timing, tempo, tuning and what
// was not counted. It is empty when no note of the line was heard.
func (r *Report) Facts() []string {
	var facts []string
	if r.Summary.Right+r.Summary.Wrong > 0 && !r.OtherLine() {
		against := "your own beat"
		if r.Clicked {
			against = "the click"
		}
		facts = append(facts,
			fmt.Sprintf("Timing against %s: %s in the middle, most notes within %.0f ms of that.", against, TimingText(r.Summary.TimingMSMedian), math.Max(1, r.Summary.TimingMSSpread)),
			fmt.Sprintf("Tempo: %s.", strconv.FormatFloat(r.Tempo, 'f', -1, 64)),
			fmt.Sprintf("Tuning: %s cents from A = 440 Hz, allowed for in the marks.", Signed(r.TuningCents)))
		if n := len(r.Retried); n > 0 {
			facts = append(facts, fmt.Sprintf("%s played again; the last attempt counts.", counted(n, "note", "notes")))
		}
	}
	if n := len(r.Before); n > 0 {
		facts = append(facts, fmt.Sprintf("%s before the line: not counted.", counted(n, "note", "notes")))
	}
	return facts
}

// TimingText says how early or late something is. One millisecond is on time.
func TimingText(ms float64) string {
	switch whole := math.Round(ms); {
	case whole < -1:
		return fmt.Sprintf("%.0f ms early", -whole)
	case whole > 1:
		return fmt.Sprintf("%.0f ms late", whole)
	}
	return "on time"
}

// Signed writes a whole number with its sign: −12, 0, +7.
func Signed(x float64) string {
	switch whole := math.Round(x); {
	case whole < 0:
		return fmt.Sprintf("−%.0f", -whole)
	case whole > 0:
		return fmt.Sprintf("+%.0f", whole)
	}
	return "0"
}
