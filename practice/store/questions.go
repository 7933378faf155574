package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"

	"heddle/practice"
)

func (o *owned) topics(ctx context.Context, q queryer) (list []practice.Topic, err error) {
	err = each(ctx, q, func(scan func(...any) error) error {
		var t practice.Topic
		var last, due sql.NullInt64
		if err := scan((*string)(&t.Kind), &t.Pair, &t.Region, &t.Stability, &t.Difficulty, &t.Reps, &t.Lapses, &last, &due, &t.Asked, &t.Right, &t.Known, &t.Seconds); err != nil {
			return err
		}
		t.Last, t.Due = timeOr(last, 0), timeOr(due, 0)
		list = append(list, t)
		return nil
	}, "SELECT kind, pair, region, stability, difficulty, reps, lapses, last, due, asked, correct, known, seconds FROM topic WHERE owner = ? ORDER BY id", o.owner)
	return list, err
}

func (o *owned) Answer(ctx context.Context, a Answer) error {
	return o.write(ctx, func(tx *sql.Tx) error {
		topics, err := o.topics(ctx, tx)
		if err != nil {
			return err
		}
		t := practice.Topic{Kind: a.Topic.Kind, Pair: a.Topic.Pair, Region: a.Topic.Region}
		for _, known := range topics {
			if known.Same(t) {
				t = known
			}
		}
		t = t.After(a.At, a.Right, a.Seconds, a.Within)
		var id int64
		err = tx.QueryRowContext(ctx, `INSERT INTO topic (owner, kind, pair, region, stability, difficulty, reps, lapses, last, due, asked, correct, known, seconds)
			VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
			ON CONFLICT (owner, kind, pair, region) DO UPDATE SET stability = excluded.stability, difficulty = excluded.difficulty, reps = excluded.reps, lapses = excluded.lapses,
			last = excluded.last, due = excluded.due, asked = excluded.asked, correct = excluded.correct, known = excluded.known, seconds = excluded.seconds RETURNING id`,
			o.owner, string(t.Kind), t.Pair, t.Region, t.Stability, t.Difficulty, t.Reps, t.Lapses, maybe(t.Last), maybe(t.Due), t.Asked, t.Right, t.Known, t.Seconds).Scan(&id)
		if err != nil {
			return err
		}
		at, zone := moment(a.At)
		_, err = tx.ExecContext(ctx, "INSERT INTO answer (owner, topic, at, zone, string, fret, correct, seconds) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
			o.owner, id, at, zone, a.Spot.String, a.Spot.Fret, a.Right, a.Seconds)
		return err
	})
}

func (o *owned) Asked(ctx context.Context) (list []practice.SpotTotal, err error) {
	err = each(ctx, o.db, func(scan func(...any) error) error {
		var s practice.SpotTotal
		if err := scan((*string)(&s.Kind), &s.Spot.String, &s.Spot.Fret, &s.Asked, &s.Right, &s.Seconds); err != nil {
			return err
		}
		list = append(list, s)
		return nil
	}, `SELECT topic.kind, string, fret, count(*), sum(answer.correct), sum(CASE WHEN answer.correct THEN answer.seconds ELSE 0 END)
		FROM answer JOIN topic ON topic.id = answer.topic WHERE answer.owner = ? GROUP BY topic.kind, string, fret ORDER BY topic.kind, string, fret`, o.owner)
	return list, o.failed(err)
}

func (o *owned) Begin(ctx context.Context, plan *practice.Plan, done int) error {
	text, err := json.Marshal(plan)
	if err != nil {
		return err
	}
	return o.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, "INSERT INTO plan (owner, day, plan, done) VALUES (?, ?, ?, ?) ON CONFLICT (owner, day) DO UPDATE SET plan = excluded.plan, done = excluded.done",
			o.owner, plan.Day, string(text), done)
		return err
	})
}

func (o *owned) Begun(ctx context.Context, day string) (plan *practice.Plan, done int, err error) {
	var text string
	err = o.db.QueryRowContext(ctx, "SELECT plan, done FROM plan WHERE owner = ? AND day = ?", o.owner, day).Scan(&text, &done)
	if errors.Is(err, sql.ErrNoRows) {
		return nil, 0, ErrNone
	}
	if err != nil {
		return nil, 0, o.failed(err)
	}
	plan = new(practice.Plan)
	return plan, done, json.Unmarshal([]byte(text), plan)
}
