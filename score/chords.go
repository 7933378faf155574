package score

import (
	"strings"

	"heddle/score/surface"
)

// chordAt returns the symbols of the chords that begin at a column or while its note
// is held, or nothing.
func (l *layout) chordAt(c column) string {
	if c.barLine {
		return ""
	}
	var symbols []string
	for i, chord := range l.exercise.Chords {
		start := chord.Start
		if i == 0 {
			start = l.measures[0].Start // it holds for the pickup too
		}
		if c.event.Start <= start && start < c.event.End {
			symbols = append(symbols, chord.Display(l.exercise.Naming))
		}
	}
	return strings.Join(symbols, "  ")
}

// chordOver returns the symbol over a column of a system: of the chord that
// begins there, and over the system's first column of the one that sounds, so
// that nobody has to look back.
func (l *layout) chordOver(c column, first bool) string {
	symbol := l.chordAt(c)
	if symbol != "" || !first || c.barLine {
		return symbol
	}
	for _, chord := range l.exercise.Chords {
		if chord.Start <= c.event.Start {
			symbol = chord.Display(l.exercise.Naming)
		}
	}
	return symbol
}

// spreadChords makes room for chord symbols that are longer than the music
// beneath them. The first column is the first of a system.
func (l *layout) spreadChords(columns []column) {
	if !l.options.has(ChordSymbols) {
		return
	}
	from, need, room := -1, 0.0, 0.0
	for i := range columns {
		if symbol := l.chordOver(columns[i], i == 0); symbol != "" {
			if from >= 0 && room < need {
				columns[i-1].least += need - room
			}
			from, room = i, 0
			need = surface.SerifBold.Width(symbol, chordSize) + chordGap
		}
		room += columns[i].least
	}
}

// repeatedChordRoom returns how much wider a system gets, at the least, if it
// begins at a column and repeats the chord there.
func (l *layout) repeatedChordRoom(columns []column, start int) float64 {
	if !l.options.has(ChordSymbols) || l.chordAt(columns[start]) != "" {
		return 0
	}
	need := surface.SerifBold.Width(l.chordOver(columns[start], true), chordSize) + chordGap
	for i := start; i < len(columns) && need > 0; i++ {
		if i > start && l.chordAt(columns[i]) != "" {
			return need
		}
		need -= columns[i].least
	}
	return 0
}
