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

// Near ranks the pairs of placements of the spec's scales (those of the first bar if
// they change). It only uses the scales and the instrument.
func Near(s Spec) (*Places, error) {
	p, err := read(s)
	if err != nil {
		return nil, err
	}
	pairs, err := p.pairs(p.bars[0].scales)
	if err != nil {
		return nil, err
	}
	return &Places{p.instrument, p.naming, p.bars[0].scales, pairs}, nil
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
		if lowest, ok := neck.Lowest(pairs); ok {
			p.spec.Fret = neck.FretOf(pairs, lowest)
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

// place places the scales of each bar and joins bars with the same scales into
// sections. It returns each scale once, in the order of their first bars.
func (p *plan) place() (scales []Scale, err error) {
	bar := p.rhythm.Meter.Bar()
	count := 1
	if len(p.bars) > 1 {
		count = cmp.Or(p.spec.Bars, maxBars)
	}
	placed := make(map[int][]Scale)
	for i := range count {
		at := i % len(p.bars)
		if i > 0 && sameScales(p.bars[at].scales, p.bars[(i-1)%len(p.bars)].scales) {
			continue
		}
		if placed[at] == nil {
			if placed[at], err = p.placeBar(at, placed); err != nil {
				return nil, err
			}
		}
		section := line.Section{Start: line.Beat(i) * bar}
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
	return scales, nil
}

// placeBar places the scales of one bar, like any equal bar before it.
func (p *plan) placeBar(at int, placed map[int][]Scale) ([]Scale, error) {
	for before, list := range placed {
		if sameScales(p.bars[before].scales, p.bars[at].scales) {
			return list, nil
		}
	}
	pair, err := p.choose(p.bars[at].scales)
	if err != nil {
		return nil, err
	}
	list := []Scale{{Scale: p.bars[at].scales[0], Placement: pair.Home, Home: true}}
	for i, placement := range pair.Superimposed {
		list = append(list, Scale{Scale: p.bars[at].scales[i+1], Placement: placement, Away: p.bars[at].laid[i].Away})
	}
	return list, nil
}

func (s Scale) same(other Scale) bool { return s.Home == other.Home && s.Name() == other.Name() }

func sameScales(a, b []pitch.Scale) bool {
	return slices.EqualFunc(a, b, func(x, y pitch.Scale) bool { return x.Name() == y.Name() })
}
