package hear

import (
	"encoding/json"
	"fmt"
	"math"
	"strconv"
	"strings"

	"heddle/hear/internal/stats"
)

// A Verdict says how a written note was played.
type Verdict string

// The verdicts. Early and late are the sign of a mark's TimingMS.
const (
	Right  Verdict = "right"
	Wrong  Verdict = "wrong" // another pitch in its place
	Missed Verdict = "missed"
)

// A NoteMark is the verdict on one written note.
type NoteMark struct {
	Index    int     `json:"index"` // of the exercise's note
	Verdict  Verdict `json:"verdict"`
	Heard    int     `json:"heard"`     // index of the note heard for it, −1 when missed
	TimingMS float64 `json:"timing_ms"` // against the player's own beat or the click; negative is early
	Cents    float64 `json:"cents"`     // against the written pitch on the guitar's own tuning
}

// plainMark is a mark without its methods.
type plainMark NoteMark

// MarshalJSON leaves out what a missed note does not have.
func (m NoteMark) MarshalJSON() ([]byte, error) {
	if m.Verdict == Missed {
		return json.Marshal(map[string]any{"index": m.Index, "verdict": m.Verdict})
	}
	return json.Marshal(plainMark(m))
}

// UnmarshalJSON reads what MarshalJSON writes.
func (m *NoteMark) UnmarshalJSON(text []byte) error {
	*m = NoteMark{Heard: -1}
	return json.Unmarshal(text, (*plainMark)(m))
}

// A Summary counts the marks. Median and spread are over the notes that were
// played in time order; the spread is half the distance between the 16th and
// the 84th percentile, one standard deviation of a normal distribution.
type Summary struct {
	Right          int     `json:"right"`
	Wrong          int     `json:"wrong"`
	Missed         int     `json:"missed"`
	Extra          int     `json:"extra"`
	TimingMSMedian float64 `json:"timing_ms_median"`
	TimingMSSpread float64 `json:"timing_ms_spread"`
}

// A Report is a marked take.
type Report struct {
	Tempo       float64    `json:"tempo"`    // quarter notes a minute, as played
	OffsetS     float64    `json:"offset_s"` // when the first written note fell, or would have
	TuningCents float64    `json:"tuning_cents"`
	Heard       []Heard    `json:"heard"`
	Marks       []NoteMark `json:"marks"`
	Extra       []int      `json:"extra"`   // heard notes that match no written one
	Retried     []int      `json:"retried"` // heard notes of an attempt that a later one replaced
	Before      []int      `json:"before"`  // heard notes before the line, such as a count-in
	Summary     Summary    `json:"summary"`
	Clicked     bool       `json:"marked_to_click"` // against the click, not the player's own beat
	BehindMS    float64    `json:"behind_ms"`       // how far the take as a whole is behind its click, 0 without one
	Advice      []string   `json:"advice"`          // sentences a player can act on, the most pressing first
}

func (r *Report) summarise() {
	var timing []float64
	for _, m := range r.Marks {
		switch m.Verdict {
		case Right:
			r.Summary.Right++
		case Wrong:
			r.Summary.Wrong++
		case Missed:
			r.Summary.Missed++
			continue
		}
		timing = append(timing, m.TimingMS)
	}
	r.Summary.Extra = len(r.Extra)
	r.Summary.TimingMSMedian = round(stats.Median(timing), 10)
	r.Summary.TimingMSSpread = round((stats.Quantile(timing, 0.84)-stats.Quantile(timing, 0.16))/2, 10)
}

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
	whole := math.Round(ms)
	if math.Abs(whole) <= 1 {
		return "on time"
	}
	return fmt.Sprintf("%.0f ms %s", math.Abs(whole), way(whole, "early", "late"))
}

// Signed writes a whole number with its sign: −12, 0, +7.
func Signed(x float64) string {
	whole := int(math.Round(x))
	if whole == 0 {
		return "0"
	}
	return strings.Replace(fmt.Sprintf("%+d", whole), "-", "−", 1)
}

// way is one of two words for the sign of a number.
func way(x float64, below, above string) string {
	if x < 0 {
		return below
	}
	return above
}
