package line

import (
	"math"
	"slices"
	"testing"

	"heddle/neck"
	"heddle/pitch"
	"pgregory.net/rapid"
)

// The proof that Land's endings are the cheapest: every ending that obeys the
// rules is written out and priced as a whole, by code that shares only the
// constants with the search.

// contour is the keys of an ending with the two last notes kept before it,
// where there are two.
func contour(kept []Note, keys []int) []int {
	var all []int
	for _, n := range kept[max(0, len(kept)-2):] {
		all = append(all, n.Pitch.MIDI())
	}
	return append(all, keys...)
}

// under says what a key is under the hand at a time.
type under struct {
	reach, chromatic, away bool
}

// look remembers what underHand saw, for the thousands of endings of one case.
type look struct {
	LandRequest
	seen map[lookup]under
}

type lookup struct {
	key int
	at  Beat
}

func (l look) under(key int, at Beat) under {
	u, ok := l.seen[lookup{key, at}]
	if !ok {
		u = underHand(l.LandRequest, key, at)
		l.seen[lookup{key, at}] = u
	}
	return u
}

// underHand looks at every fret and every scale.
func underHand(l LandRequest, key int, at Beat) under {
	section := l.Sections[0]
	for _, s := range l.Sections[1:] {
		if s.Start <= at {
			section = s
		}
	}
	low, high := section.Sources[0].Placement.Window.Low, section.Sources[0].Placement.Window.High
	for _, s := range section.Sources {
		low, high = min(low, s.Placement.Window.Low), max(high, s.Placement.Window.High)
	}
	u := under{chromatic: true}
	for i, s := range section.Sources {
		for _, n := range s.Scale.Notes {
			if n.Class() == key%12 && u.chromatic {
				u.chromatic, u.away = false, i > 0
			}
		}
	}
	if u.chromatic {
		low, high = low-1, high+1
	}
	for _, spot := range l.Instrument.SpotsOf(key) {
		u.reach = u.reach || spot.Fret >= low && spot.Fret <= high
	}
	return u
}

// priceWhole prices an ending as the constants say, or says that it breaks a
// rule.
func priceWhole(l look, gives int, keys []int) (price float64, legal bool) {
	kept := l.Line[:len(l.Line)-gives]
	approach := len(keys) - 1
	value := l.Rhythm.Value.Length()
	start := l.At - Beat(approach)*value
	rest := start - kept[len(kept)-1].End()
	if rest < 0 || rest > 0 && approach == 0 || gives > 0 && rest >= value {
		return 0, false
	}
	if gives > 0 && approach > 0 {
		if first := l.Line[len(l.Line)-gives]; first.Start == start && first.Pitch.MIDI() == keys[0] {
			return 0, false
		}
	}
	price = costReplaced*float64(gives) + math.Min(longestRest, math.Round(8*costResting*rest.Quarters())/8)
	all := contour(kept, keys)
	before := len(all) - len(keys) // kept notes among them
	target := all[len(all)-1]
	enclosed := false
	if n := len(all); n >= 3 {
		a, b := all[n-3]-target, all[n-2]-target
		enclosed = a*b < 0 && abs(a) <= 2 && abs(b) <= 2
	}
	for i := before; i < len(all); i++ {
		at := l.At - Beat(len(all)-1-i)*value
		u := l.under(all[i], at)
		if !u.reach {
			return 0, false
		}
		last := i == len(all)-1
		if !last {
			price += costApproaching
			if u.chromatic {
				price += costChromatic
			} else if u.away {
				price += costAway
			}
		}
		width := abs(all[i] - all[i-1])
		if width == 0 || width > 5 || last && width > 2 {
			return 0, false
		}
		price += max(0, float64(width-2)/2) // a third 0.5 or 1, a fourth 1.5
		if i-1 >= before && width > 1 && l.under(all[i-1], at-value).chromatic {
			price += costUnresolved
		}
		if last && width == 2 {
			price += costLastTone
		}
		if last && enclosed {
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
		if last {
			price += costBare
		}
	}
	isTarget := slices.ContainsFunc(l.Targets, func(t Target) bool { return t.Name.Class() == target%12 })
	return price, isTarget
}

func abs(n int) int { return max(n, -n) }

// allPrices writes out every ending and returns the prices, cheapest first.
func allPrices(l LandRequest, most int) []float64 {
	seen := look{l, map[lookup]under{}}
	var prices []float64
	for gives := 0; gives <= min(most, len(l.Line)-1); gives++ {
		last := l.Line[len(l.Line)-1-gives]
		for approach := 0; approach <= mostApproach && last.End()+Beat(approach)*l.Rhythm.Value.Length() <= l.At; approach++ {
			keys := make([]int, 0, approach+1)
			var on func(from int)
			on = func(from int) {
				if len(keys) == cap(keys) {
					if price, legal := priceWhole(seen, gives, keys); legal {
						prices = append(prices, price)
					}
					return
				}
				for key := from - 5; key <= from+5; key++ {
					keys = append(keys, key)
					on(key)
					keys = keys[:len(keys)-1]
				}
			}
			on(last.Pitch.MIDI())
		}
	}
	slices.Sort(prices)
	return prices
}

// drawLanding draws a line and a landing; at most left notes fit in the time
// that is left or given up.
func drawLanding(t *rapid.T, replace, left int) LandRequest {
	r := drawRequest(t)
	if left < mostApproach {
		r.Rhythm.Gap = 0 // a gap given up would be time for more notes
	}
	line := mustBuild(t, r)
	line = line[:rapid.IntRange(1, len(line)).Draw(t, "cut")]
	if rapid.Bool().Draw(t, "change") {
		at := line[len(line)-1].End() + Beat(rapid.IntRange(-2, 2).Draw(t, "when"))*r.Rhythm.Value.Length()
		low := r.Sections[0].Sources[0].Placement.Window.Low
		r.Sections = append(r.Sections, Section{Start: at, Sources: []Source{drawSource(t, max(2, low))}})
	}
	l := LandRequest{Line: line, Sections: r.Sections, Instrument: neck.Guitar(), Rhythm: r.Rhythm,
		Replace: rapid.IntRange(-1, replace).Draw(t, "replace"), Endings: rapid.IntRange(1, 12).Draw(t, "endings")}
	if l.Replace == 0 {
		l.Replace = -1
	}
	value := r.Rhythm.Value.Length()
	l.At = line[len(line)-1].End() + Beat(rapid.IntRange(0, left).Draw(t, "left"))*value + Beat(rapid.IntRange(0, 1).Draw(t, "odd"))*60
	for i := range rapid.IntRange(1, 2).Draw(t, "targets") {
		class := rapid.IntRange(0, 11).Draw(t, "target")
		l.Targets = append(l.Targets, Target{pitch.PlainName(class, true), pitch.Degree{Number: i + 1}})
	}
	return l
}

func TestLandingsAreTheCheapestOfAll(t *testing.T) {
	tried := 0
	rapid.Check(t, func(t *rapid.T) {
		l := drawLanding(t, 2, 2)
		want := allPrices(l, max(0, l.Replace))
		want = want[:min(len(want), l.Endings)]
		var got []float64
		for _, e := range Land(l) {
			got = append(got, e.Cost)
		}
		if !slices.Equal(got, want) {
			t.Fatalf("costs %v, want %v by writing out every ending", got, want)
		}
		tried += len(got)
	})
	if tried == 0 {
		t.Error("no line had an ending")
	}
}

func TestEndingsObeyEveryRule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLanding(t, 6, 20)
		endings := Land(l)
		for i, e := range endings {
			obeyLanding(t, l, e)
			if i > 0 && e.Cost < endings[i-1].Cost {
				t.Fatalf("ending %d costs %v, the one before %v", i, e.Cost, endings[i-1].Cost)
			}
			for _, other := range endings[:i] {
				if slices.Equal(lead(l.Line, e), lead(l.Line, other)) {
					t.Fatalf("two endings are one: %s", told(e))
				}
			}
		}
	})
}

func obeyLanding(t *rapid.T, l LandRequest, e Ending) {
	keys := make([]int, len(e.Notes))
	for i, n := range e.Notes {
		keys[i] = n.Pitch.MIDI()
	}
	if e.Replaced > max(0, l.Replace) {
		t.Fatalf("%d notes give way, want at most %d", e.Replaced, l.Replace)
	}
	if price, legal := priceWhole(look{l, map[lookup]under{}}, e.Replaced, keys); !legal || price != e.Cost {
		t.Fatalf("%s costs %v; as a whole %v, legal: %v", told(e), e.Cost, price, legal)
	}
	whole := lead(l.Line, e)
	kept := len(l.Line) - e.Replaced
	scales := []Source{}
	for _, s := range l.Sections {
		scales = append(scales, s.Sources...)
	}
	for i, n := range e.Notes {
		if n.Role != LandingRole || n.Step != i+1 || n.Group != l.Line[kept-1].Group+1 {
			t.Fatalf("%s: note %d has role %s, step %d, group %d", told(e), i, n.Role, n.Step, n.Group)
		}
		if want := l.At - Beat(len(e.Notes)-1-i)*l.Rhythm.Value.Length(); n.Start != want {
			t.Fatalf("%s: note %d starts at %d, want %d", told(e), i, n.Start, want)
		}
		if before := whole[kept+i-1]; n.Start < before.End() {
			t.Fatalf("%s: note %d starts before the one before it ends", told(e), i)
		}
		if n.Scale == Chromatic {
			if a := n.Pitch.Name.Accidental; a < -1 || a > 1 {
				t.Fatalf("chromatic %v", n.Pitch)
			}
			continue
		}
		if named, ok := scales[n.Scale].Scale.Named(n.Pitch.MIDI() % 12); !ok || named != n.Pitch.Name {
			t.Fatalf("%s: %v is not in %v", told(e), n.Pitch, scales[n.Scale].Scale.Notes)
		}
	}
	target := e.Notes[len(e.Notes)-1]
	if !slices.Contains(l.Targets, Target{target.Pitch.Name, e.Target}) {
		t.Fatalf("%s lands on %v as %v, want one of %v", told(e), target.Pitch, e.Target, l.Targets)
	}
}
