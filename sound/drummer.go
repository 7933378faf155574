package sound

import (
	"heddle/line"
	"heddle/sound/drumkit"
	"heddle/sound/dsp"
	"heddle/sound/groove"
	"heddle/sound/mixer"
)

// Bars between fills, and between large ones.
const (
	fillEvery    = 4
	bigFillEvery = 8
)

// looseMS is how far chance moves a stroke either way.
const looseMS = 2.5

// toms holds which tom each letter of a fill means.
var toms = map[byte]drumkit.Piece{'h': drumkit.TomHigh, 'm': drumkit.TomMiddle, 'l': drumkit.TomLow}

// pieces returns what the vamp's kit needs.
func (v Vamp) pieces() (needed [drumkit.Pieces]bool) {
	g := grooves[v]
	for _, limb := range g.Limbs {
		needed[limb.Piece], needed[limb.Soft] = true, true
	}
	for _, p := range append([]drumkit.Piece{g.Mark, g.FillOn}, g.Ending...) {
		needed[p] = true
	}
	for _, p := range toms {
		needed[p] = needed[p] || len(g.Fill) > 0
	}
	return needed
}

// drumHits returns what the drummer plays in a pass.
func (b *band) drumHits(p pass) []mixer.Hit {
	g, ok := grooves[b.opt.Vamp]
	if !ok || p.kind == silentPass {
		return nil
	}
	d := dsp.Roll(b.opt.Seed, drumDice, p.number)
	var hits []mixer.Hit
	if p.kind == endingPass {
		for _, piece := range g.Ending {
			hits = append(hits, b.drumStroke(p, groove.Stroke{}, piece, 0.9, 0, &d))
		}
		return hits
	}
	pulses := groove.Pulses(b.form.meter)
	for bar := range b.form.bars {
		number := p.number*b.form.bars + bar
		start := b.form.beatAt(bar, 0)
		filled, fill := b.fill(g, number, pulses, &d)
		for v, limb := range g.Limbs {
			home := dsp.Roll(b.opt.Seed, drumDice, v)
			for _, s := range limb.Plays.Bar(bar, pulses, home, &d, limb.Stray) {
				if limb.Piece == g.FillOn && s.At >= filled {
					continue
				}
				piece, force := limb.Piece, groove.Force(s.Letter)
				if s.Letter == 'o' && limb.Soft != limb.Piece {
					piece, force = limb.Soft, 0.9
				}
				s.At += start
				hits = append(hits, b.drumStroke(p, s, piece, force, limb.LateMS, &d))
			}
		}
		for _, s := range fill {
			piece, ok := toms[s.Letter]
			if !ok {
				piece = g.FillOn
			}
			s.At += start
			hits = append(hits, b.drumStroke(p, s, piece, groove.Force(s.Letter), 2, &d))
		}
		if number > 0 && number%bigFillEvery == 0 {
			hits = append(hits, b.drumStroke(p, groove.Stroke{At: start}, g.Mark, 0.85, 0, &d))
		}
	}
	return hits
}

// fill returns what fills the end of a bar, and from where on; nothing, from
// the next bar on, where there is no fill.
func (b *band) fill(g groove.Groove, number int, pulses []groove.Pulse, d *dsp.Dice) (from line.Beat, strokes []groove.Stroke) {
	cells, over := g.Fill, 1
	if (number+1)%bigFillEvery == 0 && len(g.BigFill) > 0 {
		cells, over = g.BigFill, 2
	}
	if (number+1)%fillEvery != 0 || len(cells) == 0 || len(pulses) <= over {
		return b.form.meter.Bar(), nil
	}
	pulses = pulses[len(pulses)-over:]
	for i, cell := range groove.Cells(cells[d.Below(len(cells))]) {
		strokes = append(strokes, pulses[i].Cell(cell)...)
	}
	return pulses[0].Start, strokes
}

// drumStroke returns one stroke, a little off the grid and never twice alike.
func (b *band) drumStroke(p pass, s groove.Stroke, piece drumkit.Piece, force, lateMS float64, d *dsp.Dice) mixer.Hit {
	ms := lateMS + looseMS*d.Swing()
	force *= 1 + 0.1*d.Swing()
	return mixer.Hit{
		At:    round(b.playedAt(p, s) + ms/1000*float64(b.form.rate)),
		Sound: int(piece)*drumkit.Takes + d.Below(drumkit.Takes),
		Gain:  float32(force * force),
	}
}

// playedAt returns the sample at which a stroke of the band sounds.
func (b *band) playedAt(p pass, s groove.Stroke) float64 {
	if s.Plain {
		return b.form.plain(p, s.At)
	}
	return b.bandAt(p, s.At)
}

// bandAt returns the sample at which a written position sounds in the band. Over a
// straight line a band whose style swings still swings.
func (b *band) bandAt(p pass, at line.Beat) float64 {
	if g := grooves[b.opt.Vamp]; b.form.rhythm.Swing.Straight() && !g.Swing.Straight() {
		return b.form.plain(p, g.Swing.Sounding(at, b.form.meter))
	}
	return b.form.at(p, at)
}
