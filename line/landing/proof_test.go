package landing

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"heddle/internal/need"
	"heddle/line"
	"pgregory.net/rapid"
)

// The proof that the endings are the cheapest of their kinds: every ending that
// obeys the rules is written out, named and priced as a whole, by code that shares
// only the constants with the search.

// A proof is a goal to write endings out for.
type proof struct {
	Request
	goal    Goal
	early   line.Beat
	lenient bool
	seen    map[lookup]under
}

type lookup struct {
	key int
	at  line.Beat
}

// under says what a key is at a time: in reach of the hand, a home note, only a
// superimposed one, or neither.
type under struct {
	reach, home, away bool
}

// sectionAt returns the section in force.
func (p *proof) sectionAt(at line.Beat) line.Section {
	section := p.Sections[0]
	for _, s := range p.Sections[1:] {
		if s.Start <= at {
			section = s
		}
	}
	return section
}

// under looks at every fret and every scale.
func (p *proof) under(key int, at line.Beat) under {
	u, known := p.seen[lookup{key, at}]
	if known {
		return u
	}
	section := p.sectionAt(at)
	low, high := 99, 0
	for i, s := range section.Sources {
		low, high = min(low, s.Placement.Window.Low), max(high, s.Placement.Window.High)
		for _, n := range s.Scale.Notes {
			if n.Class() == key%12 {
				u.home, u.away = u.home || i == 0, u.away || i > 0
			}
		}
	}
	u.away = u.away && !u.home
	if !u.home && !u.away {
		low, high = low-1, high+1
	}
	for _, spot := range p.Instrument.SpotsOf(key) {
		u.reach = u.reach || spot.Fret >= low && spot.Fret <= high
	}
	p.seen[lookup{key, at}] = u
	return u
}

// timeOf returns when the target sounds as far as scales and hand are concerned.
func (p *proof) timeOf(slot int) line.Beat {
	if slot == 0 {
		return p.goal.At
	}
	return p.goal.At - p.early - line.Beat(slot)*p.Rhythm.Value.Length()
}

func (p *proof) isTarget(key int) bool {
	return slices.ContainsFunc(p.goal.Targets, func(t Target) bool { return t.Name.Class() == key%12 })
}

// price prices an ending as the constants say, or says that it breaks a rule.
func (p *proof) price(gives int, keys []int) (price float64, legal bool) {
	kept := p.Line[:len(p.Line)-gives]
	approach := len(keys) - 1
	value := p.Rhythm.Value.Length()
	start := p.goal.At - p.early - line.Beat(approach)*value
	rest := start - kept[len(kept)-1].End()
	if rest < 0 || rest > 0 && approach == 0 || gives > 0 && rest >= value {
		return 0, false
	}
	if gives > 0 && approach > 0 {
		if first := p.Line[len(p.Line)-gives]; first.Start == start && first.Pitch.MIDI() == keys[0] {
			return 0, false
		}
	}
	price = costReplaced*float64(gives) + math.Min(longestRest, math.Round(8*costResting*rest.Quarters())/8)
	if p.early > 0 {
		price += costAnticipated
	}
	all := contour(kept, keys, 2)
	before := len(all) - len(keys) // kept notes among them
	target := all[len(all)-1]
	if !p.isTarget(target) {
		return 0, false
	}
	enclosed := false
	if n := len(all); n >= 3 {
		a, b := all[n-3]-target, all[n-2]-target
		enclosed = a*b < 0 && abs(a) <= 2 && abs(b) <= 2
	}
	for i := before; i < len(all); i++ {
		slot := len(all) - 1 - i
		u := p.under(all[i], p.timeOf(slot))
		if !u.reach {
			return 0, false
		}
		if slot > 0 {
			price += costApproaching
			switch {
			case u.away:
				price += costAway
			case !u.home:
				price += costChromatic
			}
			if slot > 4 {
				price += costFurther
			}
			if p.isTarget(all[i]) {
				price += costPassing
			}
			for key := min(all[i], all[i-1]) + 1; key < max(all[i], all[i-1]); key++ {
				if slot > 2 && p.isTarget(key) {
					price += costPassing
				}
			}
		}
		width := abs(all[i] - all[i-1])
		if width == 0 || width > 5 || slot == 0 && width > 2 {
			return 0, false
		}
		price += max(0, float64(width-2)/2) // a third 0.5 or 1, a fourth 1.5
		if i > before && width > 1 {
			if u := p.under(all[i-1], p.timeOf(slot+1)); !u.home && !u.away {
				price += costUnresolved
			}
		}
		if slot == 0 && width == 2 {
			price += costLastTone
		}
		if slot == 0 && enclosed {
			continue
		}
		if i >= 2 {
			came := all[i-1] - all[i-2]
			if came*(all[i]-all[i-1]) < 0 && abs(came) < 3 {
				price += costTurning
			}
			if all[i] == all[i-2] {
				price += costTrilling
			}
		}
		if slot == 0 {
			price += costBare
		}
	}
	return price, p.lenient || p.isHome(kept, keys)
}

// isHome reports whether the two notes before the target are home or chromatic, kept
// ones in the section they were played in.
func (p *proof) isHome(kept []line.Note, keys []int) bool {
	for slot := 1; slot <= 2; slot++ {
		if i := len(keys) - 1 - slot; i >= 0 {
			if p.under(keys[i], p.timeOf(slot)).away {
				return false
			}
		} else if i += len(kept); i >= 0 && p.under(kept[i].Pitch.MIDI(), kept[i].Start).away {
			return false
		}
	}
	return true
}

// contour is the keys of an ending with the last notes kept before it.
func contour(kept []line.Note, keys []int, most int) []int {
	var all []int
	for _, n := range kept[max(0, len(kept)-most):] {
		all = append(all, n.Pitch.MIDI())
	}
	return append(all, keys...)
}

// kind names an ending by its last four keys, in words.
func (p *proof) kind(all []int) string {
	if p.early > 0 {
		return "anticipated by an eighth"
	}
	n := len(all)
	if n < 3 {
		return ""
	}
	t, y, x := all[n-1], all[n-2], all[n-3]
	from := func(key int) int { return key - t } // above the target if positive
	falls := y > t
	turned := func(a, b, c int) bool { return (b-a)*(c-b) < 0 }
	switch {
	case from(x) >= 1 && from(x) <= 2 && from(y) < 0:
		return "enclosed from above"
	case from(x) <= -1 && from(x) >= -2 && from(y) > 0:
		return "enclosed from below"
	case turned(x, y, t) || x == y:
		return ""
	case n >= 4 && turned(all[n-4], x, y) && abs(x-all[n-4]) >= 3 && abs(y-x) <= 2:
		return "leap and fill"
	case from(y) == 1 && from(x) == 2 || from(y) == -1 && from(x) == -2:
		return "by two semitones"
	case p.neighbours(x, y) && p.next(t, falls) == y:
		if falls {
			return "down the scale"
		}
		return "up the scale"
	case p.arpeggio(x, y) || n >= 4 && p.arpeggio(all[n-4], x) && !turned(all[n-4], x, y):
		return "by the chord's arpeggio"
	}
	return ""
}

// next returns the home note above or below a key.
func (p *proof) next(key int, up bool) int {
	for {
		if key--; up {
			key += 2
		}
		for _, n := range p.sectionAt(p.goal.At).Sources[0].Scale.Notes {
			if n.Class() == (key+120)%12 {
				return key
			}
		}
	}
}

func (p *proof) neighbours(x, y int) bool {
	return p.next(x, y > x) == y && p.next(y, x > y) == x
}

// arpeggio reports whether two keys are neighbours in the chord, a third or a fourth
// apart.
func (p *proof) arpeggio(a, b int) bool {
	between := 0
	for key := min(a, b); key <= max(a, b); key++ {
		if slices.Contains(p.goal.Chord, key%12) {
			between++
		} else if key == a || key == b {
			return false
		}
	}
	return between == 2 && abs(a-b) >= 3 && abs(a-b) <= 5
}

// An outcome is what matters about an ending: its kind, its last three keys and its
// cost.
type outcome struct {
	kind string
	tail [3]int
	cost float64
}

func tailOf(all []int) [3]int {
	tail := [3]int{-1, -1, -1}
	copy(tail[max(0, 3-len(all)):], all[max(0, len(all)-3):])
	return tail
}

// outcomes writes out every ending, and keeps the cheapest of each kind with each
// last three notes.
func (p *proof) outcomes(most int) []outcome {
	least := map[outcome]float64{}
	value := p.Rhythm.Value.Length()
	for gives := 0; gives <= min(most, len(p.Line)-1); gives++ {
		kept := p.Line[:len(p.Line)-gives]
		last := kept[len(kept)-1]
		for approach := 0; approach <= mostApproach && last.End()+line.Beat(approach)*value <= p.goal.At-p.early; approach++ {
			keys := make([]int, 0, approach+1)
			var on func(from int)
			on = func(from int) {
				if len(keys) == cap(keys) {
					if price, legal := p.price(gives, keys); legal {
						all := contour(kept, keys, 3)
						if kind := p.kind(all); kind != "" {
							at := outcome{kind: kind, tail: tailOf(all)}
							if known, ok := least[at]; !ok || price < known {
								least[at] = price
							}
						}
					}
					return
				}
				for key := from - 5; key <= from+5; key++ {
					if key == from || !p.under(key, p.timeOf(cap(keys)-1-len(keys))).reach {
						continue
					}
					keys = append(keys, key)
					on(key)
					keys = keys[:len(keys)-1]
				}
			}
			on(last.Pitch.MIDI())
		}
	}
	var all []outcome
	for o, cost := range least {
		o.cost = cost
		all = append(all, o)
	}
	return all
}

// bestOfAll says what Find must return.
func bestOfAll(l Request, lenient bool) []outcome {
	var taken []outcome
	for i, goal := range l.Goals {
		last := i == len(l.Goals)-1
		if !last && len(taken) > 0 {
			continue
		}
		p := proof{l, goal, 0, lenient, map[lookup]under{}}
		all := p.outcomes(max(0, l.Replace))
		if early := anticipation(l.Rhythm.Value); last && early > 0 {
			p := proof{l, goal, early, lenient, map[lookup]under{}}
			all = append(all, p.outcomes(max(0, l.Replace))...)
		}
		slices.SortFunc(all, func(a, b outcome) int {
			return cmp.Or(cmp.Compare(a.cost, b.cost), slices.Index(kindWords[:], a.kind)-slices.Index(kindWords[:], b.kind), slices.Compare(a.tail[:], b.tail[:]))
		})
		limit := math.Inf(1)
		for _, o := range all {
			if o.cost <= limit && !slices.ContainsFunc(taken, func(t outcome) bool { return t.kind == o.kind || t.tail == o.tail }) && (last || len(taken) == 0) {
				taken = append(taken, o)
				limit = min(limit, o.cost+3.25)
			}
		}
	}
	return taken
}

func checkBest(t *rapid.T, l Request) (kinds int) {
	want := bestOfAll(l, false)
	if len(want) == 0 {
		want = bestOfAll(l, true)
	}
	var got []outcome
	for _, e := range Find(l) {
		all := contour(whole(l.Line, e), nil, 3)
		got = append(got, outcome{e.Kind.String(), tailOf(all), e.Cost})
	}
	if !slices.Equal(got, want) {
		t.Fatalf("endings\n%v, want\n%v by writing out every one", got, want)
	}
	return len(got)
}

func TestEndingsAreTheBestOfEveryKind(t *testing.T) {
	tried := 0
	rapid.Check(t, func(t *rapid.T) { tried += checkBest(t, drawLanding(t, 2, 2)) })
	if tried == 0 {
		t.Error("no line had an ending")
	}
}

func TestLongEndingsAreTheBestOfEveryKind(t *testing.T) {
	need.Long(t, "five approach notes and more take long to write out")
	rapid.Check(t, func(t *rapid.T) { checkBest(t, drawLanding(t, 2, 3)) })
}

func TestEndingsObeyEveryRule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLanding(t, 6, 20)
		obeyAll(t, l, Find(l))
	})
}

func FuzzFind(f *testing.F) {
	f.Fuzz(rapid.MakeFuzz(func(t *rapid.T) {
		l := drawLanding(t, 6, 20)
		obeyAll(t, l, Find(l))
	}))
}

// obeyAll checks what every list of endings promises.
func obeyAll(t *rapid.T, l Request, endings []Ending) {
	var kinds []Kind
	var tails [][3]int
	c := choice{request: l, hands: make([]*hand, len(l.Sections))}
	strict := c.search(l.Goals[len(l.Goals)-1], 0, false)
	strict.run()
	for i, e := range endings {
		obey(t, l, e, len(strict.found) == 0)
		tail := tailOf(contour(whole(l.Line, e), nil, 3))
		if slices.Contains(kinds, e.Kind) || slices.Contains(tails, tail) {
			t.Fatalf("ending %d, %s, repeats the kind or the last notes of another", i, told(e))
		}
		kinds, tails = append(kinds, e.Kind), append(tails, tail)
		if i > 1 && e.Cost < endings[i-1].Cost {
			t.Fatalf("ending %d costs %v, the one before %v", i, e.Cost, endings[i-1].Cost)
		}
	}
}

func obey(t *rapid.T, l Request, e Ending, lenient bool) {
	value, early := l.Rhythm.Value.Length(), line.Beat(0)
	if e.Kind == Anticipated {
		early = anticipation(l.Rhythm.Value)
	}
	keys := make([]int, len(e.Notes))
	for i, n := range e.Notes {
		keys[i] = n.Pitch.MIDI()
	}
	target := e.Notes[len(e.Notes)-1]
	goal := l.Goals[slices.IndexFunc(l.Goals, func(g Goal) bool { return g.At == e.At })]
	p := &proof{l, goal, early, lenient, map[lookup]under{}}
	if target.Start != e.At-early {
		t.Fatalf("%s starts its target at %v, want %v", told(e), target.Start, e.At-early)
	}
	if e.Replaced > max(0, l.Replace) {
		t.Fatalf("%d notes give way, want at most %d", e.Replaced, l.Replace)
	}
	if price, legal := p.price(e.Replaced, keys); !legal || price != e.Cost {
		t.Fatalf("%s costs %v; as a whole %v, legal: %v", told(e), e.Cost, price, legal)
	}
	all := whole(l.Line, e)
	if kind := p.kind(contour(all, nil, 4)); kind != e.Kind.String() {
		t.Fatalf("%s is %q", told(e), kind)
	}
	kept := len(l.Line) - e.Replaced
	var sources []line.Source
	for _, s := range l.Sections {
		sources = append(sources, s.Sources...)
	}
	for i, n := range e.Notes {
		if n.Role != line.LandingRole || n.Step != i+1 || n.Group != l.Line[kept-1].Group+1 {
			t.Fatalf("%s: note %d has role %s, step %d, group %d", told(e), i, n.Role, n.Step, n.Group)
		}
		if want := target.Start - line.Beat(len(e.Notes)-1-i)*value; n.Start != want || n.Start < all[kept+i-1].End() {
			t.Fatalf("%s: note %d starts at %d, want %d after the end of the one before", told(e), i, n.Start, want)
		}
		if n.Scale == line.Chromatic {
			if a := n.Pitch.Name.Accidental; n != target && (a < -1 || a > 1) {
				t.Fatalf("chromatic %v", n.Pitch)
			}
			continue
		}
		if named, ok := sources[n.Scale].Scale.Named(n.Pitch.MIDI() % 12); !ok || named != n.Pitch.Name {
			t.Fatalf("%s: %v is not in %v", told(e), n.Pitch, sources[n.Scale].Scale.Notes)
		}
	}
	if !slices.Contains(goal.Targets, Target{target.Pitch.Name, e.Target}) {
		t.Fatalf("%s lands on %v as %v, want one of %v", told(e), target.Pitch, e.Target, goal.Targets)
	}
	if end := goal.At + max(line.Quarter, l.Rhythm.Meter.Bar()-goal.At%l.Rhythm.Meter.Bar()); target.End() != end {
		t.Fatalf("%s: the target ends at %v, want %v", told(e), target.End(), end)
	}
}
