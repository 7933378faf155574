package takes

import (
	"fmt"

	"heddle/audio"
)

// Bounds on what take.json may hold. They are well beyond any real take and keep
// a page from growing without limit.
const (
	mostHeard    = 20 * audio.LongestS // twenty notes a second for the longest take
	mostAdvice   = 50
	mostText     = 8 << 10 // bytes of a sentence
	mostTempo    = 10000.0
	mostTimeS    = 2.0 * audio.LongestS
	mostTimingMS = 1000 * mostTimeS
	mostKey      = 200.0
	mostCents    = 100 * mostKey
	mostLevelDB  = 1000.0
)

// checkRanges refuses numbers and counts that no take has.
func (t *Take) checkRanges() error {
	r := t.Report
	if !(r.Tempo > 0 && r.Tempo <= mostTempo) {
		return notTake(fmt.Sprintf("tempo %v", r.Tempo))
	}
	var fault error
	within := func(what string, value, most float64) {
		if !(value >= -most && value <= most) && fault == nil {
			fault = notTake(fmt.Sprintf("%s %v", what, value))
		}
	}
	atMost := func(what string, n, most int) {
		if (n < 0 || n > most) && fault == nil {
			fault = notTake(fmt.Sprintf("%d %s", n, what))
		}
	}
	atMost("heard notes", len(r.Heard), mostHeard)
	for what, n := range map[string]int{
		"extra notes": len(r.Extra), "retried notes": len(r.Retried), "notes before the line": len(r.Before), "extra notes in the summary": r.Summary.Extra,
	} {
		atMost(what, n, len(r.Heard))
	}
	for what, n := range map[string]int{"right": r.Summary.Right, "wrong": r.Summary.Wrong, "missed": r.Summary.Missed} {
		atMost(what+" notes in the summary", n, len(r.Marks))
	}
	atMost("sentences of advice", len(r.Advice), mostAdvice)
	for _, text := range append(r.Advice[:len(r.Advice):len(r.Advice)], t.Sentence) {
		atMost("bytes in a sentence", len(text), mostText)
	}
	within("offset_s", r.OffsetS, mostTimeS)
	within("length_s", t.LengthS, mostTimeS)
	within("tuning_cents", r.TuningCents, mostCents)
	within("behind_ms", r.BehindMS, mostTimingMS)
	within("timing_ms_median", r.Summary.TimingMSMedian, mostTimingMS)
	within("timing_ms_spread", r.Summary.TimingMSSpread, mostTimingMS)
	if t.FirstBarS != nil {
		within("first_bar_s", *t.FirstBarS, mostTimeS)
	}
	for _, m := range r.Marks {
		within("timing_ms", m.TimingMS, mostTimingMS)
		within("cents", m.Cents, mostCents)
	}
	for _, h := range r.Heard {
		within("onset_s", h.OnsetS, mostTimeS)
		within("offset_s", h.OffsetS, mostTimeS)
		within("midi", h.MIDI, mostKey)
		within("level", h.Level, mostLevelDB)
		within("confidence", h.Confidence, 1)
	}
	return fault
}
