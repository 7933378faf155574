package sound

import (
	"math"

	"heddle/sound/dsp"
	"heddle/sound/mixer"
)

// The click is a short block of wood: two modes that die within a few
// hundredths of a second. Its first sample already sounds, so that an onset
// can be told to the sample. Beat one is higher and louder.

// Which click.
const (
	clickBeat = iota
	clickBarLine
)

// clickGain is a click's gain against that of beat one.
const clickGain = 0.7

// The modes of the click.
const (
	clickHz       = 1250.0
	clickBarHz    = 1875.0 // a fifth higher
	clickOvertone = 2.63   // second mode of a block, chosen by ear
	clickS        = 0.08
	clickDecayS   = 0.012
)

// newClicks returns the click's sounds.
func newClicks(pl mixer.Place, rate float64) []mixer.Sample {
	return []mixer.Sample{
		clickBeat:    {Samples: woodBlock(clickHz, rate), Place: pl},
		clickBarLine: {Samples: woodBlock(clickBarHz, rate), Place: pl},
	}
}

// woodBlock makes a click of a pitch.
func woodBlock(hz, rate float64) []float32 {
	s := make([]float32, int(clickS*rate))
	w := 2 * math.Pi * hz / rate
	for i := range s {
		x := float64(i + 1)
		fall := math.Exp(-x / (clickDecayS * rate))
		tone := math.Sin(w*x) + 0.35*fall*math.Sin(clickOvertone*w*x)
		s[i] = float32(tone * fall)
	}
	dsp.FadeTail(s)
	return s
}

// clicks returns every click of the file in order.
func (b *band) clicks() []mixer.Hit {
	hits := b.countInClicks()
	for _, p := range b.form.passes {
		hits = append(hits, b.passClicks(p)...)
	}
	if end, ok := b.form.pass(len(b.form.passes)); ok && end.kind == endingPass {
		hits = append(hits, b.passClicks(end)...)
	}
	return hits
}

// countInClicks returns the clicks before the first pass: every beat.
func (b *band) countInClicks() []mixer.Hit {
	var hits []mixer.Hit
	for bar := range b.form.countIn {
		for beat := range b.form.beats {
			hits = append(hits, b.click(b.form.passes[0], bar-b.form.countIn, beat))
		}
	}
	return hits
}

// passClicks returns the clicks of a pass.
func (b *band) passClicks(p pass) []mixer.Hit {
	on := b.opt.ClickOn
	if p.kind == endingPass {
		if b.opt.Vamp != ClickVamp {
			return nil
		}
		return []mixer.Hit{b.click(p, 0, 0)}
	}
	if on == "" {
		if b.opt.Vamp.drums() && p.kind != silentPass {
			return nil
		}
		on = EveryBeat
	}
	var hits []mixer.Hit
	for bar := range b.form.bars {
		for beat := range b.form.beats {
			if on.falls(beat, b.form.beats) {
				hits = append(hits, b.click(p, bar, beat))
			}
		}
	}
	return hits
}

// click returns the click of one beat. It is on the beat to the sample.
func (b *band) click(p pass, bar, beat int) mixer.Hit {
	h := mixer.Hit{At: round(b.form.plain(p, b.form.beatAt(bar, beat))), Sound: clickBeat, Gain: clickGain}
	if beat == 0 {
		h.Sound, h.Gain = clickBarLine, 1
	}
	return h
}
