package practising

import (
	"cmp"
	"errors"
	"net/http"
	"strconv"

	"heddle/bench/site"
	"heddle/pitch"
	"heddle/practice"
	"heddle/practice/store"
)

// A blockRow is a block of the plan in the list.
type blockRow struct {
	practice.Block
	Number int
	At     int // minutes from the start
	Words  string
	Done   bool
	Now    bool
}

// serveToday shows the plan that was begun, or one to begin.
func (ps *Pages) serveToday(w http.ResponseWriter, r *http.Request, mine store.Store) error {
	minutes, err := strconv.Atoi(cmp.Or(r.URL.Query().Get("minutes"), strconv.Itoa(practice.UsualPlan)))
	if err != nil {
		return &pitch.InputError{What: "minutes", Value: r.URL.Query().Get("minutes"), Want: "from 5 to 240"}
	}
	noGuitar := r.URL.Query().Has("no-guitar")
	plan, done, err := mine.Begun(r.Context(), practice.Day(ps.now()))
	begun := err == nil && done < len(plan.Blocks) && !r.URL.Query().Has("minutes")
	if !begun {
		if err != nil && !errors.Is(err, store.ErrNone) {
			return err
		}
		finished := err == nil && done >= len(plan.Blocks)
		if plan, err = ps.plan(r, mine, minutes, noGuitar); err != nil {
			return err
		}
		done = -1
		return ps.showToday(w, r, plan, done, finished, noGuitar)
	}
	return ps.showToday(w, r, plan, done, false, noGuitar)
}

func (ps *Pages) plan(r *http.Request, mine store.Store, minutes int, noGuitar bool) (*practice.Plan, error) {
	record, err := mine.Record(r.Context())
	if err != nil {
		return nil, err
	}
	return practice.Today(record, practice.Asked{Day: ps.now(), Minutes: minutes, NoGuitar: noGuitar})
}

// showToday writes the page; done is how many blocks are over, −1 before the
// plan is begun.
func (ps *Pages) showToday(w http.ResponseWriter, r *http.Request, plan *practice.Plan, done int, finished, noGuitar bool) error {
	p := struct {
		page
		Plan               *practice.Plan
		Blocks             []blockRow
		Begun              bool
		Finished, NoGuitar bool
		Block              *blockRow
		Playing            *playing
		Words              []string
		Began              int64
		Lengths            []int
	}{page: ps.page("Today", "today"), Plan: plan, Begun: done >= 0, Finished: finished, NoGuitar: noGuitar, Words: practice.WentWords(), Began: ps.now().UnixMilli(), Lengths: []int{10, 15, 20, 30, 45, 60, 90}}
	at := 0
	for i, b := range plan.Blocks {
		words := ""
		if u, ok := b.Unit(); ok {
			words = b.Title + " in " + u.Words() + ", at " + site.Decimal(b.Tempo)
		}
		p.Blocks = append(p.Blocks, blockRow{b, i + 1, at, words, i < done, i == done})
		at += b.Minutes
	}
	if done >= 0 && done < len(p.Blocks) {
		p.Block = &p.Blocks[done]
		if p.Block.Spec != nil {
			shown, err := play(*p.Block.Spec, p.Block.Minutes, site.RoomOf(r).Music)
			if err != nil {
				return err
			}
			p.Playing = &shown
		}
	}
	ps.site.Write(w, r, "today.html", http.StatusOK, p)
	return nil
}

// serveBegin begins a plan.
func (ps *Pages) serveBegin(w http.ResponseWriter, r *http.Request, mine store.Store) error {
	values, err := form(r)
	if err != nil {
		return err
	}
	minutes, err := strconv.Atoi(values.Get("minutes"))
	if err != nil {
		return &pitch.InputError{What: "minutes", Value: values.Get("minutes"), Want: "from 5 to 240"}
	}
	plan, err := ps.plan(r, mine, minutes, values.Has("no-guitar"))
	if err != nil {
		return err
	}
	if err := mine.Begin(r.Context(), plan, 0); err != nil {
		return err
	}
	return see(w, r, "/today")
}

// serveDone ends a block: with one of the four words it becomes a run, without
// one it is left out. The number of the block is in the form, so that one sent
// twice does not end two.
func (ps *Pages) serveDone(w http.ResponseWriter, r *http.Request, mine store.Store) error {
	values, err := form(r)
	if err != nil {
		return err
	}
	plan, done, err := mine.Begun(r.Context(), practice.Day(ps.now()))
	if err != nil {
		return err
	}
	if number, err := strconv.Atoi(values.Get("block")); err != nil || number != done+1 || number > len(plan.Blocks) {
		return see(w, r, "/today")
	}
	block := plan.Blocks[done]
	if unit, ok := block.Unit(); ok && values.Get("went") != "" {
		values.Set("tempo", site.Decimal(block.Tempo))
		values.Set("minutes", strconv.Itoa(block.Minutes))
		run, err := ps.run(unit, values)
		if err != nil {
			return err
		}
		if _, err := mine.Add(r.Context(), run); err != nil {
			return err
		}
	}
	if err := mine.Begin(r.Context(), plan, done+1); err != nil {
		return err
	}
	return see(w, r, "/today")
}
