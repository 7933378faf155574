package pitch

// Accidentals tells which notes of a staff without a key signature need an
// accidental. The zero value stands before the first bar.
//
// An accidental holds for its own line or space to the bar line. A note is
// given a courtesy accidental where a reader might carry one over: on the same
// place in the bar after, and on the same letter in another octave of the bar.
// A tied note needs none (common practice; Gould 2011, "Accidentals").
type Accidentals struct {
	now, before map[staffPlace]int // what holds in this bar, what held in the bar before
}

// A staffPlace is a line or space: an accidental holds for it alone.
type staffPlace struct {
	letter Letter
	octave int
}

// BarLine ends what the accidentals of the bar hold.
func (a *Accidentals) BarLine() { a.now, a.before = nil, a.now }

// Next takes the bar's next note. It reports whether the note's accidental, or
// a natural, is printed before it, and whether as a courtesy.
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

// Tied takes a note tied from the one before. Its accidental does not hold for
// the bar, but a reader may remember it in the next.
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
