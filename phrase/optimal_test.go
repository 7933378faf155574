package phrase

import (
	"math"
	"strings"
	"testing"

	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
)

// sourceOf places the notes of a scale that lie in a window, the lowest few of them.
func sourceOf(t *testing.T, scale string, low, high, most, size int) line.Source {
	t.Helper()
	s, err := pitch.ParseScale(scale)
	if err != nil {
		t.Fatal(err)
	}
	in := neck.Guitar()
	source := line.Source{Scale: s, Size: size, Placement: neck.Placement{Scale: s, Window: neck.Window{Low: low, High: high}}}
	for key := 50; key < 80 && len(source.Placement.Places) < most; key++ {
		if name, ok := s.Named(key % 12); ok {
			if spots := in.SpotsIn(key, source.Placement.Window); len(spots) > 0 {
				source.Placement.Places = append(source.Placement.Places, neck.Place{Spot: spots[0], Pitch: pitch.Named(name, key)})
			}
		}
	}
	return source
}

// smallRequest is a phrase of two or three bars of 2/4 with few notes.
func smallRequest(t *testing.T, symbol string, bars, dips int) Request {
	t.Helper()
	chord, err := pitch.ParseChord(symbol)
	if err != nil {
		t.Fatal(err)
	}
	r := Request{Rhythm: line.Rhythm{Value: line.Eighth, Meter: line.Meter{Beats: 2, Unit: 4}}, Busy: Medium, Dips: dips,
		Direction: line.DownUp, Follow: line.FollowFirst, Instrument: neck.Guitar()}
	r.Land = line.Beat(bars-1) * r.Rhythm.Meter.Bar()
	r.Bars = bars
	r.Spans = []Span{{Chord: chord, Sources: []line.Source{sourceOf(t, "G minor pentatonic", 10, 13, 5, 2), sourceOf(t, "Ab minor pentatonic", 11, 14, 5, 2)}}}
	for _, word := range []string{"root", "third", "fifth"} {
		d, err := pitch.ParseDegree(word)
		if err != nil {
			t.Fatal(err)
		}
		r.Targets = append(r.Targets, chord.Target(d))
	}
	return r
}

// A trial goes through all phrases in one rhythm.
type trial struct {
	r    Request
	p    *plan
	best float64
	seen int
}

// try goes on from an event's note at a key, given the step before it and all that has
// been played.
func (x *trial) try(e, before int, keys []int, left int, free line.Beat, spent float64) {
	if e == len(x.p.events)-1 {
		if left == 0 {
			x.seen++
			x.best = math.Min(x.best, spent)
		}
		return
	}
	key := keys[len(keys)-1]
	next := x.p.events[e+1]
	for i, tone := range next.tones {
		step := tone.key - key
		if again(keys, tone.key) || len(keys) > 1 && before == 0 && step == 0 {
			continue
		}
		price := next.prices[i]
		size := int(math.Abs(float64(step)))
		if e+1 == len(x.p.events)-1 {
			if size == 0 || size > 2 {
				continue
			}
			if size == 2 {
				price += costLastTone
			}
			between := len(keys) > 1 && (keys[len(keys)-2]-tone.key)*step > 0 && int(math.Abs(float64(keys[len(keys)-2]-tone.key))) <= 2
			if !between {
				price += costBare + stepPrice(before, step, next.fresh || len(keys) == 1)
			}
		} else {
			price += stepPrice(before, step, next.fresh || len(keys) == 1)
		}
		if !math.IsInf(price, 1) {
			x.try(e+1, step, append(keys[:len(keys):len(keys)], tone.key), left, free, spent+price)
		}
	}
	if left == 0 {
		return
	}
	for i := range x.p.dips[e] {
		x.dip(&x.p.dips[e][i], before, keys, left, free, spent)
	}
}

func (x *trial) dip(d *dip, before int, keys []int, left int, free line.Beat, spent float64) {
	into := d.notes[0].Pitch.MIDI() - keys[len(keys)-1]
	size := int(math.Abs(float64(into)))
	if d.notes[0].Start < free || size == 0 || size > 4 {
		return
	}
	price := stepPrice(before, into, len(keys) == 1) + d.price
	if size > 2 {
		price += costThirdInto
	}
	played := keys[:len(keys):len(keys)]
	top := highest(keys)
	for _, n := range d.notes {
		if n.Pitch.MIDI() == top {
			return
		}
		played = append(played, n.Pitch.MIDI())
	}
	for i, tone := range x.p.events[d.home].tones {
		out := tone.key - played[len(played)-1]
		size := int(math.Abs(float64(out)))
		if size == 0 || size > 2 || tone.role != pitch.ChordTone || tone.scale == line.Chromatic || again(played, tone.key) {
			continue
		}
		back := price + x.p.events[d.home].prices[i]
		if size == 2 {
			back += costToneOut
		}
		if !math.IsInf(back, 1) {
			free := d.notes[len(d.notes)-1].End() + x.r.Rhythm.Meter.Bar()
			x.try(d.home, out, append(played[:len(played):len(played)], tone.key), left-1, free, spent+back)
		}
	}
}

func highest(keys []int) int {
	top := 0
	for _, key := range keys {
		top = max(top, key)
	}
	return top
}

// again reports whether a key is the highest so far.
func again(keys []int, key int) bool { return key == highest(keys) }

func TestTheBestPhraseIsTheBestOfAll(t *testing.T) {
	for _, tt := range []struct {
		chord      string
		bars, dips int
	}{{"Gm7", 2, 0}, {"C7", 2, 0}, {"Gm7", 3, 0}, {"Gm7", 4, 1}, {"Bbmaj7", 4, 1}} {
		r := smallRequest(t, tt.chord, tt.bars, tt.dips)
		best, seen := math.Inf(1), 0
		for _, p := range r.plans() {
			r.findDips(p)
			x := &trial{r: r, p: p, best: math.Inf(1)}
			for i, tone := range p.events[0].tones {
				x.try(0, 0, []int{tone.key}, r.Dips, 0, p.price+p.events[0].prices[i])
			}
			best, seen = math.Min(best, x.best), seen+x.seen
		}
		found := Find(r, 1)
		if math.IsInf(best, 1) || seen == 0 {
			t.Errorf("%+v: no phrase at all", tt)
			continue
		}
		if len(found) == 0 || math.Abs(found[0].Cost-best) > 1e-9 {
			t.Errorf("%+v: found %v, the best of %d costs %g", tt, found, seen, best)
		}
	}
}

// Every row of the table has whole bars, rests and whole beats of runs.
func TestTheRhythmsFitTheirMetres(t *testing.T) {
	rows := 0
	for name := range rhythms {
		m, err := line.ParseMeter(name)
		if err != nil {
			t.Fatal(err)
		}
		for busy, list := range rhythms[name] {
			if len(list) < 3 {
				t.Errorf("%s %s has %d rhythms", name, busy, len(list))
			}
			for _, row := range list {
				rows++
				first, second, _ := strings.Cut(row, "|")
				for _, bar := range []string{first, second} {
					if line.Beat(len(bar))*eighth != m.Bar() {
						t.Errorf("%s %s %s: a bar of %d eighths", name, busy, row, len(bar))
						continue
					}
					p := line.PulseOf(m)
					for from, to := line.Beat(0), line.Beat(0); from < p.Bar(); from = to {
						_, to = p.Span(p.BeatAt(from))
						beat := bar[from/eighth : to/eighth]
						if runs := strings.Count(beat, "r"); runs > 0 && runs != len(beat) {
							t.Errorf("%s %s %s: a run through part of a beat", name, busy, row)
						}
					}
				}
			}
		}
	}
	if rows < 60 {
		t.Errorf("%d rows", rows)
	}
}

func TestTheDifferenceOfPhrases(t *testing.T) {
	notes := func(keys ...int) []line.Note {
		var list []line.Note
		for i, key := range keys {
			list = append(list, line.Note{Pitch: pitch.Named(pitch.PlainName(key%12, true), key), Start: line.Beat(i)})
		}
		return list
	}
	for _, tt := range []struct {
		a, b []line.Note
		want float64
	}{
		{notes(60, 62, 64), notes(60, 62, 64), 0},
		{notes(60, 62, 64), notes(60, 63, 64), 1.0 / 3},
		{notes(60, 62, 64), nil, 1},
		{nil, nil, 0},
	} {
		if got := Difference(tt.a, tt.b); math.Abs(got-tt.want) > 1e-12 {
			t.Errorf("difference %g, want %g", got, tt.want)
		}
	}
}
