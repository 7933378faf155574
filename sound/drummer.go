package sound

import (
	"heddle/line"
	"heddle/sound/drumkit"
	"heddle/sound/dsp"
	"heddle/sound/groove"
	"heddle/sound/mixer"
)

// A voiceOfKit is what one limb plays.
type voiceOfKit struct {
	piece  drumkit.Piece
	soft   drumkit.Piece // for soft letters, where the piece has another sound for them
	figure *groove.Figure
	lateMS float64 // behind the beat, positive for laid back
	stray  float64 // how often it leaves its home cell
}

// A drumPart is what the drummer plays in a vamp.
type drumPart struct {
	voices   []voiceOfKit
	fill     *groove.Figure
	fillWith drumkit.Piece
}

// drumParts holds each vamp's drummer. Lateness of a few milliseconds is how
// grooves are felt: snare behind, hats on top (our figures, within the range
// measured on recordings by Butterfield 2010 and Senn et al. 2016).
var drumParts = map[Vamp]drumPart{
	FunkVamp: {
		voices: []voiceOfKit{
			{drumkit.Kick, drumkit.Kick, &groove.FunkKick, 0, 0.22},
			{drumkit.Snare, drumkit.Ghost, &groove.FunkSnare, 5, 0.25},
			{drumkit.HatClosed, drumkit.HatClosed, &groove.FunkHat, -1, 0.3},
		},
		fill: &groove.FunkFill, fillWith: drumkit.Snare,
	},
	SwingVamp: {
		voices: []voiceOfKit{
			{drumkit.Ride, drumkit.Ride, &groove.SwingRide, -2, 0.3},
			{drumkit.HatPedal, drumkit.HatPedal, &groove.SwingHat, 0, 0},
			{drumkit.Kick, drumkit.Kick, &groove.SwingKick, 3, 0.5},
			{drumkit.Ghost, drumkit.Ghost, &groove.SwingSnare, 6, 0.7},
		},
		fill: &groove.SwingFill, fillWith: drumkit.Ghost,
	},
	BalladVamp: {
		voices: []voiceOfKit{
			{drumkit.BrushSweep, drumkit.BrushSweep, &groove.BalladSweep, -20, 0.1},
			{drumkit.BrushTap, drumkit.BrushTap, &groove.BalladTap, 6, 0.4},
			{drumkit.Kick, drumkit.Kick, &groove.BalladKick, 2, 0.3},
			{drumkit.HatPedal, drumkit.HatPedal, &groove.BalladHat, 0, 0.1},
		},
	},
}

// fillEvery is how many bars lie between fills.
const fillEvery = 4

// looseMS is how far chance moves a stroke either way.
const looseMS = 2.5

// pieces returns what the vamp's kit needs.
func (v Vamp) pieces() (needed [drumkit.Pieces]bool) {
	for _, limb := range drumParts[v].voices {
		needed[limb.piece], needed[limb.soft] = true, true
	}
	switch v {
	case FunkVamp:
		needed[drumkit.HatOpen] = true
	case BalladVamp:
		needed[drumkit.CrossStick] = true
	}
	return needed
}

// drumHits returns what the drummer plays in a pass.
func (b *band) drumHits(p pass) []mixer.Hit {
	part, ok := drumParts[b.opt.Vamp]
	if !ok || p.kind == silentPass {
		return nil
	}
	d := dsp.Roll(b.opt.Seed, drumDice, p.number)
	if p.kind == endingPass {
		return b.lastStroke(p, part, &d)
	}
	var hits []mixer.Hit
	pulses := groove.Pulses(b.form.meter)
	for bar := range b.form.bars {
		for i, pl := range pulses {
			filling := part.fill != nil && i == len(pulses)-1 && len(pulses) > 1 && (bar+1)%fillEvery == 0
			for v, limb := range part.voices {
				home := dsp.Roll(b.opt.Seed, drumDice, bar%2, i, v)
				fig, stray := limb.figure, limb.stray
				if filling && limb.piece == part.fillWith {
					fig, stray = part.fill, 1
				}
				c := fig.Choose(pl, &home, &d, stray)
				hits = b.cellHits(hits, p, b.form.beatAt(bar, 0)+pl.Start, c, limb, &d)
			}
		}
	}
	return b.dress(hits, p, &d)
}

// cellHits adds the strokes of a cell.
func (b *band) cellHits(hits []mixer.Hit, p pass, at line.Beat, c groove.Cell, limb voiceOfKit, d *dsp.Dice) []mixer.Hit {
	for i := range len(c) {
		force := groove.Force(c[i])
		if force == 0 {
			continue
		}
		pc := limb.piece
		if c[i] == 'o' && limb.soft != limb.piece {
			pc, force = limb.soft, 1
		}
		hits = append(hits, b.stroke(p, at+line.Beat(i)*groove.Slot, pc, force, limb.lateMS, d))
	}
	return hits
}

// stroke returns one stroke, a little off the grid and never twice alike.
func (b *band) stroke(p pass, at line.Beat, pc drumkit.Piece, force, lateMS float64, d *dsp.Dice) mixer.Hit {
	ms := lateMS + looseMS*d.Swing()
	force *= 1 + 0.12*d.Swing()
	return mixer.Hit{
		At:    round(b.form.at(p, at) + ms/1000*float64(b.form.rate)),
		Sound: int(pc)*drumkit.Takes + d.Below(drumkit.Takes),
		Gain:  float32(force * force),
	}
}

// dress adds what comes once in a while: an open hat at the end of every
// second funk bar, a cross-stick on the last beat of ballad bars.
func (b *band) dress(hits []mixer.Hit, p pass, d *dsp.Dice) []mixer.Hit {
	pulses := groove.Pulses(b.form.meter)
	last := pulses[len(pulses)-1]
	for bar := range b.form.bars {
		at := b.form.beatAt(bar, 0) + last.Start
		switch {
		case b.opt.Vamp == FunkVamp && bar%2 == 1 && d.Unit() < 0.7:
			hits = append(hits, b.stroke(p, at+line.Beat(last.Slots-2)*groove.Slot, drumkit.HatOpen, 0.9, 0, d))
		case b.opt.Vamp == BalladVamp && len(pulses) > 1:
			hits = append(hits, b.stroke(p, at, drumkit.CrossStick, 0.75, 4, d))
		}
	}
	return hits
}

// lastStroke ends the piece on the one.
func (b *band) lastStroke(p pass, part drumPart, d *dsp.Dice) []mixer.Hit {
	hits := []mixer.Hit{b.stroke(p, 0, drumkit.Kick, 0.9, 0, d)}
	switch b.opt.Vamp {
	case FunkVamp:
		return append(hits, b.stroke(p, 0, drumkit.HatOpen, 1, 0, d))
	case SwingVamp:
		return append(hits, b.stroke(p, 0, drumkit.Ride, 1, 0, d))
	}
	return append(hits, b.stroke(p, 0, drumkit.BrushTap, 0.8, 0, d))
}
