package practice

import (
	"cmp"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strconv"
	"time"
)

// A Progress is what a player's log adds up to: the numbers behind each picture
// of the Progress page.
type Progress struct {
	Day     string        `json:"day"`
	Items   []ItemGrid    `json:"items"`   // which keys and places, and how fast
	Neck    []SpotCount   `json:"neck"`    // where on the neck notes fail
	Average float64       `json:"average"` // error rate over all marked notes, 0 to 1
	Weak    []WeakMove    `json:"weak"`    // which moves fail
	Days    []DayTotal    `json:"days"`    // how long was practised
	Asked   []AskedCount  `json:"asked"`   // how well spots are known
	Tempo   []TempoPoints `json:"tempo"`   // tempo over time
}

// An ItemGrid is an item's units.
type ItemGrid struct {
	Item   int64      `json:"item"`
	Title  string     `json:"title"`
	Target float64    `json:"target"`
	Units  []GridUnit `json:"units"`
}

// A GridUnit is how far a unit has come.
type GridUnit struct {
	Key     string  `json:"key"`
	Fret    int     `json:"fret"`
	Fastest float64 `json:"fastest"` // clean; 0 where there is no clean run yet
	Runs    int     `json:"runs"`
	Due     string  `json:"due"` // the day; empty for a unit never played
	place   int
}

// Place is where the placement lies from the key: the same number for the same
// placement in every key, 0 to 11.
func (u GridUnit) Place() int { return u.place }

// Class is the pitch class of the key.
func (u GridUnit) Class() int { return Unit{Key: u.Key}.class() }

// A SpotCount is how often notes at a spot failed.
type SpotCount struct {
	String int `json:"string"`
	Fret   int `json:"fret"`
	Tries  int `json:"tries"`
	Misses int `json:"misses"`
}

// A WeakMove is a weak move in words.
type WeakMove struct {
	Move   string  `json:"move"`
	Tries  int     `json:"tries"`
	Misses int     `json:"misses"`
	Sure   float64 `json:"sure"` // probability that it fails more often than average
}

// An AskedCount is how well the answers about a spot went, for one kind of
// question.
type AskedCount struct {
	Kind    QuestionKind `json:"kind"`
	String  int          `json:"string"`
	Fret    int          `json:"fret"`
	Asked   int          `json:"asked"`
	Right   int          `json:"right"`
	Seconds float64      `json:"seconds"` // to a right answer, in the mean
}

// TempoPoints are an item's runs in time.
type TempoPoints struct {
	Item   int64        `json:"item"`
	Title  string       `json:"title"`
	Target float64      `json:"target"`
	Runs   []TempoPoint `json:"runs"`
}

// A TempoPoint is the tempo of a run.
type TempoPoint struct {
	Day   string  `json:"day"`
	Tempo float64 `json:"tempo"`
	Went  Went    `json:"went"`
}

// ProgressOf adds up a record. Runs are those whose tempo is shown over time, in
// any order.
func ProgressOf(r *Record, asked []SpotTotal, runs []Run, now time.Time) *Progress {
	p := &Progress{Day: Day(now), Average: r.Moves.average(), Days: slices.Clone(r.Days),
		Items: []ItemGrid{}, Neck: []SpotCount{}, Weak: []WeakMove{}, Asked: []AskedCount{}, Tempo: tempoOf(r, runs)}
	at := make(map[int64]int)
	for i, it := range r.Items {
		at[it.ID] = i
		p.Items = append(p.Items, ItemGrid{Item: it.ID, Title: it.Title, Target: it.Target, Units: []GridUnit{}})
	}
	for _, s := range r.Standings {
		i, ok := at[s.Item]
		if !ok {
			continue
		}
		unit := GridUnit{Key: s.Key, Fret: s.Fret, Fastest: s.Fastest, Runs: s.Runs, place: s.relative()}
		if s.Reps > 0 {
			unit.Due = Day(s.Due.In(now.Location()))
		}
		p.Items[i].Units = append(p.Items[i].Units, unit)
	}
	for move, c := range r.Moves {
		var spot SpotCount
		if n, _ := fmt.Sscanf(move.Value, "%d.%d", &spot.String, &spot.Fret); move.Kind == Spot && n == 2 && c.Tries > 0 {
			spot.Tries, spot.Misses = c.Tries, c.Misses
			p.Neck = append(p.Neck, spot)
		}
	}
	slices.SortFunc(p.Neck, func(a, b SpotCount) int { return cmp.Or(a.String-b.String, a.Fret-b.Fret) })
	for _, w := range r.Moves.weak() {
		p.Weak = append(p.Weak, WeakMove{w.words(), w.Tries, w.Misses, w.Sure})
	}
	for _, a := range asked {
		p.Asked = append(p.Asked, AskedCount{a.Kind, a.Spot.String, a.Spot.Fret, a.Asked, a.Right, a.Seconds / max(1, float64(a.Right))})
	}
	return p
}

func tempoOf(r *Record, runs []Run) []TempoPoints {
	list := []TempoPoints{}
	for _, it := range r.Items {
		points := TempoPoints{Item: it.ID, Title: it.Title, Target: it.Target}
		for _, run := range runs {
			if run.Unit.Item == it.ID && !run.Struck {
				points.Runs = append(points.Runs, TempoPoint{Day(run.At), run.Tempo, run.Went})
			}
		}
		if len(points.Runs) > 0 {
			slices.SortStableFunc(points.Runs, func(a, b TempoPoint) int { return cmp.Compare(a.Day, b.Day) })
			list = append(list, points)
		}
	}
	return list
}

// KeysText answers which keys can be played, and how fast.
func (p *Progress) KeysText() string {
	units, played, clean, there := 0, 0, 0, 0
	for _, it := range p.Items {
		for _, u := range it.Units {
			units++
			if u.Runs > 0 {
				played++
			}
			if u.Fastest > 0 {
				clean++
			}
			if u.Fastest >= it.Target {
				there++
			}
		}
	}
	switch {
	case units == 0:
		return "Nothing is on the shelf yet."
	case played == 0:
		return fmt.Sprintf("None of %d units has been played yet.", units)
	}
	return fmt.Sprintf("%d of %d units played, %d of them clean at some tempo, %d at their target; %d never touched.", played, units, clean, there, units-played)
}

// NeckText answers where on the neck notes fail.
func (p *Progress) NeckText() string {
	if len(p.Neck) == 0 {
		return "No take has been marked yet: record one, and this fills."
	}
	worst := p.Neck[0]
	rate := func(s SpotCount) float64 { return (float64(s.Misses) + 10*p.Average) / (float64(s.Tries) + 10) }
	for _, s := range p.Neck {
		if rate(s) > rate(worst) {
			worst = s
		}
	}
	if worst.Misses == 0 {
		return "No marked note has failed yet."
	}
	return fmt.Sprintf("%.0f %% of all marked notes fail; most at string %d, fret %d (%d of %d).", 100*p.Average, worst.String, worst.Fret, worst.Misses, worst.Tries)
}

// MovesText answers which moves fail.
func (p *Progress) MovesText() string {
	switch {
	case len(p.Neck) == 0:
		return "No take has been marked yet."
	case len(p.Weak) == 0:
		return "No move fails more often than your average, as far as can be told yet."
	}
	w := p.Weak[0]
	return fmt.Sprintf("Most surely %s: %d of %d, against %.0f %% on average.", w.Move, w.Misses, w.Tries, 100*p.Average)
}

// Minutes returns how many minutes were practised from one day to another, both
// included.
func (p *Progress) Minutes(from, to string) (minutes int) {
	seconds := 0.0
	for _, d := range p.Days {
		if d.Day >= from && d.Day <= to {
			seconds += d.Seconds
		}
	}
	return int(seconds/60 + 0.5)
}

// MinutesText answers how long was practised.
func (p *Progress) MinutesText() string {
	day, err := time.Parse(DayLayout, p.Day)
	if err != nil || len(p.Days) == 0 {
		return "Nothing has been logged yet."
	}
	week := p.Minutes(Day(day.AddDate(0, 0, -6)), p.Day)
	return fmt.Sprintf("%d minutes in the last seven days, %d in the last four weeks, %d in all.", week, p.Minutes(Day(day.AddDate(0, 0, -27)), p.Day), p.Minutes("", p.Day))
}

// AskedText answers how well the neck is known.
func (p *Progress) AskedText() string {
	asked, right, seconds := 0, 0, 0.0
	for _, a := range p.Asked {
		asked += a.Asked
		right += a.Right
		seconds += a.Seconds * float64(a.Right)
	}
	if asked == 0 {
		return "No question has been answered yet."
	}
	return fmt.Sprintf("%d of %d answers right, in %.1f seconds in the mean.", right, asked, seconds/max(1, float64(right)))
}

// WriteCSV writes the numbers of all pictures as one table.
func (p *Progress) WriteCSV(w io.Writer) error {
	c := csv.NewWriter(w)
	rows := [][]string{{"picture", "title", "key", "string", "fret", "day", "value", "of"}}
	number := func(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
	for _, it := range p.Items {
		for _, u := range it.Units {
			rows = append(rows, []string{"fastest clean tempo", it.Title, u.Key, "", strconv.Itoa(u.Fret), "", number(u.Fastest), number(it.Target)})
		}
	}
	for _, s := range p.Neck {
		rows = append(rows, []string{"misses on the neck", "", "", strconv.Itoa(s.String), strconv.Itoa(s.Fret), "", strconv.Itoa(s.Misses), strconv.Itoa(s.Tries)})
	}
	for _, m := range p.Weak {
		rows = append(rows, []string{"misses of a weak move", m.Move, "", "", "", "", strconv.Itoa(m.Misses), strconv.Itoa(m.Tries)})
	}
	for _, d := range p.Days {
		rows = append(rows, []string{"minutes", "", "", "", "", d.Day, strconv.FormatFloat(d.Seconds/60, 'f', 1, 64), ""})
	}
	for _, a := range p.Asked {
		rows = append(rows, []string{"right answers: " + string(a.Kind), "", "", strconv.Itoa(a.String), strconv.Itoa(a.Fret), "", strconv.Itoa(a.Right), strconv.Itoa(a.Asked)})
	}
	for _, t := range p.Tempo {
		for _, run := range t.Runs {
			rows = append(rows, []string{"tempo: " + run.Went.String(), t.Title, "", "", "", run.Day, number(run.Tempo), number(t.Target)})
		}
	}
	if err := c.WriteAll(rows); err != nil {
		return err
	}
	return c.Error()
}
