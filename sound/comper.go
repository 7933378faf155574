package sound

import (
	"heddle/line"
	"heddle/sound/dsp"
	"heddle/sound/groove"
	"heddle/sound/keyboard"
)

// keysLooseMS is how far chance moves a chord either way.
const keysLooseMS = 3

// keyNotes returns what the keys play in a pass.
func (b *band) keyNotes(p pass) []keyboard.Note {
	if p.kind == silentPass || len(b.comp.spans) == 0 || b.opt.Vamp == ClickVamp {
		return nil
	}
	d := dsp.Roll(b.opt.Seed, chordDice, p.number)
	led := b.comp.lead(&d)
	switch {
	case p.kind == endingPass:
		return b.lastChord(p, led[0], &d)
	case b.opt.Vamp == DroneVamp:
		return b.heldChords(p, led)
	}
	return b.comped(p, led, grooves[b.opt.Vamp].Keys, &d)
}

// heldChords holds each chord for its whole span.
func (b *band) heldChords(p pass, led [][]int) []keyboard.Note {
	var notes []keyboard.Note
	for i, h := range b.comp.spans {
		for _, key := range led[i] {
			notes = append(notes, keyboard.Note{At: round(b.form.at(p, h.start)), Off: round(b.form.at(p, h.end)), Key: key, Force: 0.5})
		}
	}
	return notes
}

// lastChord ends the piece.
func (b *band) lastChord(p pass, keys []int, d *dsp.Dice) []keyboard.Note {
	return b.chord(nil, p, groove.Stroke{}, line.Beat(ringOutS*0.6*p.tempo/60*float64(line.Quarter)), keys, groove.Keys{RollMS: 6}, 0.75, d)
}

// comped plays each chord in the vamp's rhythm.
func (b *band) comped(p pass, led [][]int, part groove.Keys, d *dsp.Dice) []keyboard.Note {
	var stabs []groove.Stroke
	pulses := groove.Pulses(b.form.meter)
	home := dsp.Roll(b.opt.Seed, chordDice)
	for bar := range b.form.bars {
		for _, s := range part.Plays.Bar(bar, pulses, home, d, part.Stray) {
			if s.At > 0 && d.Unit() < part.Silence {
				continue
			}
			s.At += b.form.beatAt(bar, 0)
			stabs = append(stabs, s)
		}
	}
	var notes []keyboard.Note
	for i, s := range stabs {
		end := b.form.length()
		if i+1 < len(stabs) {
			end = stabs[i+1].At
		}
		span := b.comp.at(s.At)
		if part.Hold > 0 {
			end = min(end, s.At+part.Hold)
		} else {
			end = min(end, b.comp.spans[span].end)
		}
		notes = b.chord(notes, p, s, end, led[b.ahead(span, s.At)], part, groove.Force(s.Letter)*part.Force, d)
	}
	return notes
}

// ahead returns the span whose chord is played at a position: the next one's
// from its last swung or straight eighth on, since a chord on the "and" before
// a bar line belongs to what follows (common practice).
func (b *band) ahead(span int, at line.Beat) int {
	next := (span + 1) % len(b.comp.spans)
	if b.comp.spans[span].end-at <= 2*groove.Slot {
		return next
	}
	return span
}

// chord adds the keys of one chord.
func (b *band) chord(notes []keyboard.Note, p pass, s groove.Stroke, end line.Beat, keys []int, part groove.Keys, force float64, d *dsp.Dice) []keyboard.Note {
	rate := float64(b.form.rate)
	late := (part.LateMS + keysLooseMS*d.Swing()) / 1000 * rate
	for i, key := range keys {
		n := keyboard.Note{
			At:  round(b.playedAt(p, s) + late + float64(i)*part.RollMS/1000*rate),
			Off: round(b.bandAt(p, end)), Key: key,
			Force: force * (1 + 0.08*d.Swing()),
		}
		if i == len(keys)-1 {
			n.Force *= 1.08 // the top voice sings
		}
		n.Off = max(n.Off, n.At+int64(0.03*rate))
		notes = append(notes, n)
	}
	return notes
}
