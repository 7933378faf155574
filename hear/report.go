package hear

import (
	"encoding/json"

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
	Index    int // of the exercise's note
	Verdict  Verdict
	Heard    int     // index of the note heard for it, −1 when missed
	TimingMS float64 // against the player's own beat or the click; negative is early
	Cents    float64 // against the written pitch on the guitar's own tuning
}

// MarshalJSON leaves out what a missed note does not have.
func (m NoteMark) MarshalJSON() ([]byte, error) {
	if m.Verdict == Missed {
		return json.Marshal(struct {
			Index   int     `json:"index"`
			Verdict Verdict `json:"verdict"`
		}{m.Index, m.Verdict})
	}
	return json.Marshal(struct {
		Index    int     `json:"index"`
		Verdict  Verdict `json:"verdict"`
		Heard    int     `json:"heard"`
		TimingMS float64 `json:"timing_ms"`
		Cents    float64 `json:"cents"`
	}{m.Index, m.Verdict, m.Heard, m.TimingMS, m.Cents})
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
	r.Summary.TimingMSMedian = round(stats.Median(timing), 0.1)
	r.Summary.TimingMSSpread = round((stats.Quantile(timing, 0.84)-stats.Quantile(timing, 0.16))/2, 0.1)
}
