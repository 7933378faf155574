package neck

import (
	"slices"

	"heddle/pitch"
)

// twoOrThree is the share of each string for a seven-note scale in position.
var twoOrThree = share{2, 3}

// Placements returns all placements of the scale on the instrument, from the nut
// up (by the low end of the window, then by the lowest note). There is one for
// each scale tone on the lowest-pitched string that leaves room for a run up to
// the top string. The layout depends on the size of the scale:
//
//   - A five-note scale has two notes on each string.
//   - A seven-note scale has two layouts: in position (two or three notes on each
//     string, in the narrowest window) and three on each string. If they are the
//     same, it is listed once, as in position.
//   - Any other scale is in the narrowest window that holds a run with at least
//     one note on each string. So is any scale if neighbouring strings are not a
//     major third or a fourth apart (fifths and dropped tunings), or if the rules
//     above find nothing.
//
// In a re-entrant tuning and with double courses, "each string" means each string
// of the longest series that rises in pitch, such as C, E and A of a ukulele. The
// notes of the run that lie on the other strings in the window are in
// [Placement.Doubled].
//
// In a narrowest window, the run's first tone is the lowest on its string. Of
// equally narrow windows, the one with the fewest notes outside four neighbouring
// frets is taken, then the one with the longer run, then with more open strings,
// then the lower one. The run ends on the highest tone that the top string has in
// the window.
func Placements(in Instrument, s pitch.Scale) []Placement {
	l, ok := newLadder(in, s)
	if !ok {
		return nil
	}
	var runs []run
	switch {
	case l.inFourths && l.size == 5:
		runs = l.pentatonicRuns()
	case l.inFourths && l.size == 7:
		runs = l.heptatonicRuns()
	}
	if len(runs) == 0 {
		runs = l.narrowestRuns()
	}
	placements := l.placements(in, runs)
	slices.SortStableFunc(placements, func(a, b Placement) int { return a.Window.Low - b.Window.Low })
	return placements
}

// bottomTones returns how many tones the lowest-pitched string has.
func (l *ladder) bottomTones() int { return l.above[l.open[0]+l.last+1] }

func (l *ladder) pentatonicRuns() (runs []run) {
	for tone := range l.bottomTones() {
		if r, ok := l.evenRun(tone, 2); ok {
			r.system = twoPerString
			runs = append(runs, r)
		}
	}
	return runs
}

func (l *ladder) heptatonicRuns() (runs []run) {
	for tone := range l.bottomTones() {
		narrow, inPosition := l.narrowest(tone, twoOrThree)
		if inPosition {
			narrow.system = positional
			runs = append(runs, narrow)
		}
		even, threes := l.evenRun(tone, 3)
		if threes && !(inPosition && even.ends == narrow.ends) {
			even.system = threePerString
			runs = append(runs, even)
		}
	}
	return runs
}

func (l *ladder) narrowestRuns() (runs []run) {
	for tone := range l.bottomTones() {
		if r, ok := l.narrowest(tone, anyShare); ok {
			r.system = positional
			runs = append(runs, r)
		}
	}
	return runs
}

// placements turns runs into placements with named notes and roots.
func (l *ladder) placements(in Instrument, runs []run) []Placement {
	total := 0
	for _, r := range runs {
		total += r.ends[l.strings-1] - r.start
	}
	all := make([]Place, 0, total) // one block for the places of all
	placements := make([]Placement, len(runs))
	for i, r := range runs {
		from := len(all)
		all = l.appendPlaces(all, r)
		p := Placement{Scale: l.scale, Places: all[from:len(all):len(all)], System: r.system}
		p.Window = span(p.Places)
		p.Doubled = l.doubled(in, p.Places, p.Window)
		p.findRoot()
		p.Shape = openShape(in, p, l.size)
		placements[i] = p
	}
	return placements
}

// appendPlaces appends the run's notes, lowest first.
func (l *ladder) appendPlaces(places []Place, r run) []Place {
	tone := r.start
	for i := range l.strings {
		for ; tone < r.ends[i]; tone++ {
			key := l.tones[tone]
			places = append(places, Place{
				Spot:  Spot{String: l.number[i], Fret: l.fret(i, tone)},
				Pitch: pitch.Named(l.names[key%12], key),
			})
		}
	}
	return places
}

// doubled returns the places of the run's notes on the other strings in the window.
func (l *ladder) doubled(in Instrument, run []Place, w Window) (places []Place) {
	for _, number := range l.doubling {
		for _, p := range run {
			at := Spot{String: number, Fret: p.Pitch.MIDI() - in.MIDI(Spot{String: number})}
			if at.Fret >= w.Low && at.Fret <= w.High {
				places = append(places, Place{at, p.Pitch})
			}
		}
	}
	return places
}

// span returns the window of the places.
func span(places []Place) Window {
	w := Window{places[0].Fret, places[0].Fret}
	for _, p := range places {
		w.Low, w.High = min(w.Low, p.Fret), max(w.High, p.Fret)
	}
	return w
}
