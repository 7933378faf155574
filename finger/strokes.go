package finger

// A picker returns what the picking hand's change from one way to the next
// costs at the usual pace; rested says that there is silence between them. It
// is never where the technique does not play so.
type picker func(from, to *way, rested bool) effort

// picker returns the technique's.
func (p Picking) picker() picker {
	switch p {
	case Economy:
		return economy
	case Legato:
		return legato
	}
	return alternate
}

func alternate(from, to *way, _ bool) effort {
	if from.pick == to.pick {
		return never
	}
	return picked(from, to)
}

func economy(from, to *way, _ bool) effort {
	if to.pick != economyStroke(from.pick, int(from.string-to.string)) {
		return never
	}
	return picked(from, to)
}

func legato(from, to *way, rested bool) effort {
	slurred := from.string == to.string && !rested && from.fret != to.fret
	switch {
	case slurred != (to.pick == slur):
		return never
	case slurred:
		return slurring(from, to)
	}
	return picked(from, to)
}

// picked returns what picking the next note costs.
func picked(from, to *way) effort {
	if from.string == to.string {
		return again(from.pick, to.pick)
	}
	return crossing(from.pick, to.pick, int(from.string-to.string))
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
