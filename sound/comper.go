package sound

import (
	"heddle/line"
	"heddle/sound/dsp"
	"heddle/sound/groove"
	"heddle/sound/keyboard"
)

// A keysPart is how the keys comp in a vamp.
type keysPart struct {
	figure  *groove.Figure
	hold    line.Beat // how long a chord lasts, at most up to the next; 0 for all the way
	lateMS  float64
	rollMS  float64 // between one key of a chord and the next
	stray   float64
	silence float64 // how often a pulse's cell is left out
	force   float64
}

// keysParts holds how the keys comp in each vamp.
var keysParts = map[Vamp]keysPart{
	FunkVamp:   {figure: &groove.FunkKeys, hold: groove.Slot * 3 / 4, lateMS: 1, rollMS: 1.5, stray: 0.35, silence: 0.15, force: 0.85},
	SwingVamp:  {figure: &groove.SwingKeys, hold: 2 * groove.Slot, lateMS: 2, rollMS: 2.5, stray: 0.55, silence: 0.1, force: 0.7},
	BalladVamp: {figure: &groove.BalladKeys, lateMS: 0, rollMS: 14, stray: 0.35, force: 0.55},
}

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
	return b.comped(p, led, keysParts[b.opt.Vamp], &d)
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
	return b.chord(nil, p, 0, line.Beat(ringOutS*0.6*p.tempo/60*float64(line.Quarter)), keys, keysPart{rollMS: 6}, 0.75, d)
}

// comped plays each chord in the vamp's rhythm.
func (b *band) comped(p pass, led [][]int, part keysPart, d *dsp.Dice) []keyboard.Note {
	type stab struct {
		at    line.Beat
		force float64
	}
	var stabs []stab
	pulses := groove.Pulses(b.form.meter)
	for bar := range b.form.bars {
		for i, pl := range pulses {
			home := dsp.Roll(b.opt.Seed, chordDice, bar%2, i, 0)
			c := part.figure.Choose(pl, &home, d, part.stray)
			if d.Unit() < part.silence {
				continue
			}
			for k := range len(c) {
				if f := groove.Force(c[k]); f > 0 {
					stabs = append(stabs, stab{b.form.beatAt(bar, 0) + pl.Start + line.Beat(k)*groove.Slot, f * part.force})
				}
			}
		}
	}
	var notes []keyboard.Note
	for i, s := range stabs {
		end := b.form.length()
		if i+1 < len(stabs) {
			end = stabs[i+1].at
		}
		span := b.comp.at(s.at)
		if part.hold > 0 {
			end = min(end, s.at+part.hold)
		} else {
			end = min(end, b.comp.spans[span].end)
		}
		notes = b.chord(notes, p, s.at, end, led[b.ahead(span, s.at)], part, s.force, d)
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
func (b *band) chord(notes []keyboard.Note, p pass, at, end line.Beat, keys []int, part keysPart, force float64, d *dsp.Dice) []keyboard.Note {
	rate := float64(b.form.rate)
	late := (part.lateMS + keysLooseMS*d.Swing()) / 1000 * rate
	for i, key := range keys {
		n := keyboard.Note{
			At:  round(b.form.at(p, at) + late + float64(i)*part.rollMS/1000*rate),
			Off: round(b.form.at(p, end)), Key: key,
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
