package store

import (
	"context"
	"crypto/rand"
	"database/sql"
	"errors"
	"strings"
	"time"

	"heddle/exercise"
	"heddle/practice"
)

// owned is the store of one owner.
type owned struct {
	*SQLite
	owner string
}

// newUID makes a name that no other row in any folder has.
func newUID() string { return rand.Text() }

// moment returns a time in the form of the columns.
func moment(at time.Time) (ms int64, zone int) {
	_, zone = at.Zone()
	return at.UnixMilli(), zone
}

// maybe returns a time for a column that may be empty.
func maybe(at time.Time) any {
	if at.IsZero() {
		return nil
	}
	return at.UnixMilli()
}

// timeOf reads a time from its columns.
func timeOf(ms int64, zone int) time.Time {
	at := time.UnixMilli(ms).UTC()
	if zone != 0 {
		at = at.In(time.FixedZone("", zone))
	}
	return at
}

// timeOr reads a time from a column that may be empty.
func timeOr(ms sql.NullInt64, zone int) time.Time {
	if !ms.Valid {
		return time.Time{}
	}
	return timeOf(ms.Int64, zone)
}

const itemColumns = "item.id, item.uid, item.kind, item.title, item.spec, item.tags, item.note, item.origin, item.scope, item.target, item.made, item.zone, item.dropped"

func scanItem(scan func(...any) error) (it practice.Item, err error) {
	var spec, tags, kind, scope string
	var made int64
	var zone int
	var dropped sql.NullInt64
	if err := scan(&it.ID, &it.UID, &kind, &it.Title, &spec, &tags, &it.Note, &it.From, &scope, &it.Target, &made, &zone, &dropped); err != nil {
		return it, err
	}
	it.Kind, it.Scope, it.Tags = practice.Kind(kind), practice.Scope(scope), strings.Fields(tags)
	it.Made, it.Dropped = timeOf(made, zone), timeOr(dropped, 0)
	it.Spec, err = exercise.ParseText(spec)
	return it, err
}

// queryer is what items are read through: the database or a transaction.
type queryer interface {
	QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error)
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
}

func (o *owned) items(ctx context.Context, query string, args ...any) (list []practice.Item, err error) {
	err = each(ctx, o.db, func(scan func(...any) error) error {
		it, err := scanItem(scan)
		list = append(list, it)
		return err
	}, query, args...)
	return list, o.failed(err)
}

// each calls read for each row.
func each(ctx context.Context, q queryer, read func(scan func(...any) error) error, query string, args ...any) error {
	rows, err := q.QueryContext(ctx, query, args...)
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		if err := read(rows.Scan); err != nil {
			return err
		}
	}
	return rows.Err()
}

func (o *owned) Items(ctx context.Context, dropped bool) ([]practice.Item, error) {
	return o.items(ctx, "SELECT "+itemColumns+" FROM item WHERE owner = ? AND (dropped IS NULL OR ?) ORDER BY id", o.owner, dropped)
}

func (o *owned) Item(ctx context.Context, id int64) (practice.Item, error) {
	it, err := o.item(ctx, o.db, id)
	return it, o.failed(err)
}

func (o *owned) item(ctx context.Context, q queryer, id int64) (practice.Item, error) {
	it, err := scanItem(q.QueryRowContext(ctx, "SELECT "+itemColumns+" FROM item WHERE owner = ? AND id = ?", o.owner, id).Scan)
	if errors.Is(err, sql.ErrNoRows) {
		err = ErrNone
	}
	return it, err
}

func (o *owned) Find(ctx context.Context, words string) ([]practice.Item, error) {
	var terms []string
	for _, word := range strings.Fields(words) {
		terms = append(terms, `"`+strings.ReplaceAll(word, `"`, `""`)+`"*`)
	}
	if len(terms) == 0 {
		return o.Items(ctx, false)
	}
	return o.items(ctx, "SELECT "+itemColumns+" FROM item_words JOIN item ON item.id = item_words.rowid WHERE item_words MATCH ? AND owner = ? AND dropped IS NULL ORDER BY rank, item.id",
		strings.Join(terms, " "), o.owner)
}

func (o *owned) Keep(ctx context.Context, item practice.Item) (is practice.Item, kept bool, err error) {
	if err := item.Check(); err != nil {
		return item, false, err
	}
	units, err := practice.Units(item.Spec, item.Scope)
	if err != nil {
		return item, false, err
	}
	if item.UID == "" {
		item.UID = newUID()
	}
	err = o.write(ctx, func(tx *sql.Tx) error {
		var id int64
		err := tx.QueryRowContext(ctx, "SELECT id FROM item WHERE owner = ? AND uid = ?", o.owner, item.UID).Scan(&id)
		if err == nil {
			item, err = o.item(ctx, tx, id)
			return err
		}
		if !errors.Is(err, sql.ErrNoRows) {
			return err
		}
		made, zone := moment(item.Made)
		result, err := tx.ExecContext(ctx, "INSERT INTO item (owner, uid, kind, title, spec, tags, note, origin, scope, target, made, zone, dropped) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
			o.owner, item.UID, string(item.Kind), item.Title, item.Spec.Text(), strings.Join(item.Tags, " "), item.Note, item.From, string(item.Scope), item.Target, made, zone, maybe(item.Dropped))
		if err != nil {
			return err
		}
		if item.ID, err = result.LastInsertId(); err != nil {
			return err
		}
		kept = true
		return o.place(ctx, tx, item.ID, units)
	})
	return item, kept, err
}

// place gives an item its units in order; others that it has are outside of its
// scope from now on.
func (o *owned) place(ctx context.Context, tx *sql.Tx, item int64, units []practice.Unit) error {
	if _, err := tx.ExecContext(ctx, "UPDATE unit SET position = -1 WHERE item = ?", item); err != nil {
		return err
	}
	for i, u := range units {
		_, err := tx.ExecContext(ctx, "INSERT INTO unit (owner, item, position, key, fret) VALUES (?, ?, ?, ?, ?) ON CONFLICT (item, key, fret) DO UPDATE SET position = excluded.position",
			o.owner, item, i, u.Key, u.Fret)
		if err != nil {
			return err
		}
	}
	return nil
}

func (o *owned) Change(ctx context.Context, item practice.Item) error {
	if err := item.Check(); err != nil {
		return err
	}
	return o.write(ctx, func(tx *sql.Tx) error {
		was, err := o.item(ctx, tx, item.ID)
		if err != nil {
			return err
		}
		_, err = tx.ExecContext(ctx, "UPDATE item SET title = ?, tags = ?, note = ?, scope = ?, target = ? WHERE id = ?",
			item.Title, strings.Join(item.Tags, " "), item.Note, string(item.Scope), item.Target, item.ID)
		if err != nil || was.Scope == item.Scope && was.Target == item.Target {
			return err
		}
		units, err := practice.Units(was.Spec, item.Scope)
		if err != nil {
			return err
		}
		if err := o.place(ctx, tx, item.ID, units); err != nil {
			return err
		}
		return o.refold(ctx, tx, item.ID)
	})
}

func (o *owned) Drop(ctx context.Context, id int64, at time.Time) error {
	return o.setDropped(ctx, id, at.UnixMilli())
}

func (o *owned) Restore(ctx context.Context, id int64) error { return o.setDropped(ctx, id, nil) }

func (o *owned) setDropped(ctx context.Context, id int64, at any) error {
	return o.write(ctx, func(tx *sql.Tx) error {
		result, err := tx.ExecContext(ctx, "UPDATE item SET dropped = ? WHERE owner = ? AND id = ?", at, o.owner, id)
		if err != nil {
			return err
		}
		if n, err := result.RowsAffected(); err != nil || n == 0 {
			return errors.Join(err, ErrNone)
		}
		return nil
	})
}
