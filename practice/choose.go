package practice

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"heddle/exercise"
)

// A ranked standing has what the order of choice depends on.
type ranked struct {
	Standing
	recall  float64
	overdue float64 // days since it was played, in intervals; due from 1 on
	order   uint64  // a throw of the dice, for ties
}

// learningDays is when a unit that is still below its target comes again,
// whatever the memory model says: hands learn by playing, and a few hard units
// must not take up every day. Our choice; doc/practice.md compares the plan with
// other orders.
const learningDays = 4

// interval is in how many days a unit should be played again.
func (p *planner) interval(s Standing) float64 {
	if s.Fastest < p.items[s.Item].Target {
		return learningDays
	}
	return max(learningDays, s.Stability) // at a retention of 0.9 the model's interval
}

// choose picks the units of a plan, most overdue first, with a quarter of the
// places for weak moves and a third for something new while few units are
// young.
func (p *planner) choose(count int) ([]Block, error) {
	played, fresh := p.sorted()
	weak, err := p.weakLoops(max(1, count/4), played)
	if err != nil {
		return nil, err
	}
	newOnes := min(max(0, p.mostYoung()-p.young()), max(1, count/3), len(fresh))
	if len(played) == 0 {
		newOnes = min(max(1, count/2), len(fresh))
	}
	var list []Block
	for _, s := range played {
		if len(list) >= max(1, count-len(weak)-newOnes) {
			break
		}
		if isChosen(weak, s.Unit) {
			continue
		}
		if err := p.add(&list, Due, s.Standing, p.whyDue(s)); err != nil {
			return nil, err
		}
	}
	list = append(list, weak...)
	for _, s := range fresh[:newOnes] {
		if err := p.add(&list, New, s.Standing, whyNew(s.Standing)); err != nil {
			return nil, err
		}
	}
	return list[:min(len(list), count)], nil
}

// add adds a block of a unit.
func (p *planner) add(list *[]Block, kind BlockKind, s Standing, why string) error {
	block, err := p.block(kind, s, why)
	*list = append(*list, block)
	return err
}

// unitIn counts an item's units in one key, or with no key those never played.
type unitIn struct {
	item int64
	key  string
}

// sorted parts the units into those played, most overdue first, and those never
// played: items and their keys in turn, each item's own key and place first.
func (p *planner) sorted() (played, fresh []ranked) {
	seen := make(map[unitIn]int)
	for _, s := range p.standings {
		r := ranked{Standing: s, recall: s.Recall(p.until), order: p.dice.Uint64()}
		if s.Runs == 0 {
			r.order = uint64(seen[unitIn{s.Item, s.Key}]<<32 + seen[unitIn{item: s.Item}])
			seen[unitIn{s.Item, s.Key}]++
			seen[unitIn{item: s.Item}]++
			fresh = append(fresh, r)
			continue
		}
		seen[unitIn{s.Item, s.Key}]++
		r.overdue = p.until.Sub(s.Played).Hours() / 24 / p.interval(s)
		played = append(played, r)
	}
	slices.SortFunc(played, func(a, b ranked) int {
		return cmp.Or(cmp.Compare(b.overdue, a.overdue), cmp.Compare(a.order, b.order))
	})
	slices.SortStableFunc(fresh, func(a, b ranked) int { return cmp.Compare(a.order, b.order) })
	return played, fresh
}

// mostYoung is how many units may be young before something new has to wait.
func (p *planner) mostYoung() int { return max(1, p.asked.Minutes*youngPerHour/60) }

// young counts the units that are being learned.
func (p *planner) young() (n int) {
	for _, s := range p.standings {
		if s.isYoung() {
			n++
		}
	}
	return n
}

// block makes a block of a unit at its next tempo.
func (p *planner) block(kind BlockKind, s Standing, why string) (Block, error) {
	item := p.items[s.Item]
	spec, err := s.Spec(item.Spec)
	if err != nil {
		return Block{}, err
	}
	spec.Tempo = s.Next(item.Target)
	return Block{Kind: kind, Item: item.ID, Title: item.Title, Key: s.Key, Fret: s.Fret, Tempo: spec.Tempo, Why: why, Spec: &spec}, nil
}

// whyDue says why a unit that was played comes again.
func (p *planner) whyDue(s ranked) string {
	last := fmt.Sprintf("Last played %s: %s.", daysAgo(int(p.until.Sub(s.Played).Hours()/24)), s.Latest)
	target := p.items[s.Item].Target
	switch {
	case s.overdue < 1:
		return last + " Not due yet, but nothing else is more so."
	case s.recall < retention:
		return fmt.Sprintf("%s The memory model gives it %.0f %%.", last, 100*s.recall)
	case s.Fastest == 0:
		return last + " Not yet clean at any tempo."
	case s.Fastest < target:
		return fmt.Sprintf("%s Clean at %.0f so far, on the way to %.0f.", last, s.Fastest, target)
	}
	return last + " Due again."
}

func whyNew(s Standing) string { return "New in " + s.Words() + "." }

func daysAgo(days int) string {
	switch days {
	case 0:
		return "today"
	case 1:
		return "yesterday"
	}
	return strconv.Itoa(days) + " days ago"
}

// warmUp is a unit that is known, played slowly: of those that went well last
// time the one that is most overdue and not chosen already.
func (p *planner) warmUp(minutes int, chosen []Block) (Block, error) {
	played, fresh := p.sorted()
	all := slices.Concat(played, fresh)
	best := all[0]
	for _, s := range all {
		if s.Latest >= Clean && !isChosen(chosen, s.Unit) {
			best = s
			break
		}
	}
	block, err := p.block(WarmUp, best.Standing, "Slow and easy, to warm up the hands.")
	if err != nil {
		return block, err
	}
	block.Minutes = minutes
	block.Tempo = max(exercise.SlowestTempo, math.Round(warmUpShare*block.Tempo))
	block.Spec.Tempo = block.Tempo
	return block, nil
}

func isChosen(chosen []Block, u Unit) bool {
	return slices.ContainsFunc(chosen, func(b Block) bool { unit, ok := b.Unit(); return ok && unit == u })
}

// free is a phrase or a solo from the shelf where there is one, else the most
// overdue unit that the plan has no turn for, to play with freely.
func (p *planner) free(minutes int, chosen []Block) (Block, error) {
	played, _ := p.sorted()
	block := chosen[0]
	for _, s := range played {
		if isChosen(chosen, s.Unit) {
			continue
		}
		kind := p.items[s.Item].Kind
		if kind != Phrase && kind != Solo && block.Kind == Free {
			continue
		}
		var err error
		if block, err = p.block(Free, s.Standing, ""); err != nil {
			return block, err
		}
		if kind == Phrase || kind == Solo {
			break
		}
	}
	block.Kind, block.Minutes = Free, minutes
	block.Why = "Something free to end with: play over the vamp, and put in a cell or two of today's."
	return block, nil
}

// quiz is a block of questions.
func (p *planner) quiz(minutes int) Block {
	return Block{Kind: Quiz, Minutes: minutes, Why: "Questions about the neck, to see both scales under the hand."}
}

// quizOnly is a plan without a guitar.
func (p *planner) quizOnly() []Block {
	return []Block{p.quiz(p.play)}
}

// weakLoops makes loops around the moves that fail most, one for each move,
// from the items on the shelf.
func (p *planner) weakLoops(most int, played []ranked) ([]Block, error) {
	var list []Block
	average := 100 * p.record.Moves.average()
	for _, w := range p.record.Moves.weak() {
		if len(list) >= most {
			break
		}
		block, found, err := p.loop(w.Move, played)
		if err != nil {
			return nil, err
		}
		if !found || slices.ContainsFunc(list, func(b Block) bool { return b.Item == block.Item }) {
			continue
		}
		block.Why = fmt.Sprintf("%s fails %d times in %d; your average is %.0f %%.", upper(w.words()), w.Misses, w.Tries, average)
		list = append(list, block)
	}
	return list, nil
}

// loop finds the most overdue unit whose line has the move. It looks at one
// unit of each item, because the others are the same line moved.
func (p *planner) loop(move Move, played []ranked) (Block, bool, error) {
	looked := make(map[int64]bool)
	for _, s := range played {
		if looked[s.Item] || len(looked) == mostLooked {
			continue
		}
		looked[s.Item] = true
		block, err := p.block(WeakOne, s.Standing, "")
		if err != nil {
			return block, false, err
		}
		ex, err := exercise.Build(*block.Spec)
		if err != nil {
			return block, false, err
		}
		if first, last, ok := loopAround(ex, move); ok {
			skipped := max(0, cutFrom(block.Spec.Cut)-1) // a cell's notes are counted in its whole line
			block.Spec.Cut = fmt.Sprintf("%d-%d", first+skipped, last+skipped)
			return block, true, nil
		}
	}
	return Block{}, false, nil
}

// cutFrom returns the first note of a spec's cut, 0 without one.
func cutFrom(cut string) int {
	first, _, _ := strings.Cut(cut, "-")
	n, _ := strconv.Atoi(first)
	return n
}

// mostLooked bounds how many items are searched for a move.
const mostLooked = 12

// upper begins a sentence.
func upper(s string) string {
	letters := []rune(s)
	if len(letters) > 0 && letters[0] >= 'a' && letters[0] <= 'z' {
		letters[0] += 'A' - 'a'
	}
	return string(letters)
}

// Words says the kind on a plan.
func (k BlockKind) Words() string {
	switch k {
	case WeakOne:
		return "weak spot"
	case Quiz:
		return "questions"
	}
	return string(k)
}
