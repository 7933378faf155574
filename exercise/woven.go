package exercise

import (
	"heddle/line"
	"heddle/pitch"
	"heddle/weave"
)

// read reads which scales the line is woven from, given what is known of them.
func (g Given) read(scales []pitch.Scale, symbol string) ([]weave.Reading, error) {
	r := weave.Request{Notes: make([]line.Note, len(g.Notes)), Scales: scales}
	for i, n := range g.Notes {
		r.Notes[i] = n.Note
	}
	symbols := []string{symbol}
	for _, c := range g.Chords {
		symbols = append(symbols, c.Symbol)
	}
	for i, symbol := range symbols {
		if symbol == "" || i > 0 && symbol == symbols[i-1] {
			continue
		}
		chord, err := pitch.ParseChord(symbol)
		if err != nil {
			return nil, named("chord", err)
		}
		r.Chords = append(r.Chords, chord)
	}
	return weave.Read(r), nil
}

// fewestWoven is how many notes of a regular pattern tell its scales: fewer are found by
// chance.
const fewestWoven = 12

// woven returns the home and the other scales of a line that a regular pattern of
// several scales makes; none if there is no such pattern.
func (g Given) woven(symbol string) (home string, others []string, err error) {
	readings, err := g.read(nil, symbol)
	if err != nil || readings[0].Pattern == nil || len(readings[0].Pattern.Groups) < 2 && !line.IsRun(readings[0].Pattern.Groups) || readings[0].Pattern.To < fewestWoven {
		return "", nil, err
	}
	home = readings[0].Home.Name()
	seen := map[string]bool{home: true}
	for _, s := range readings[0].Segments {
		if name := s.Scale.Name(); !seen[name] {
			seen[name] = true
			others = append(others, name)
		}
	}
	return home, others, nil
}
