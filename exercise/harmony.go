package exercise

import (
	"slices"
	"strconv"
	"strings"

	"heddle/pitch"
)

// readHarmony reads chord or changes, home and superimpose into one bar for
// the whole line or one for each bar of the changes.
func (p *plan) readHarmony() error {
	s := &p.spec
	if s.Home == "" {
		return &pitch.InputError{What: "home", Value: "", Want: "the home scale, such as G minor pentatonic"}
	}
	if len(s.Superimpose) >= maxScales {
		return &pitch.InputError{What: "superimpose", Value: strconv.Itoa(len(s.Superimpose)) + " scales", Want: "at most " + strconv.Itoa(maxScales-1)}
	}
	symbols, err := p.readChanges()
	if err != nil {
		return err
	}
	if len(symbols) > 0 && s.Chord != "" && s.Chord != symbols[0] {
		return &pitch.InputError{What: "chord", Value: s.Chord, Want: "no chord together with changes, or their first one, " + symbols[0]}
	}
	count := max(1, len(symbols))
	homes, err := perBar("home", s.Home, count)
	if err != nil {
		return err
	}
	p.bars = make([]bar, count)
	for i := range p.bars {
		if err := p.readBar(i, homes[i], symbols); err != nil {
			return err
		}
	}
	p.writeHarmony(len(symbols) > 0)
	return nil
}

// readChanges splits the changes into chord symbols, one for each bar.
func (p *plan) readChanges() ([]string, error) {
	s := &p.spec
	if s.Changes == "" {
		return nil, nil
	}
	symbols := splitBars(s.Changes)
	if len(symbols) > maxBars {
		return nil, &pitch.InputError{What: "changes", Value: strconv.Itoa(len(symbols)) + " bars", Want: "at most " + strconv.Itoa(maxBars) + " bars"}
	}
	for i, symbol := range symbols {
		if symbol == "" || i == 0 && symbol == "%" {
			return nil, &pitch.InputError{What: "changes", Value: s.Changes, Want: "a chord or % (the same again) in each bar, such as Gm7 | C7 | Fmaj7 | %"}
		}
		if symbol == "%" {
			symbols[i] = symbols[i-1]
		}
	}
	return symbols, nil
}

// splitBars splits at bar lines, with or without one at either end.
func splitBars(s string) []string {
	s = strings.TrimSpace(s)
	s = strings.TrimSuffix(strings.TrimPrefix(s, "|"), "|")
	parts := strings.Split(s, "|")
	for i := range parts {
		parts[i] = strings.TrimSpace(parts[i])
	}
	return parts
}

// perBar returns the value of a field for each bar: one for all, or one for each,
// where % repeats the one before.
func perBar(field, value string, count int) ([]string, error) {
	parts := splitBars(value)
	if len(parts) == 1 {
		return slices.Repeat(parts, count), nil
	}
	if len(parts) != count {
		return nil, &pitch.InputError{What: field, Value: value, Want: "one scale, or one for each of the " + strconv.Itoa(count) + " bars of changes"}
	}
	for i := range parts {
		if parts[i] == "%" && i > 0 {
			parts[i] = parts[i-1]
		}
	}
	return parts, nil
}

func (p *plan) readBar(i int, home string, symbols []string) (err error) {
	b := &p.bars[i]
	if err := p.readScales(i, home); err != nil {
		return err
	}
	switch {
	case len(symbols) > 0:
		if b.chord, err = pitch.ParseChord(symbols[i]); err != nil {
			return named("changes", err)
		}
	case p.spec.Chord != "":
		if b.chord, err = pitch.ParseChord(p.spec.Chord); err != nil {
			return named("chord", err)
		}
	default:
		b.chord = b.scales[0].Chord()
	}
	return nil
}

// readScales reads the scales of bar i, home first.
func (p *plan) readScales(i int, home string) error {
	first, err := pitch.ParseScale(home)
	if err != nil {
		return named("home", err)
	}
	b := &p.bars[i]
	b.scales = []pitch.Scale{first}
	for _, text := range p.spec.Superimpose {
		parts, err := perBar("superimpose", text, len(p.bars))
		if err != nil {
			return err
		}
		r, err := pitch.Relative(first, parts[i])
		if err != nil {
			return named("superimpose", err)
		}
		b.scales, b.laid = append(b.scales, r.Scale), append(b.laid, r)
	}
	return nil
}

// writeHarmony puts chord, changes, home and superimpose into canonical form.
func (p *plan) writeHarmony(changes bool) {
	s := &p.spec
	var symbols []string
	columns := make([][]string, len(p.bars[0].scales))
	for _, b := range p.bars {
		symbols = append(symbols, b.chord.Symbol)
		columns[0] = append(columns[0], b.scales[0].Name())
		for i, r := range b.laid {
			columns[i+1] = append(columns[i+1], r.Given)
		}
	}
	if changes {
		s.Changes = joinBars(symbols)
	}
	s.Chord = symbols[0]
	s.Home = joinScales(columns[0])
	s.Superimpose = nil
	for _, column := range columns[1:] {
		s.Superimpose = append(s.Superimpose, joinScales(column))
	}
}

// joinBars returns one value for each bar, with % for a repeat.
func joinBars(values []string) string {
	parts := make([]string, len(values))
	for i, v := range values {
		parts[i] = v
		if i > 0 && v == values[i-1] {
			parts[i] = "%"
		}
	}
	return strings.Join(parts, " | ")
}

// joinScales returns one scale for all bars, or one for each if they differ.
func joinScales(names []string) string {
	for _, n := range names[1:] {
		if n != names[0] {
			return joinBars(names)
		}
	}
	return names[0]
}
