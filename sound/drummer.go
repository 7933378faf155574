package sound

import "heddle/line"

// A voiceOfKit is what one limb plays.
type voiceOfKit struct {
	piece  piece
	soft   piece // for soft letters, where the piece has another sound for them
	figure *figure
	lateMS float64 // behind the beat, positive for laid back
	stray  float64 // how often it leaves its home cell
}

// A drumPart is what the drummer plays in a vamp.
type drumPart struct {
	voices   []voiceOfKit
	fill     *figure
	fillWith piece
}

// drumParts holds each vamp's drummer. Lateness of a few milliseconds is how
// grooves are felt: snare behind, hats on top (our figures, within the range
// measured on recordings by Butterfield 2010 and Senn et al. 2016).
var drumParts = map[Vamp]drumPart{
	FunkVamp: {
		voices: []voiceOfKit{
			{kick, kick, &funkKick, 0, 0.22},
			{snare, ghost, &funkSnare, 5, 0.25},
			{hatClosed, hatClosed, &funkHat, -1, 0.3},
		},
		fill: &funkFill, fillWith: snare,
	},
	SwingVamp: {
		voices: []voiceOfKit{
			{ride, ride, &swingRide, -2, 0.3},
			{hatPedal, hatPedal, &swingHat, 0, 0},
			{kick, kick, &swingKick, 3, 0.5},
			{ghost, ghost, &swingSnare, 6, 0.7},
		},
		fill: &swingFill, fillWith: ghost,
	},
	BalladVamp: {
		voices: []voiceOfKit{
			{brushSweep, brushSweep, &balladSweep, -20, 0.1},
			{brushTap, brushTap, &balladTap, 6, 0.4},
			{kick, kick, &balladKick, 2, 0.3},
			{hatPedal, hatPedal, &balladHat, 0, 0.1},
		},
	},
}

// fillEvery is how many bars lie between fills.
const fillEvery = 4

// looseMS is how far chance moves a stroke either way.
const looseMS = 2.5

// pieces returns what the vamp's kit needs.
func (v Vamp) pieces() (needed [pieces]bool) {
	for _, limb := range drumParts[v].voices {
		needed[limb.piece], needed[limb.soft] = true, true
	}
	switch v {
	case FunkVamp:
		needed[hatOpen] = true
	case BalladVamp:
		needed[crossStick] = true
	}
	return needed
}

// drumHits returns what the drummer plays in a pass.
func (b *band) drumHits(p pass) []hit {
	part, ok := drumParts[b.opt.Vamp]
	if !ok || p.kind == silentPass {
		return nil
	}
	d := rollFor(b.opt.Seed, drumDice, p.number)
	if p.kind == endingPass {
		return b.lastStroke(p, part, &d)
	}
	var hits []hit
	pulses := pulsesOf(b.form.meter)
	for bar := range b.form.bars {
		for i, pl := range pulses {
			filling := part.fill != nil && i == len(pulses)-1 && len(pulses) > 1 && (bar+1)%fillEvery == 0
			for v, limb := range part.voices {
				home := rollFor(b.opt.Seed, drumDice, bar%2, i, v)
				fig, stray := limb.figure, limb.stray
				if filling && limb.piece == part.fillWith {
					fig, stray = part.fill, 1
				}
				c := fig.choose(pl, &home, &d, stray)
				hits = b.cellHits(hits, p, b.form.beatAt(bar, 0)+pl.start, c, limb, &d)
			}
		}
	}
	return b.dress(hits, p, &d)
}

// cellHits adds the strokes of a cell.
func (b *band) cellHits(hits []hit, p pass, at line.Beat, c cell, limb voiceOfKit, d *dice) []hit {
	for i := range len(c) {
		force := forceOf(c[i])
		if force == 0 {
			continue
		}
		pc := limb.piece
		if c[i] == 'o' && limb.soft != limb.piece {
			pc, force = limb.soft, 1
		}
		hits = append(hits, b.stroke(p, at+line.Beat(i)*slot, pc, force, limb.lateMS, d))
	}
	return hits
}

// stroke returns one stroke, a little off the grid and never twice alike.
func (b *band) stroke(p pass, at line.Beat, pc piece, force, lateMS float64, d *dice) hit {
	ms := lateMS + looseMS*d.swing()
	force *= 1 + 0.12*d.swing()
	return hit{
		at:    round(b.form.at(p, at) + ms/1000*float64(b.form.rate)),
		sound: int(pc)*takes + d.below(takes),
		gain:  float32(force * force),
	}
}

// dress adds what comes once in a while: an open hat at the end of every
// second funk bar, a cross-stick on the last beat of ballad bars.
func (b *band) dress(hits []hit, p pass, d *dice) []hit {
	pulses := pulsesOf(b.form.meter)
	last := pulses[len(pulses)-1]
	for bar := range b.form.bars {
		at := b.form.beatAt(bar, 0) + last.start
		switch {
		case b.opt.Vamp == FunkVamp && bar%2 == 1 && d.unit() < 0.7:
			hits = append(hits, b.stroke(p, at+line.Beat(last.slots-2)*slot, hatOpen, 0.9, 0, d))
		case b.opt.Vamp == BalladVamp && len(pulses) > 1:
			hits = append(hits, b.stroke(p, at, crossStick, 0.75, 4, d))
		}
	}
	return hits
}

// lastStroke ends the piece on the one.
func (b *band) lastStroke(p pass, part drumPart, d *dice) []hit {
	hits := []hit{b.stroke(p, 0, kick, 0.9, 0, d)}
	switch b.opt.Vamp {
	case FunkVamp:
		return append(hits, b.stroke(p, 0, hatOpen, 1, 0, d))
	case SwingVamp:
		return append(hits, b.stroke(p, 0, ride, 1, 0, d))
	}
	return append(hits, b.stroke(p, 0, brushTap, 0.8, 0, d))
}
