package finger

// A picker returns the cost of the picking hand's change from one way to the next
// at the usual pace; parted says that no slur joins them. It returns never for
// what the technique does not do.
type picker func(from, to *way, parted bool) effort

// picker returns the picker of the technique.
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

func legato(from, to *way, parted bool) effort {
	slurred := from.string == to.string && !parted && from.fret != to.fret
	switch {
	case slurred != (to.pick == slur):
		return never
	case slurred:
		return slurring(from, to)
	}
	return picked(from, to)
}

// picked returns the cost of picking the next note.
func picked(from, to *way) effort {
	if from.string == to.string {
		return again(from.pick, to.pick)
	}
	return crossing(from.pick, to.pick, int(from.string-to.string))
}

// economyStroke returns the next stroke of economy picking.
func economyStroke(last pick, strings int) pick {
	switch {
	case strings > 0:
		return pickDown
	case strings < 0:
		return pickUp
	}
	return pickUp - last
}

// again returns the cost of picking the same string again.
func again(last, next pick) effort {
	if last == next {
		return strokeRepeated
	}
	if last == slur && next == pickUp {
		return upFirst
	}
	return 0
}

// crossing returns the cost of the pick's move to another string, strings away,
// towards string 1 if positive.
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

// slurring returns the cost of sounding the next note without the pick, besides
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

// stroke returns the stroke for to after from.
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
