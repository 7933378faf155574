package pitch

// Accidentals decides which notes on a staff without a key signature need an
// accidental. The zero value is ready for the first bar.
//
// An accidental is valid on its own line or space up to the bar line. A note
// gets a courtesy accidental where a reader might carry one over: on the same
// line or space in the next bar, and on the same letter in another octave of
// the bar. A tied note needs none (common practice; Gould 2011, "Accidentals").
type Accidentals struct {
	now, before map[staffPlace]int // accidentals of this bar and of the one before
}

// A staffPlace is a line or space, the reach of an accidental.
type staffPlace struct {
	letter Letter
	octave int
}

// BarLine begins the next bar.
func (a *Accidentals) BarLine() { a.now, a.before = nil, a.now }

// Next takes the bar's next note. It reports whether the note's accidental (or a
// natural) is printed, and whether it is only a courtesy.
func (a *Accidentals) Next(p Pitch) (printed, courtesy bool) {
	at := staffPlace{p.Name.Letter, p.Octave}
	current, set := a.now[at]
	switch {
	case p.Name.Accidental != current:
		printed = true
	case !set:
		courtesy = a.before[at] != 0 || a.alteredElsewhere(at)
		printed = courtesy
	}
	if a.now == nil {
		a.now = map[staffPlace]int{}
	}
	a.now[at] = p.Name.Accidental
	return printed, courtesy
}

// Tied takes a note tied to the one before. Its accidental is not valid for the
// bar, but a reader may remember it in the next one.
func (a *Accidentals) Tied(p Pitch) {
	at := staffPlace{p.Name.Letter, p.Octave}
	if _, set := a.now[at]; set || p.Name.Accidental == 0 {
		return
	}
	if a.before == nil {
		a.before = map[staffPlace]int{}
	}
	a.before[at] = p.Name.Accidental
}

// alteredElsewhere reports whether a place's letter is altered in another
// octave of the bar.
func (a *Accidentals) alteredElsewhere(at staffPlace) bool {
	for place, accidental := range a.now {
		if place.letter == at.letter && accidental != 0 {
			return true
		}
	}
	return false
}
