package sound

import (
	"heddle/line"
	"heddle/sound/dsp"
	"heddle/sound/groove"
)

// walk is a walking bass: a note on every pulse, the chord's bass note where
// a chord begins, its tones and steps between, and on the last pulse before
// the next chord a note a semitone or tone from where that begins.
func (b *band) walk(d *dsp.Dice) []bassStep {
	var steps []bassStep
	at := bassKey(b.comp.spans[0].chord.Bass.Class(), 33)
	for i, h := range b.comp.spans {
		beats := b.walkBeats(h)
		next := b.comp.spans[(i+1)%len(b.comp.spans)].chord.Bass.Class()
		at = bassKey(h.chord.Bass.Class(), at)
		for k, start := range beats {
			switch {
			case k == 0:
			case k == len(beats)-1:
				at = approach(next, at, d)
			default:
				at = stride(h, at, d)
			}
			steps = append(steps, bassStep{at: start, key: at, force: 0.74 + 0.06*float64(k%2)})
			if d.Unit() < skipShare && k > 0 {
				steps = append(steps, bassStep{at: start + 2*groove.Slot, key: at, force: 0.55, dead: true})
			}
		}
	}
	b.holdUntilNext(steps, 0.92)
	return steps
}

// skipShare is how often a walking bass drops in a dead note between beats.
const skipShare = 0.08

// walkBeats returns the pulses within a span.
func (b *band) walkBeats(h harmony) []line.Beat {
	var beats []line.Beat
	bar := b.form.beatAt(h.bar, 0)
	for _, p := range groove.Pulses(b.form.meter) {
		if at := bar + p.Start; at >= h.start && at < h.end {
			beats = append(beats, at)
		}
	}
	if len(beats) == 0 || beats[0] != h.start {
		beats = append([]line.Beat{h.start}, beats...)
	}
	return beats
}

// approach returns a key next to the nearest key of a class: a semitone
// below or above, or now and then a tone; never where the line already is.
func approach(class, at int, d *dsp.Dice) int {
	target := bassKey(class, at)
	var near []int
	for _, step := range []int{-1, 1, -1, 1, 2, -2} {
		if key := target + step; key >= bassLowest && key != at {
			near = append(near, key)
		}
	}
	return near[d.Below(len(near))]
}

// stride returns the next note of a walk inside a chord: a tone of it no
// further than a fifth away and never the same again, upwards as likely as
// down but turning back at the ends of the range.
func stride(h harmony, at int, d *dsp.Dice) int {
	var near []int
	for step := -7; step <= 7; step++ {
		key := at + step
		if step == 0 || key < bassLowest || key > bassHighest-5 {
			continue
		}
		for _, deg := range h.chord.Degrees {
			if deg.Number <= 7 && deg.Above(h.chord.Root).Class() == key%12 {
				near = append(near, key)
			}
		}
	}
	if len(near) == 0 {
		return at
	}
	return near[d.Below(len(near))]
}
