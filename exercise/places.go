package exercise

import (
	"cmp"
	"slices"
	"strconv"

	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
)

// Places are all the pairs of placements of a spec's scales, best first.
type Places struct {
	Instrument neck.Instrument
	Naming     pitch.Naming
	Scales     []pitch.Scale // home first
	Pairs      []neck.Pair
}

// Near ranks the pairs of placements of the spec's scales (the first ones if they
// change). It only uses the scales and the instrument.
func Near(s Spec) (*Places, error) {
	p, err := read(s)
	if err != nil {
		return nil, err
	}
	pairs, err := p.pairs(p.spans[0].scales)
	if err != nil {
		return nil, err
	}
	return &Places{p.instrument, p.naming, p.spans[0].scales, pairs}, nil
}

// pairs ranks the placements of one bar's scales.
func (p *plan) pairs(scales []pitch.Scale) ([]neck.Pair, error) {
	pairs := neck.Near(p.instrument, scales[0], scales[1:], p.spec.Reach)
	if len(pairs) == 0 {
		field, scale := p.unplaced(scales)
		return nil, &pitch.InputError{What: field, Value: scale.Name(), Want: "a scale that lies under one hand somewhere on this neck of " + frets(p.instrument.LastFret())}
	}
	return pairs, nil
}

func frets(n int) string {
	return strconv.Itoa(n) + plural(n, " fret")
}

// unplaced returns the first scale without a placement, and its field.
func (p *plan) unplaced(scales []pitch.Scale) (field string, scale pitch.Scale) {
	for i, s := range scales {
		if i > 0 {
			field = "superimpose"
		}
		if len(neck.Placements(p.instrument, s)) == 0 {
			return cmp.Or(field, "home"), s
		}
	}
	return "home", scales[0]
}

// choose returns the pair that the spec asks for and sets its fret.
func (p *plan) choose(scales []pitch.Scale) (neck.Pair, error) {
	pairs, err := p.pairs(scales)
	if err != nil {
		return neck.Pair{}, err
	}
	if p.spec.Fret == 0 {
		if usual, ok := neck.Usual(pairs); ok {
			p.spec.Fret = neck.FretOf(pairs, usual)
		}
	}
	pair, ok := neck.Choose(pairs, max(0, p.spec.Fret))
	if !ok {
		return neck.Pair{}, &pitch.InputError{What: "superimpose", Value: scales[len(scales)-1].Name(),
			Want: "scales whose placements one hand can join within a reach of " + number(p.spec.Reach) + " mm (the nearest are " + number(tenth(pairs[0].ShiftMM)) + " mm apart)"}
	}
	if p.spec.Fret == OpenPosition && pair.Home.Window.Low > 0 {
		p.spec.Fret = neck.FretOf(pairs, pair) // no open string is in the scale
	}
	return pair, nil
}

// place places the scales of each span and joins neighbours with the same scales into
// sections. It returns each scale once, in the order of their first spans.
func (p *plan) place() (scales []Scale, err error) {
	cycles := line.Beat(1)
	if len(p.spans) > 1 {
		bars := line.Beat(cmp.Or(p.spec.Bars, maxBars)) * p.rhythm.Meter.Bar()
		cycles = (bars + p.cycle - 1) / p.cycle
	}
	var placed [][]Scale
	var before []pitch.Scale
	for cycle := range cycles {
		for _, s := range p.spans {
			if sameScales(s.scales, before) {
				continue
			}
			before = s.scales
			at := slices.IndexFunc(placed, func(list []Scale) bool { return s.isPlaced(list) })
			if at < 0 {
				list, err := p.placeSpan(s)
				if err != nil {
					return nil, err
				}
				at, placed = len(placed), append(placed, list)
			}
			section := line.Section{Start: cycle*p.cycle + s.start}
			for j, s := range placed[at] {
				section.Sources = append(section.Sources, line.Source{Scale: s.Scale, Placement: s.Placement, Size: p.sizes[j], Order: p.orders[j]})
				k := slices.IndexFunc(scales, func(known Scale) bool { return known.same(s) })
				if k < 0 {
					k = len(scales)
					scales = append(scales, s)
				}
				p.scaleOf = append(p.scaleOf, k)
			}
			p.placed = append(p.placed, section)
		}
	}
	return scales, nil
}

// isPlaced reports whether placed scales are the span's.
func (s span) isPlaced(list []Scale) bool {
	return slices.EqualFunc(s.scales, list, func(own pitch.Scale, other Scale) bool { return own.Name() == other.Name() })
}

// placeSpan places the scales of a span.
func (p *plan) placeSpan(s span) ([]Scale, error) {
	pair, err := p.choose(s.scales)
	if err != nil {
		return nil, err
	}
	list := []Scale{{Scale: s.scales[0], Placement: pair.Home, Home: true}}
	for i, placement := range pair.Superimposed {
		list = append(list, Scale{Scale: s.scales[i+1], Placement: placement, Away: s.laid[i].Away})
	}
	return list, nil
}

func (s Scale) same(other Scale) bool { return s.Home == other.Home && s.Name() == other.Name() }

func sameScales(a, b []pitch.Scale) bool {
	return slices.EqualFunc(a, b, func(x, y pitch.Scale) bool { return x.Name() == y.Name() })
}
