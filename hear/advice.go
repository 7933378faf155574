package hear

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"heddle/exercise"
	"heddle/hear/internal/listen"
	"heddle/hear/internal/stats"
)

// When something is worth a sentence.
const (
	namedGroups  = 4    // groups that are named one by one
	namedNotes   = 3    // missed or wrong notes that are named one by one; more are counted
	stoppedAfter = 4    // missed notes at the start or the end that were not played at all
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

func advise(r *Report, ex *exercise.Exercise, change tempoChange) []string {
	a := &adviser{Report: r, ex: ex}
	sum := r.Summary
	if sum.Right+sum.Wrong == 0 {
		return []string{"No note of the line was heard. Is the microphone on, and is this the line that was played?"}
	}
	a.unheard()
	if a.OtherLine() {
		a.say("Of %d notes heard %s right. Is this the line that was played, in this place on the neck?", sum.Right+sum.Wrong+sum.Extra, counted(sum.Right, "is", "are"))
		return a.says
	}
	if sum.Wrong+sum.Missed == 0 {
		a.say("Every note is right, most of them within %.0f ms of the beat.", math.Max(1, sum.TimingMSSpread))
	}
	first, last := a.began(), a.stopped()
	a.missed(first, last)
	a.wrong()
	a.groups()
	a.steps()
	a.whole(change)
	if n := len(a.Retried); n > 0 {
		a.say("You went back: %s played again, and the last attempt counts.", counted(n, "note was", "notes were"))
	}
	switch {
	case sum.Extra == 1:
		a.say("One extra note sounded, at %.1f s.", a.Heard[a.Extra[0]].OnsetS)
	case sum.Extra > 1:
		a.say("%d extra notes sounded, the first at %.1f s.", sum.Extra, a.Heard[a.Extra[0]].OnsetS)
	}
	return a.says
}

func (a *adviser) say(format string, args ...any) {
	a.says = append(a.says, fmt.Sprintf(format, args...))
}

// place names a note and its string.
func (a *adviser) place(i int) string {
	n := a.ex.Notes[i]
	name := fmt.Sprintf("the %s%d", a.ex.Naming.Name(n.Pitch.Name), n.Pitch.Octave)
	if n.String > 0 {
		name += fmt.Sprintf(" on string %d", n.String)
	}
	return name
}

// unheard counts written notes that can't be heard: they are missed however they
// were played.
func (a *adviser) unheard() {
	beyond := 0
	for _, n := range a.ex.Notes {
		if key := n.Pitch.MIDI(); key < listen.LowestKey || key > listen.HighestKey {
			beyond++
		}
	}
	if beyond > 0 {
		a.say("Only E1 to E6 can be heard: %s outside and can't be marked.", counted(beyond, "note lies", "notes lie"))
	}
}

// began tells a player who began in mid-line, or whose recording did, and returns
// the index of the first note that was played.
func (a *adviser) began() int {
	first := slices.IndexFunc(a.Marks, func(m NoteMark) bool { return m.Verdict != Missed })
	if first < stoppedAfter {
		return 0
	}
	a.say("You began at note %d, %s.", first+1, a.place(first))
	return first
}

// stopped tells a player who stopped, and returns the index after the last note
// that was played.
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

func (a *adviser) marked(v Verdict, from, until int) (at []int) {
	for i := from; i < until; i++ {
		if a.Marks[i].Verdict == v {
			at = append(at, i)
		}
	}
	return at
}

func (a *adviser) missed(from, until int) {
	at := a.marked(Missed, from, until)
	if len(at) <= namedNotes {
		for _, i := range at {
			place := a.place(i)
			a.say("%s is missed (note %d).", strings.ToUpper(place[:1])+place[1:], i+1)
		}
		return
	}
	onString, most := map[int]int{}, 0
	for _, i := range at {
		s := a.ex.Notes[i].String
		onString[s]++
		if s > 0 && (onString[s] > onString[most] || onString[s] == onString[most] && s < most) {
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
	at := a.marked(Wrong, 0, len(a.Marks))
	if len(at) > namedNotes {
		a.say("%d notes are wrong, the first of them %s (note %d).", len(at), a.place(at[0]), at[0]+1)
		return
	}
	for _, i := range at {
		a.say("Note %d is %s: %s.", i+1, a.place(i), playedInstead(a.Marks[i].Cents))
	}
}

// playedInstead says what sounded for a wrong note.
func playedInstead(cents float64) string {
	way := way(cents, "low", "high")
	switch size := math.Abs(math.Round(cents / 100)); size {
	case 1:
		return "you played it a fret too " + way
	case 12:
		return "it sounded an octave too " + way
	default:
		return fmt.Sprintf("you played it %.0f semitones too %s", size, way)
	}
}

// groups names groups that are rushed or dragged as a whole.
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

// usualMS is the timing that groups and steps are measured from: with a click, the
// median of the take; the player's own beat has it built in.
func (a *adviser) usualMS() float64 {
	if a.Clicked {
		return a.Summary.TimingMSMedian
	}
	return 0
}

func (a *adviser) sayGroups(verb string, groups []int) {
	words := make([]string, len(groups))
	for i, g := range groups {
		words[i] = ordinal(g + 1)
	}
	switch last := len(groups) - 1; {
	case last < 0:
	case last == 0:
		a.say("You %s the %s group.", verb, words[0])
	case last < namedGroups:
		a.say("You %s the %s and the %s group.", verb, strings.Join(words[:last], ", the "), words[last])
	default:
		a.say("You %s %d groups, the first of them the %s.", verb, len(groups), words[0])
	}
}

// steps names a place in the group that is early or late in most groups.
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
		off := stats.Median(timing[p])
		if len(timing[p]) < 4 || math.Abs(off) < stepOffMS {
			continue
		}
		a.say("The %s note of a group comes %s, by %.0f ms.", ordinal(p), way(off, "early", "late"), math.Abs(off))
	}
}

// whole says what holds for all of the take.
func (a *adviser) whole(change tempoChange) {
	if off := a.Summary.TimingMSMedian; a.Clicked && math.Abs(off) >= clickOffMS {
		a.say("You play %.0f ms %s the click.", math.Abs(off), way(off, "ahead of", "behind"))
	}
	if change.first > 0 && math.Abs(change.last/change.first-1) >= driftShare {
		a.say("You %s, from %.0f to %.0f.", way(change.last-change.first, "slow down", "speed up"), change.first, change.last)
	}
	if c := a.TuningCents; math.Abs(c) >= offTuneCents {
		a.say("Your guitar is %.0f cents %s.", math.Abs(c), way(c, "flat", "sharp"))
	}
}

func counted(n int, one, many string) string {
	switch n {
	case 0:
		return "none " + one
	case 1:
		return "one " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

var ordinals = [...]string{"first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh", "twelfth"}

func ordinal(n int) string {
	if n <= len(ordinals) {
		return ordinals[n-1]
	}
	ending := "th"
	if n/10%10 != 1 && n%10 >= 1 && n%10 <= 3 {
		ending = [...]string{"st", "nd", "rd"}[n%10-1]
	}
	return fmt.Sprintf("%d%s", n, ending)
}
