package hear

import (
	"fmt"
	"math"
	"strings"

	"heddle/exercise"
)

// When something is worth a sentence.
const (
	namedNotes   = 3    // missed or wrong notes that are named one by one; more are counted
	stoppedAfter = 4    // missed notes at the end that mean the player stopped
	groupOffMS   = 20.0 // mean timing of a group that is rushed or dragged,
	groupSpreads = 1.2  // in spreads of the take's timing, where that is more
	stepOffMS    = 15.0 // the same for one place in all groups
	clickOffMS   = 25.0 // for the whole take against the click
	driftShare   = 0.04 // change of tempo between the first and the last third
	offTuneCents = 8.0
)

// An adviser puts a report into sentences.
type adviser struct {
	*Report
	ex   *exercise.Exercise
	says []string
}

func advise(r *Report, ex *exercise.Exercise) []string {
	a := &adviser{Report: r, ex: ex, says: []string{}}
	if r.Summary.Right+r.Summary.Wrong == 0 {
		return []string{"No note of the line was heard. Is the microphone on, and is this the line that was played?"}
	}
	a.unheard()
	if a.OtherLine() {
		heard := a.Summary.Right + a.Summary.Wrong + a.Summary.Extra
		a.say("Of %d notes heard %s right. Is this the line that was played, in this place on the neck?", heard, counted(a.Summary.Right, "is", "are"))
		return a.says
	}
	first, last := a.began(), a.stopped()
	a.missed(first, last)
	a.wrong()
	a.groups()
	a.steps()
	a.whole()
	a.wentBack()
	a.extras()
	if r.Summary.Wrong+r.Summary.Missed == 0 {
		a.says = append([]string{fmt.Sprintf("Every note is right, most of them within %.0f ms of the beat.", math.Max(1, r.Summary.TimingMSSpread))}, a.says...)
	}
	return a.says
}

func (a *adviser) say(format string, args ...any) {
	a.says = append(a.says, fmt.Sprintf(format, args...))
}

func (a *adviser) name(i int) string {
	p := a.ex.Notes[i].Pitch
	return fmt.Sprintf("%s%d", a.ex.Naming.Name(p.Name), p.Octave)
}

func (a *adviser) place(i int) string {
	if s := a.ex.Notes[i].String; s > 0 {
		return fmt.Sprintf("the %s on string %d", a.name(i), s)
	}
	return "the " + a.name(i)
}

// stopped tells of a player who stopped, and returns the index after the last
// note that was played.
func (a *adviser) stopped() int {
	last := len(a.Marks)
	for last > 0 && a.Marks[last-1].Verdict == Missed {
		last--
	}
	if len(a.Marks)-last < stoppedAfter {
		return len(a.Marks)
	}
	a.say("You stopped after note %d, %s.", last, a.place(last-1))
	return last
}

func (a *adviser) missed(from, until int) {
	var at []int
	onString := map[int]int{}
	for i := from; i < until; i++ {
		if a.Marks[i].Verdict == Missed {
			at = append(at, i)
			onString[a.ex.Notes[i].String]++
		}
	}
	if len(at) <= namedNotes {
		for _, i := range at {
			a.say("%s is missed (note %d).", upperFirst(a.place(i)), i+1)
		}
		return
	}
	most := 0
	for s := 1; s <= 16; s++ {
		if s > 0 && onString[s] > onString[most] {
			most = s
		}
	}
	if most > 0 && 2*onString[most] > len(at) {
		a.say("%d notes are missed, %d of them on string %d.", len(at), onString[most], most)
		return
	}
	a.say("%d notes are missed, the first of them %s (note %d).", len(at), a.place(at[0]), at[0]+1)
}

func (a *adviser) wrong() {
	var at []int
	for i, m := range a.Marks {
		if m.Verdict == Wrong {
			at = append(at, i)
		}
	}
	if len(at) > namedNotes {
		a.say("%d notes are wrong, the first of them %s (note %d).", len(at), a.place(at[0]), at[0]+1)
		return
	}
	for _, i := range at {
		a.say("Note %d is %s: %s.", i+1, a.place(i), a.strayed(i))
	}
}

// strayed says what sounded for a wrong note.
func (a *adviser) strayed(i int) string {
	off := int(math.Round(a.Marks[i].Cents / 100))
	way := "high"
	if off < 0 {
		way = "low"
	}
	switch size := max(off, -off); size {
	case 1:
		return "you played it a fret too " + way
	case 12:
		return "it sounded an octave too " + way
	default:
		return fmt.Sprintf("you played it %d semitones too %s", size, way)
	}
}

// groups tells of groups that are rushed or dragged as a whole.
func (a *adviser) groups() {
	sums, counts := map[int]float64{}, map[int]float64{}
	groups := 0
	for i, m := range a.Marks {
		g := a.ex.Notes[i].Group
		groups = max(groups, g+1)
		if m.Verdict != Missed {
			sums[g] += m.TimingMS - a.usualMS()
			counts[g]++
		}
	}
	limit := math.Max(groupOffMS, groupSpreads*a.Summary.TimingMSSpread)
	var rushed, dragged []int
	for g := range groups {
		if counts[g] < 2 {
			continue
		}
		switch mean := sums[g] / counts[g]; {
		case mean < -limit:
			rushed = append(rushed, g)
		case mean > limit:
			dragged = append(dragged, g)
		}
	}
	a.sayGroups("rush", rushed)
	a.sayGroups("drag", dragged)
}

// usualMS is the timing that the rest is measured from: to a click, the
// median; the player's own beat needs none.
func (a *adviser) usualMS() float64 {
	if a.Clicked {
		return a.Summary.TimingMSMedian
	}
	return 0
}

func (a *adviser) sayGroups(verb string, groups []int) {
	switch {
	case len(groups) == 0:
	case len(groups) == 1:
		a.say("You %s the %s group.", verb, ordinal(groups[0]+1))
	case len(groups) <= 4:
		words := make([]string, len(groups))
		for i, g := range groups {
			words[i] = ordinal(g + 1)
		}
		a.say("You %s the %s and the %s group.", verb, strings.Join(words[:len(words)-1], ", the "), words[len(words)-1])
	default:
		a.say("You %s %d groups, the first of them the %s.", verb, len(groups), ordinal(groups[0]+1))
	}
}

// steps tells of a place in the group that is early or late in most groups.
func (a *adviser) steps() {
	timing := map[int][]float64{}
	place, steps, group := 0, 0, -1
	for i, m := range a.Marks {
		if g := a.ex.Notes[i].Group; g != group {
			group, place = g, 0
		}
		place++
		steps = max(steps, place)
		if m.Verdict != Missed {
			timing[place] = append(timing[place], m.TimingMS-a.usualMS())
		}
	}
	for p := 1; p <= steps && steps > 1; p++ {
		off := median(timing[p])
		if len(timing[p]) < 4 || math.Abs(off) < stepOffMS {
			continue
		}
		way := "late"
		if off < 0 {
			way = "early"
		}
		a.say("The %s note of a group comes %s, by %.0f ms.", ordinal(p), way, math.Abs(off))
	}
}

// whole tells what holds for all of the take.
func (a *adviser) whole() {
	if off := a.Summary.TimingMSMedian; a.Clicked && math.Abs(off) >= clickOffMS {
		way := "behind"
		if off < 0 {
			way = "ahead of"
		}
		a.say("You play %.0f ms %s the click.", math.Abs(off), way)
	}
	if a.startTempo > 0 && math.Abs(a.endTempo/a.startTempo-1) >= driftShare {
		way := "speed up"
		if a.endTempo < a.startTempo {
			way = "slow down"
		}
		a.say("You %s, from %.0f to %.0f.", way, a.startTempo, a.endTempo)
	}
	if c := a.TuningCents; math.Abs(c) >= offTuneCents {
		way := "sharp"
		if c < 0 {
			way = "flat"
		}
		a.say("Your guitar is %.0f cents %s.", math.Abs(c), way)
	}
}

func (a *adviser) extras() {
	switch n := a.Summary.Extra; n {
	case 0:
	case 1:
		a.say("One extra note sounded, at %.1f s.", a.Heard[a.Extra[0]].OnsetS)
	default:
		a.say("%d extra notes sounded, the first at %.1f s.", n, a.Heard[a.Extra[0]].OnsetS)
	}
}

var ordinals = [...]string{"first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh", "twelfth"}

func ordinal(n int) string {
	if n >= 1 && n <= len(ordinals) {
		return ordinals[n-1]
	}
	switch {
	case n%10 == 1 && n%100 != 11:
		return fmt.Sprintf("%dst", n)
	case n%10 == 2 && n%100 != 12:
		return fmt.Sprintf("%dnd", n)
	case n%10 == 3 && n%100 != 13:
		return fmt.Sprintf("%drd", n)
	}
	return fmt.Sprintf("%dth", n)
}

func upperFirst(s string) string { return strings.ToUpper(s[:1]) + s[1:] }
