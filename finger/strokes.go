package finger

// picking returns what the picking hand's change costs at the reference pace;
// rested says that there is silence between the two notes. It is never where
// the technique does not play so.
func (t Picking) picking(from, to *way, rested bool) effort {
	strings := int(from.string - to.string) // positive towards string 1
	switch t {
	case Alternate:
		if from.pick == to.pick {
			return never
		}
	case Economy:
		if to.pick != economyStroke(from.pick, strings) {
			return never
		}
	case Legato:
		slurred := strings == 0 && !rested && from.fret != to.fret
		if slurred != (to.pick == slur) {
			return never
		}
		if slurred {
			return slurring(from, to)
		}
	}
	if strings == 0 {
		return again(from.pick, to.pick)
	}
	return crossing(from.pick, to.pick, strings)
}

// economyStroke returns the stroke that economy picking takes next.
func economyStroke(last pick, strings int) pick {
	switch {
	case strings > 0:
		return pickDown
	case strings < 0:
		return pickUp
	}
	return pickUp - last
}

// again returns what picking the same string once more costs.
func again(last, next pick) effort {
	if last == next {
		return strokeRepeated
	}
	if last == slur && next == pickUp {
		return upFirst
	}
	return 0
}

// crossing returns what the pick's way to another string costs; strings
// counts those it goes by, towards string 1 when positive.
func crossing(last, next pick, strings int) effort {
	with := pickDown
	if strings < 0 {
		with, strings = pickUp, -strings
	}
	skipped := effort(strings-1) * stringSkipped
	switch {
	case last == slur && next == with:
		return skipped + crossFromSlur
	case last == slur:
		return skipped + crossFromSlurAgainst
	case last == next && next == with:
		return skipped + crossSweep
	case last == next:
		return skipped + strokeHop
	case next == with:
		return skipped + crossInside
	}
	return skipped + crossOutside
}

// slurring returns what sounding the next note without the pick costs, beside
// the hand's own movement.
func slurring(from, to *way) effort {
	stopped := from.finger != 0 && to.finger != 0
	if stopped && from.finger == to.finger {
		return slurSlide
	}
	var cost effort
	if stopped && from.position.first != to.position.first {
		cost += slurShift
	}
	if max(from.finger, to.finger) == 4 {
		cost += slurFourth
	}
	return cost
}

// stroke names what the pick does at to, coming from from.
func stroke(from, to *way) Stroke {
	switch {
	case to.pick == pickDown:
		return Down
	case to.pick == pickUp:
		return Up
	case from.finger == to.finger:
		return Slide
	case to.fret > from.fret:
		return HammerOn
	}
	return PullOff
}
