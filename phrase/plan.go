package phrase

import (
	"math"

	"heddle/line"
	"heddle/pitch"
)

// An event is one note of a rhythm.
type event struct {
	span
	at     int  // its span of the harmony
	fresh  bool // a rest of a beat or more comes before it, or nothing
	ends   bool // a rest of a beat or more comes after it
	strong bool // on a strong beat of the bar
	onBeat bool
	turns  bool // the first note over a new chord
	tones  []tone
	prices []float64 // of each tone here; infinite where the rules do not allow it
}

// A plan is a rhythm for the whole phrase, its last event the landing.
type plan struct {
	events []event
	price  float64
	dips   [][]dip                 // by the event before
	latest [MostDips + 1]line.Beat // see schedule
	rest   []float64               // see restAt
	from   []int                   // of each event, where its part of rest begins
}

// beat returns the first beat's length, the least rest that counts.
func (r Request) beat() line.Beat {
	from, to := line.PulseOf(r.Rhythm.Meter).Span(0)
	return to - from
}

// plans returns the rhythms of the request: two of the table in turn, as far as the
// landing, that keep the rules of rests.
func (r Request) plans() []*plan {
	bars := barsOf(r.Rhythm.Meter, r.Busy)
	tones := make([][]tone, len(r.Spans))
	for i, b := range r.Spans {
		tones[i] = r.inside(b)
	}
	var list []*plan
	for i := range bars {
		for k := range bars {
			if r.Bars <= 3 && k != i {
				continue // the second is not heard
			}
			p := &plan{events: r.events(bars[i], bars[k])}
			if !r.rests(p.events) {
				continue
			}
			if i != k {
				p.price = costOtherRhythm
			}
			for e := range p.events {
				r.price(&p.events[e], p.events[max(0, e-1)], tones)
			}
			list = append(list, p)
		}
	}
	return list
}

// events joins two rhythms in turn up to the landing.
func (r Request) events(first, second [2]string) []event {
	length := r.Rhythm.Meter.Bar()
	var spans []span
	for bar := range r.Bars {
		two := first
		if bar/2%2 == 1 {
			two = second
		}
		spans = append(spans, spansOf(two[bar%2], line.Beat(bar)*length, r.Rhythm)...)
	}
	for len(spans) > 0 && spans[len(spans)-1].start >= r.Land {
		spans = spans[:len(spans)-1]
	}
	if n := len(spans); n > 0 {
		spans[n-1].end = min(spans[n-1].end, r.Land)
	}
	spans = append(spans, span{r.Land, r.Land + r.landed()})
	pulse := line.PulseOf(r.Rhythm.Meter)
	events := make([]event, len(spans))
	for i, s := range spans {
		e := event{span: s, at: r.SpanAt(s.start)}
		into := s.start % length
		for _, part := range pulse.Parts() {
			e.strong = e.strong || part == into
		}
		from, _ := pulse.Span(pulse.BeatAt(into))
		e.onBeat = from == into
		e.fresh = i == 0 || s.start-spans[i-1].end >= r.beat()
		e.ends = i+1 < len(spans) && spans[i+1].start-s.end >= r.beat()
		e.turns = i > 0 && r.Spans[e.at].Chord.Symbol != r.Spans[events[i-1].at].Chord.Symbol
		events[i] = e
	}
	return events
}

// landed returns how long the last note lasts: half a bar or to its end, so that the
// phrase breathes after it.
func (r Request) landed() line.Beat {
	bar := r.Rhythm.Meter.Bar()
	left := bar - r.Land%bar
	return max(r.beat(), min(left, bar/2/r.beat()*r.beat()))
}

// rests reports whether the phrase starts in its first bar and every two bars rest for a
// beat or more. The time before the first note and after the last is rest too.
func (r Request) rests(events []event) bool {
	bar := r.Rhythm.Meter.Bar()
	if len(events) < 2 || events[0].start >= bar {
		return false
	}
	for from := line.Beat(0); from+2*bar <= line.Beat(r.Bars)*bar; from += bar {
		if !r.restsIn(events, from, from+2*bar) {
			return false
		}
	}
	return true
}

func (r Request) restsIn(events []event, from, to line.Beat) bool {
	silent := from // since when
	for _, e := range events {
		if e.start >= to {
			break
		}
		if e.end > from {
			if e.start-silent >= r.beat() {
				return true
			}
			silent = e.end
		}
	}
	return to-silent >= r.beat()
}

// price gives the event its tones and their prices.
func (r Request) price(e *event, before event, tones [][]tone) {
	b := r.Spans[e.at]
	e.tones = tones[e.at]
	e.prices = make([]float64, len(e.tones))
	for i, t := range e.tones {
		e.prices[i] = e.priceOf(t, r.beat())
		if e.fresh && e.start < r.Rhythm.Meter.Bar() && before.start == e.start {
			places := b.Sources[0].Placement.Places
			middle := (places[0].Pitch.MIDI() + places[len(places)-1].Pitch.MIDI()) / 2
			e.prices[i] += costEdge * math.Abs(float64(t.key-middle))
		}
	}
	if e.start != r.Land {
		return
	}
	for i, t := range e.tones {
		e.prices[i] = math.Inf(1)
		for _, target := range r.Targets {
			if target.Class() == t.name.Class() {
				e.prices[i] = 0
			}
		}
	}
	if e.start-before.end > 0 {
		for i := range e.prices {
			e.prices[i] += costGap
		}
	}
}

// priceOf returns the price of a tone at the event.
func (e event) priceOf(t tone, beat line.Beat) float64 {
	price := 0.0
	long := e.end-e.start >= line.Quarter
	switch t.role {
	case pitch.Avoid, pitch.Outside:
		if e.strong && long {
			return math.Inf(1)
		}
		price = costAvoid
		if t.role == pitch.Outside {
			price = costOutside
		}
		if e.onBeat || long {
			price += costAvoidOnBeat
		}
	}
	if t.role != pitch.ChordTone {
		if e.strong {
			price += costWeak
		}
		if e.ends {
			price += costEnd
		}
	}
	if t.scale == line.Chromatic {
		price += costNotHome
	}
	if e.turns && !t.guide {
		price += costNotGuide
	}
	return price
}
