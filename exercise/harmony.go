package exercise

import (
	"slices"
	"strconv"
	"strings"

	"heddle/line"
	"heddle/pitch"
)

// readHarmony reads chord or changes, home and superimpose into one span for the
// whole line, or one for each chord of the changes.
func (p *plan) readHarmony() error {
	s := &p.spec
	if s.Home == "" {
		return &pitch.InputError{What: "home", Value: "", Want: "the home scale, such as G minor pentatonic"}
	}
	if len(s.Superimpose) >= maxScales {
		return &pitch.InputError{What: "superimpose", Value: strconv.Itoa(len(s.Superimpose)) + " scales", Want: "at most " + strconv.Itoa(maxScales-1)}
	}
	if err := p.readChords(); err != nil {
		return err
	}
	homes, err := p.perSpan("home", s.Home)
	if err != nil {
		return err
	}
	over := make([][]string, len(s.Superimpose))
	for i, text := range s.Superimpose {
		if over[i], err = p.perSpan("superimpose", text); err != nil {
			return err
		}
	}
	for i := range p.spans {
		if err := p.readScales(i, homes, over); err != nil {
			return err
		}
	}
	if s.Changes == "" && s.Chord == "" {
		p.spans[0].chord = p.spans[0].scales[0].Chord()
	}
	p.writeHarmony()
	return nil
}

// readChords reads chord or changes into spans.
func (p *plan) readChords() error {
	s := &p.spec
	p.cycle, p.spans = p.rhythm.Meter.Bar(), []span{{}}
	if s.Changes == "" {
		if s.Chord == "" {
			return nil
		}
		chord, err := pitch.ParseChord(s.Chord)
		p.spans[0].chord = chord
		return named("chord", err)
	}
	bars, err := readChanges(s.Changes)
	if err != nil {
		return err
	}
	if first := bars[0][0]; s.Chord != "" && s.Chord != first {
		return &pitch.InputError{What: "chord", Value: s.Chord, Want: "no chord together with changes, or their first one, " + first}
	}
	length := p.cycle
	p.bars, p.cycle, p.spans = bars, line.Beat(len(bars))*length, nil
	for i, b := range bars {
		for j, symbol := range b {
			if symbol == hold {
				continue
			}
			chord, err := pitch.ParseChord(symbol)
			if err != nil {
				return named("changes", err)
			}
			start := line.Beat(i)*length + length*line.Beat(j)/line.Beat(len(b))
			p.spans = append(p.spans, span{chord: chord, start: start, bar: i})
		}
	}
	return nil
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

// perSpan returns the value of a field for each span: one for all, one for each bar or
// one for each chord. % repeats the one before.
func (p *plan) perSpan(field, value string) ([]string, error) {
	parts := splitBars(value)
	if len(parts) == 1 {
		return slices.Repeat(parts, len(p.spans)), nil
	}
	if len(parts) != len(p.bars) && len(parts) != len(p.spans) {
		want := "one scale, or one for each of the " + strconv.Itoa(max(1, len(p.bars))) + " bars of changes"
		if len(p.spans) > len(p.bars) {
			want += " or of their " + strconv.Itoa(len(p.spans)) + " chords"
		}
		return nil, &pitch.InputError{What: field, Value: value, Want: want}
	}
	for i := range parts {
		if parts[i] == repeat && i > 0 {
			parts[i] = parts[i-1]
		}
	}
	if len(parts) == len(p.spans) {
		return parts, nil
	}
	values := make([]string, len(p.spans))
	for i, s := range p.spans {
		values[i] = parts[s.bar]
	}
	return values, nil
}

// readScales reads the scales of span i, home first, from their values for each span.
func (p *plan) readScales(i int, homes []string, over [][]string) error {
	s := &p.spans[i]
	if i > 0 && homes[i] == homes[i-1] && !slices.ContainsFunc(over, func(o []string) bool { return o[i] != o[i-1] }) {
		s.scales, s.laid = p.spans[i-1].scales, p.spans[i-1].laid
		return nil
	}
	home, err := pitch.ParseScale(homes[i])
	if err != nil {
		return named("home", err)
	}
	s.scales = []pitch.Scale{home}
	for _, texts := range over {
		r, err := pitch.Relative(home, texts[i])
		if err != nil {
			return named("superimpose", err)
		}
		s.scales, s.laid = append(s.scales, r.Scale), append(s.laid, r)
	}
	return nil
}

// writeHarmony puts chord, changes, home and superimpose into canonical form.
func (p *plan) writeHarmony() {
	s := &p.spec
	if f, key, ok, _ := findForm(s.Changes); ok {
		s.Changes = f.name + " in " + key.String()
		p.form, p.key = f, key
	} else if s.Changes != "" {
		s.Changes = writeChanges(p.bars)
	}
	s.Chord = p.spans[0].chord.Symbol
	s.Home = p.joinSpans(func(s span) string { return s.scales[0].Name() })
	for i := range s.Superimpose {
		s.Superimpose[i] = p.joinSpans(func(s span) string { return s.laid[i].Given })
	}
}

// joinSpans returns what each span has: one value if all have the same, otherwise one
// for each bar or, if one changes within a bar, for each chord.
func (p *plan) joinSpans(of func(span) string) string {
	var bars, chords []string
	same, inBars := true, true
	for i, s := range p.spans {
		value := of(s)
		chords = append(chords, value)
		same = same && value == chords[0]
		if i == 0 || s.bar != p.spans[i-1].bar {
			bars = append(bars, value)
		} else {
			inBars = inBars && value == bars[len(bars)-1]
		}
	}
	switch {
	case same:
		return chords[0]
	case inBars:
		return joinBars(bars)
	}
	return joinBars(chords)
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
