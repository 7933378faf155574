package practice

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"time"

	"heddle/exercise"
	"heddle/pitch"
)

// A Plan says what to play on a day.
type Plan struct {
	Day     string  `json:"day"`
	Minutes int     `json:"minutes"`
	Blocks  []Block `json:"blocks"`
}

// A Block is one stretch of a plan.
type Block struct {
	Kind    BlockKind      `json:"kind"`
	Item    int64          `json:"item,omitempty"`
	Title   string         `json:"title,omitempty"`
	Key     string         `json:"key,omitempty"`
	Fret    int            `json:"fret,omitempty"`
	Tempo   float64        `json:"tempo,omitempty"`
	Minutes int            `json:"minutes"`
	Why     string         `json:"why"`
	Spec    *exercise.Spec `json:"spec,omitempty"` // cut to the notes around the move, for a weak one
}

// A BlockKind says what a block is for.
type BlockKind string

// The kinds of blocks.
const (
	WarmUp  BlockKind = "warm-up"
	Due     BlockKind = "due"
	WeakOne BlockKind = "weak"
	New     BlockKind = "new"
	Free    BlockKind = "free"
	Rest    BlockKind = "rest"
	Quiz    BlockKind = "ask"
)

// Unit returns the unit that a block is about, if it is about one.
func (b Block) Unit() (u Unit, ok bool) {
	return Unit{Item: b.Item, Key: b.Key, Fret: b.Fret}, b.Item != 0
}

// An Asked plan is what a player asks for.
type Asked struct {
	Day      time.Time // any time of the day, in the player's zone
	Minutes  int
	Seed     uint64
	NoGuitar bool // questions only
}

// Bounds of a plan in minutes.
const (
	shortestPlan = 5
	longestPlan  = 240
	UsualPlan    = 30
)

// The shape of a plan. Our choice, but for the turns (Carter and Grahn 2016)
// and the rests (ten minutes in each hour, common advice to players).
const (
	turnMinutes   = 3
	warmUpFrom    = 15 // minutes of plan from which there is a warm-up and something free
	quizFrom      = 25
	warmUpMinutes = 2
	quizMinutes   = 2
	longestFree   = 8
	playMinutes   = 25 // between two rests
	restMinutes   = 5
	longestOnEnd  = 50 // minutes of plan up to which there is no rest inside
	youngPerHour  = 24 // something new comes only while fewer units than that, for an hour a day, are young
	warmUpShare   = 0.7
)

// Today makes the plan. The shelf may be empty; then the plan has no blocks.
func Today(r *Record, asked Asked) (*Plan, error) {
	if asked.Minutes < shortestPlan || asked.Minutes > longestPlan {
		return nil, &pitch.InputError{What: "minutes", Value: strconv.Itoa(asked.Minutes), Want: "from 5 to 240"}
	}
	p := newPlanner(r, asked)
	plan := &Plan{Day: Day(asked.Day), Minutes: asked.Minutes, Blocks: []Block{}}
	if len(p.standings) == 0 {
		return plan, nil
	}
	var err error
	if asked.NoGuitar {
		plan.Blocks = p.quizOnly()
	} else if plan.Blocks, err = p.blocks(); err != nil {
		return nil, err
	}
	plan.Blocks = withRests(plan.Blocks, asked.Minutes)
	return plan, nil
}

// A planner makes one plan.
type planner struct {
	record    *Record
	standings []Standing // those whose items are on the shelf
	items     map[int64]*Item
	asked     Asked
	until     time.Time // the end of the day: what is due by then is due
	play      int       // minutes without the rests
	dice      *rand.Rand
}

func newPlanner(r *Record, asked Asked) *planner {
	y, m, d := asked.Day.Date()
	p := &planner{
		record: r, asked: asked, until: endOf(asked.Day),
		items: make(map[int64]*Item, len(r.Items)), play: asked.Minutes - restMinutes*restsIn(asked.Minutes),
		dice: rand.New(rand.NewPCG(asked.Seed, uint64(y*10000+int(m)*100+d))),
	}
	for i := range r.Items {
		p.items[r.Items[i].ID] = &r.Items[i]
	}
	for _, s := range r.Standings {
		if p.items[s.Item] != nil {
			p.standings = append(p.standings, s)
		}
	}
	return p
}

// restsIn returns how many rests a plan has: as few as leave no stretch of
// playing longer than playMinutes. Any hour then holds ten minutes of rest.
func restsIn(minutes int) int {
	if minutes <= longestOnEnd {
		return 0
	}
	const cycle = playMinutes + restMinutes
	return (minutes - playMinutes + cycle - 1) / cycle
}

// blocks makes everything but the rests.
func (p *planner) blocks() ([]Block, error) {
	var warm, quiz, free int
	if p.asked.Minutes >= warmUpFrom {
		warm, free = warmUpMinutes, min(longestFree, max(2, p.play/10))
	}
	if p.asked.Minutes >= quizFrom {
		quiz = quizMinutes
	}
	left := p.play - warm - quiz - free
	turns := max(1, (left+1)/turnMinutes)
	chosen, err := p.choose(turns)
	if err != nil {
		return nil, err
	}
	var list []Block
	if warm > 0 {
		block, err := p.warmUp(warm, chosen)
		if err != nil {
			return nil, err
		}
		list = append(list, block)
	}
	list = append(list, inTurns(chosen, turns, left)...)
	if quiz > 0 {
		list = append(list, p.quiz(quiz))
	}
	if free > 0 {
		block, err := p.free(free, slices.Concat(chosen, list[:1]))
		if err != nil {
			return nil, err
		}
		list = append(list, block)
	}
	return list, nil
}

// inTurns plays the chosen blocks one after the other, again and again, until
// the minutes are used up.
func inTurns(chosen []Block, turns, minutes int) []Block {
	list := make([]Block, turns)
	for i := range list {
		list[i] = chosen[i%len(chosen)]
		list[i].Minutes = minutes / turns
		if i < minutes%turns {
			list[i].Minutes++
		}
		if i >= len(chosen) && len(chosen) > 1 {
			list[i].Why = "Again, after something else: turns keep more than one long block does."
		}
	}
	return list
}

// withRests spreads the rests evenly over the blocks. A short block is played
// to its end before the rest where that keeps to playMinutes; any other is
// parted.
func withRests(blocks []Block, minutes int) []Block {
	rests := restsIn(minutes)
	stretches := rests + 1
	play := minutes - restMinutes*rests
	rest := Block{Kind: Rest, Minutes: restMinutes, Why: "Put the guitar down, let the hands hang and rest your ears: ten minutes in each hour."}
	var list []Block
	done, since, rested := 0, 0, 0 // minutes played, minutes since the last rest, and rests
	for _, b := range blocks {
		for b.Minutes > 0 {
			at := ((rested+1)*play + stretches - 1) / stretches // where the next rest belongs
			part := b
			whole := b.Minutes <= turnMinutes+1 && since+b.Minutes <= playMinutes
			if rested < rests && done+b.Minutes > at && !whole {
				part.Minutes = at - done
			}
			if part.Minutes > 0 {
				list = append(list, part)
			}
			done, since, b.Minutes = done+part.Minutes, since+part.Minutes, b.Minutes-part.Minutes
			if rested < rests && done >= at {
				list = append(list, rest)
				since = 0
				rested++
			}
		}
	}
	return list
}

// MarshalJSON writes an empty list of blocks as [].
func (p Plan) MarshalJSON() ([]byte, error) {
	type plain Plan
	if p.Blocks == nil {
		p.Blocks = []Block{}
	}
	return json.Marshal(plain(p))
}

// Loops returns how often an exercise is played to fill some minutes.
func Loops(ex *exercise.Exercise, minutes int) int {
	once := ex.Length.Quarters() * 60 / ex.Tempo
	return max(1, int(math.Ceil(float64(minutes)*60/once)))
}
