package store

import (
	"context"
	"database/sql"

	"heddle/practice"
)

// standings reads the units that a condition holds for.
func (o *owned) standings(ctx context.Context, q queryer, where string, args ...any) (list []practice.Standing, err error) {
	err = each(ctx, q, func(scan func(...any) error) error {
		var s practice.Standing
		var stairs practice.Staircase
		var zone, latest int
		var last, due, played sql.NullInt64
		if err := scan(&s.Item, &s.Key, &s.Fret, &stairs.Tempo, &stairs.InARow, &stairs.Rising, &stairs.Changes, &stairs.Reversals, &stairs.Fastest,
			&s.Stability, &s.Difficulty, &s.Reps, &s.Lapses, &last, &due, &s.Runs, &s.Clean, &s.Seconds, &latest, &played, &zone); err != nil {
			return err
		}
		s.Staircase = stairs
		s.Last, s.Due, s.Played, s.Latest = timeOr(last, 0), timeOr(due, 0), timeOr(played, zone), practice.Went(latest)
		list = append(list, s)
		return nil
	}, `SELECT item, key, fret, tempo, in_a_row, rising, changes, reversals, fastest,
		stability, difficulty, reps, lapses, last, due, runs, clean, seconds, latest, played, zone
		FROM unit WHERE `+where+" ORDER BY item, position < 0, position, id", args...)
	return list, err
}

func saveStanding(ctx context.Context, tx *sql.Tx, s practice.Standing) error {
	_, zone := s.Played.Zone()
	_, err := tx.ExecContext(ctx, `UPDATE unit SET tempo = ?, in_a_row = ?, rising = ?, changes = ?, reversals = ?, fastest = ?,
		stability = ?, difficulty = ?, reps = ?, lapses = ?, last = ?, due = ?, runs = ?, clean = ?, seconds = ?, latest = ?, played = ?, zone = ?
		WHERE item = ? AND key = ? AND fret = ?`,
		s.Tempo, s.InARow, s.Rising, s.Changes, s.Reversals, s.Fastest,
		s.Stability, s.Difficulty, s.Reps, s.Lapses, maybe(s.Last), maybe(s.Due), s.Runs, s.Clean, s.Seconds, int(s.Latest), maybe(s.Played), zone,
		s.Item, s.Key, s.Fret)
	return err
}

func (o *owned) Record(ctx context.Context) (r *practice.Record, err error) {
	r = &practice.Record{Moves: practice.Tally{}}
	if r.Items, err = o.Items(ctx, false); err != nil {
		return nil, err
	}
	if r.Standings, err = o.standings(ctx, o.db, "owner = ? AND (position >= 0 OR runs > 0)", o.owner); err != nil {
		return nil, o.failed(err)
	}
	err = each(ctx, o.db, func(scan func(...any) error) error {
		var m practice.Move
		var c practice.Count
		if err := scan((*string)(&m.Kind), &m.Value, &c.Tries, &c.Misses); err != nil {
			return err
		}
		r.Moves[m] = c
		return nil
	}, "SELECT kind, value, tries, misses FROM move WHERE owner = ? AND tries > 0", o.owner)
	if err != nil {
		return nil, o.failed(err)
	}
	err = each(ctx, o.db, func(scan func(...any) error) error {
		var d practice.DayTotal
		if err := scan(&d.Day, &d.Seconds, &d.Runs); err != nil {
			return err
		}
		r.Days = append(r.Days, d)
		return nil
	}, "SELECT day, seconds, runs FROM day WHERE owner = ? AND runs > 0 ORDER BY day", o.owner)
	if err != nil {
		return nil, o.failed(err)
	}
	if r.Topics, err = o.topics(ctx, o.db); err != nil {
		return nil, o.failed(err)
	}
	return r, nil
}
