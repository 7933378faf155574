package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"

	"heddle/practice"
)

func (o *owned) Add(ctx context.Context, runs ...practice.Run) (ids []int64, err error) {
	ids = make([]int64, len(runs))
	err = o.write(ctx, func(tx *sql.Tx) error {
		added := make(map[int64][]practice.Run) // by item
		days, moves := make(map[string]practice.DayTotal), practice.Tally{}
		for i, r := range runs {
			known, err := o.insert(ctx, tx, &r)
			if err != nil {
				return err
			}
			if ids[i] = r.ID; known || r.Struck {
				continue
			}
			added[r.Unit.Item] = append(added[r.Unit.Item], r)
			count(days, r, 1)
			moves.Add(r.Marks, 1)
		}
		for item, list := range added {
			if err := o.fold(ctx, tx, item, list); err != nil {
				return err
			}
		}
		return o.sum(ctx, tx, days, moves)
	})
	if err != nil {
		return nil, err
	}
	return ids, nil
}

// insert writes a run and sets its ids; known says that it was there already.
func (o *owned) insert(ctx context.Context, tx *sql.Tx, r *practice.Run) (known bool, err error) {
	if r.UID == "" {
		r.UID = newUID()
	} else {
		err := tx.QueryRowContext(ctx, "SELECT id FROM run WHERE owner = ? AND uid = ?", o.owner, r.UID).Scan(&r.ID)
		if err == nil || !errors.Is(err, sql.ErrNoRows) {
			return err == nil, err
		}
	}
	unit, err := o.unit(ctx, tx, r.Unit)
	if err != nil {
		return false, err
	}
	var marks any
	if r.Marks != nil {
		text, err := json.Marshal(r.Marks)
		if err != nil {
			return false, err
		}
		marks = string(text)
	}
	at, zone := moment(r.At)
	result, err := tx.ExecContext(ctx, "INSERT INTO run (owner, uid, item, unit, at, zone, seconds, tempo, went, marks, take, struck) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
		o.owner, r.UID, r.Unit.Item, unit, at, zone, r.Seconds, r.Tempo, int(r.Went), marks, r.Take, r.Struck)
	if err != nil {
		return false, err
	}
	r.At = timeOf(at, zone) // as it will be read
	r.ID, err = result.LastInsertId()
	return false, err
}

// unit returns the id of a unit, which is added to its item if necessary.
func (o *owned) unit(ctx context.Context, tx *sql.Tx, u practice.Unit) (id int64, err error) {
	err = tx.QueryRowContext(ctx, "SELECT id FROM unit WHERE owner = ? AND item = ? AND key = ? AND fret = ?", o.owner, u.Item, u.Key, u.Fret).Scan(&id)
	if !errors.Is(err, sql.ErrNoRows) {
		return id, err
	}
	if _, err := o.item(ctx, tx, u.Item); err != nil {
		return 0, err
	}
	result, err := tx.ExecContext(ctx, "INSERT INTO unit (owner, item, position, key, fret) VALUES (?, ?, -1, ?, ?)", o.owner, u.Item, u.Key, u.Fret)
	if err != nil {
		return 0, err
	}
	return result.LastInsertId()
}

// fold brings the standings of an item up to date. One run that is the newest
// is added to them; otherwise they are worked out again from all runs.
func (o *owned) fold(ctx context.Context, tx *sql.Tx, item int64, added []practice.Run) error {
	standings, err := o.standings(ctx, tx, "item = ?", item)
	if err != nil {
		return err
	}
	if len(added) > 1 {
		return o.refold(ctx, tx, item)
	}
	for _, s := range standings {
		if s.Played.After(added[0].At) {
			return o.refold(ctx, tx, item)
		}
	}
	is, err := o.item(ctx, tx, item)
	if err != nil {
		return err
	}
	for _, i := range practice.Add(standings, added[0], is.Target) {
		if err := saveStanding(ctx, tx, standings[i]); err != nil {
			return err
		}
	}
	return nil
}

// refold works the standings of an item out again from all its runs.
func (o *owned) refold(ctx context.Context, tx *sql.Tx, item int64) error {
	is, err := o.item(ctx, tx, item)
	if err != nil {
		return err
	}
	standings, err := o.standings(ctx, tx, "item = ?", item)
	if err != nil {
		return err
	}
	units := make([]practice.Unit, len(standings))
	for i, s := range standings {
		units[i] = s.Unit
	}
	runs, err := o.runs(ctx, tx, "run.item = ? ORDER BY run.at, run.id", false, item)
	if err != nil {
		return err
	}
	for _, s := range practice.Refold(units, runs, is.Target) {
		if err := saveStanding(ctx, tx, s); err != nil {
			return err
		}
	}
	return nil
}

// count adds a run to the totals of its day, or takes it away.
func count(days map[string]practice.DayTotal, r practice.Run, times int) {
	day := practice.Day(r.At)
	d := days[day]
	d.Seconds += float64(times) * r.Seconds
	d.Runs += times
	days[day] = d
}

// sum adds to the totals by day and the counts of moves.
func (o *owned) sum(ctx context.Context, tx *sql.Tx, days map[string]practice.DayTotal, moves practice.Tally) error {
	for day, d := range days {
		_, err := tx.ExecContext(ctx, "INSERT INTO day (owner, day, seconds, runs) VALUES (?, ?, ?, ?) ON CONFLICT (owner, day) DO UPDATE SET seconds = seconds + excluded.seconds, runs = runs + excluded.runs",
			o.owner, day, d.Seconds, d.Runs)
		if err != nil {
			return err
		}
	}
	for m, c := range moves {
		_, err := tx.ExecContext(ctx, "INSERT INTO move (owner, kind, value, tries, misses) VALUES (?, ?, ?, ?, ?) ON CONFLICT (owner, kind, value) DO UPDATE SET tries = tries + excluded.tries, misses = misses + excluded.misses",
			o.owner, string(m.Kind), m.Value, c.Tries, c.Misses)
		if err != nil {
			return err
		}
	}
	return nil
}

func (o *owned) Strike(ctx context.Context, id int64) error {
	return o.write(ctx, func(tx *sql.Tx) error {
		runs, err := o.runs(ctx, tx, "run.owner = ? AND run.id = ?", true, o.owner, id)
		if err != nil {
			return err
		}
		if len(runs) == 0 {
			return ErrNone
		}
		r := runs[0]
		if r.Struck {
			return nil
		}
		if _, err := tx.ExecContext(ctx, "UPDATE run SET struck = 1 WHERE id = ?", id); err != nil {
			return err
		}
		days, moves := make(map[string]practice.DayTotal), practice.Tally{}
		count(days, r, -1)
		moves.Add(r.Marks, -1)
		if err := o.sum(ctx, tx, days, moves); err != nil {
			return err
		}
		return o.refold(ctx, tx, r.Unit.Item)
	})
}

func (o *owned) Runs(ctx context.Context, which Which) ([]practice.Run, error) {
	where, args := "run.owner = ?", []any{o.owner}
	if which.Item != 0 {
		where, args = where+" AND run.item = ?", append(args, which.Item)
	}
	where += " ORDER BY run.at DESC, run.id DESC"
	if which.Most > 0 {
		where, args = where+" LIMIT ?", append(args, which.Most)
	}
	runs, err := o.runs(ctx, o.db, where, which.Marks, args...)
	return runs, o.failed(err)
}

func (o *owned) runs(ctx context.Context, q queryer, where string, withMarks bool, args ...any) (list []practice.Run, err error) {
	marks := "NULL"
	if withMarks {
		marks = "run.marks"
	}
	err = each(ctx, q, func(scan func(...any) error) error {
		var r practice.Run
		var at int64
		var zone, went int
		var text sql.NullString
		if err := scan(&r.ID, &r.UID, &r.Unit.Item, &r.Unit.Key, &r.Unit.Fret, &at, &zone, &r.Seconds, &r.Tempo, &went, &r.Take, &r.Struck, &text); err != nil {
			return err
		}
		r.At, r.Went = timeOf(at, zone), practice.Went(went)
		if text.Valid {
			r.Marks = new(practice.Marks)
			if err := json.Unmarshal([]byte(text.String), r.Marks); err != nil {
				return err
			}
		}
		list = append(list, r)
		return nil
	}, "SELECT run.id, run.uid, run.item, unit.key, unit.fret, run.at, run.zone, run.seconds, run.tempo, run.went, run.take, run.struck, "+marks+" FROM run JOIN unit ON unit.id = run.unit WHERE "+where, args...)
	return list, err
}
