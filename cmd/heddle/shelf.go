package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"heddle/deliver"
	"heddle/exercise"
	"heddle/practice"
	"heddle/practice/store"
)

// shelfCommand keeps items.
type shelfCommand struct {
	List    shelfListCommand    `cmd:"" default:"withargs" help:"List the shelf; the same as heddle shelf alone."`
	Keep    shelfKeepCommand    `cmd:"" help:"Keep a line, and print its number."`
	Show    shelfShowCommand    `cmd:"" help:"Show an item with its keys and places."`
	Find    shelfFindCommand    `cmd:"" help:"Find items by words in title, tags and note."`
	Tag     shelfTagCommand     `cmd:"" help:"Set an item's tags."`
	Drop    shelfDropCommand    `cmd:"" help:"Take an item off the shelf; its log stays."`
	Restore shelfRestoreCommand `cmd:"" help:"Put a dropped item back."`
	Send    shelfSendCommand    `cmd:"" help:"Write items to a file for another machine or person."`
	Take    shelfTakeCommand    `cmd:"" help:"Put the items of a file on the shelf."`
}

// A shelfRow is an item as JSON lists it.
type shelfRow struct {
	ID    int64         `json:"id"`
	Title string        `json:"title"`
	Kind  practice.Kind `json:"kind"`
	Tags  []string      `json:"tags"`
	Spec  exercise.Spec `json:"spec"`
	Made  time.Time     `json:"made"`
	Units int           `json:"units"`
	Due   int           `json:"due"` // units due by the end of today
	Note  string        `json:"note"`
	Scope string        `json:"scope"`
	Goal  float64       `json:"target"`
}

// printItems lists items as text or JSON.
func printItems(ctx context.Context, out io.Writer, mine store.Store, items []practice.Item, now time.Time, asJSON bool) error {
	record, err := mine.Record(ctx)
	if err != nil {
		return err
	}
	rows := []shelfRow{}
	for _, it := range items {
		units, due := record.Due(it.ID, now)
		rows = append(rows, shelfRow{it.ID, it.Title, it.Kind, append([]string{}, it.Tags...), it.Spec, it.Made, units, due, it.Note, string(it.Scope), it.Target})
	}
	if asJSON {
		return printJSON(out, rows)
	}
	if len(rows) == 0 {
		_, err := fmt.Fprintln(out, `Nothing here. Keep a line with: heddle shelf keep "A title" --home "G minor pentatonic"`)
		return err
	}
	for _, r := range rows {
		tags := ""
		if len(r.Tags) > 0 {
			tags = "  [" + strings.Join(r.Tags, " ") + "]"
		}
		fmt.Fprintf(out, "%4d  %s %s%s%s\n", r.ID, pad(r.Title, 40), pad(unitsText(r.Units), 10), dueText(r.Due), tags)
	}
	return nil
}

func unitsText(n int) string {
	if n == 1 {
		return "1 unit"
	}
	return fmt.Sprintf("%d units", n)
}

func dueText(due int) string {
	if due == 0 {
		return ""
	}
	return fmt.Sprintf("%d due", due)
}

type shelfListCommand struct {
	dataFlag `embed:""`
	Dropped  bool `help:"Also list what was dropped."`
	JSON     bool `name:"json" help:"Print everything as JSON."`
}

// Run lists the shelf.
func (c *shelfListCommand) Run(ctx context.Context, s streams, now clock) error {
	return c.with(ctx, s, now, func(_ *store.SQLite, mine store.Store) error {
		items, err := mine.Items(ctx, c.Dropped)
		if err != nil {
			return err
		}
		return printItems(ctx, s.out, mine, items, now(), c.JSON)
	})
}

type shelfKeepCommand struct {
	Title     string `arg:"" help:"What to call it."`
	dataFlag  `embed:""`
	specFlags `embed:""`
	Kind      string   `help:"line, cell, phrase or solo. Default: what the words make." group:"output"`
	Tag       []string `help:"A tag. May be repeated." group:"output" sep:"none"`
	Note      string   `help:"A note to yourself." group:"output"`
	Scope     string   `help:"Where to practise it: one, common, keys, places or all. Default: one." group:"output"`
	Target    float64  `help:"The tempo to reach. Default: the line's own." placeholder:"120" group:"output"`
}

// Help comes before the flags.
func (shelfKeepCommand) Help() string {
	return `Keeps a line on the shelf, so that heddle today plans it:

  heddle shelf keep "Thursday's vamp" --home "G minor pentatonic" --superimpose "semitone up" --groups 3,3 --fret 10 --tempo 100 --scope keys

The scopes: one, this key in this place; common, the keys E, A, D, G and C in
this place; keys, all twelve keys in this place; places, all places in this key;
all, all places in all keys.`
}

// Run keeps it.
func (c *shelfKeepCommand) Run(ctx context.Context, s streams, flags given, now clock) error {
	spec, err := c.read(s.in, flags)
	if err != nil {
		return err
	}
	ex, err := exercise.Build(spec)
	if err != nil {
		return err
	}
	item := practice.Item{Kind: practice.Kind(c.Kind), Title: c.Title, Spec: ex.Spec, Tags: c.Tag, Note: c.Note, Made: now(), From: "the command line", Scope: practice.Scope(c.Scope), Target: c.Target}
	return c.with(ctx, s, now, func(_ *store.SQLite, mine store.Store) error {
		is, _, err := mine.Keep(ctx, item)
		if err != nil {
			return err
		}
		_, err = fmt.Fprintln(s.out, is.ID)
		return err
	})
}

type shelfShowCommand struct {
	ID       int64 `arg:"" help:"Its number."`
	dataFlag `embed:""`
	JSON     bool `name:"json" help:"Print everything as JSON."`
}

// A unitRow is a unit as JSON shows it.
type unitRow struct {
	Key     string  `json:"key"`
	Fret    int     `json:"fret"`
	Tempo   float64 `json:"tempo"`
	Fastest float64 `json:"fastest"`
	Runs    int     `json:"runs"`
	Due     string  `json:"due"`
}

// Run shows the item.
func (c *shelfShowCommand) Run(ctx context.Context, s streams, now clock) error {
	return c.with(ctx, s, now, func(_ *store.SQLite, mine store.Store) error {
		it, err := mine.Item(ctx, c.ID)
		if err != nil {
			return none(err, "item", c.ID)
		}
		record, err := mine.Record(ctx)
		if err != nil {
			return err
		}
		units := []unitRow{}
		for _, u := range record.Standings {
			if u.Item != it.ID {
				continue
			}
			row := unitRow{u.Key, u.Fret, u.Next(it.Target), u.Fastest, u.Runs, ""}
			if u.Reps > 0 {
				row.Due = practice.Day(u.Due.In(now().Location()))
			}
			units = append(units, row)
		}
		if c.JSON {
			total, due := record.Due(it.ID, now())
			return printJSON(s.out, struct {
				shelfRow
				Standing []unitRow `json:"standing"`
			}{shelfRow{it.ID, it.Title, it.Kind, append([]string{}, it.Tags...), it.Spec, it.Made, total, due, it.Note, string(it.Scope), it.Target}, units})
		}
		ex, err := exercise.Build(it.Spec)
		if err != nil {
			return err
		}
		fmt.Fprintf(s.out, "%s\n%s", it.Title, wrap(ex.Sentence, textWidth))
		if it.Note != "" {
			fmt.Fprint(s.out, wrap(it.Note, textWidth))
		}
		fmt.Fprintf(s.out, "\n key   fret  next  fastest clean  runs  due\n")
		for _, u := range units {
			fmt.Fprintf(s.out, " %s %5d %5.0f %14s %5d  %s\n", pad(u.Key, 4), u.Fret, u.Tempo, orDash(u.Fastest), u.Runs, u.Due)
		}
		return nil
	})
}

func orDash(tempo float64) string {
	if tempo == 0 {
		return "–"
	}
	return fmt.Sprintf("%.0f", tempo)
}

type shelfFindCommand struct {
	Words    []string `arg:"" help:"Words, or their beginnings."`
	dataFlag `embed:""`
	JSON     bool `name:"json" help:"Print everything as JSON."`
}

// Run finds items.
func (c *shelfFindCommand) Run(ctx context.Context, s streams, now clock) error {
	return c.with(ctx, s, now, func(_ *store.SQLite, mine store.Store) error {
		items, err := mine.Find(ctx, strings.Join(c.Words, " "))
		if err != nil {
			return err
		}
		return printItems(ctx, s.out, mine, items, now(), c.JSON)
	})
}

type shelfTagCommand struct {
	ID       int64    `arg:"" help:"Its number."`
	Tags     []string `arg:"" optional:"" help:"All of its tags; none to remove them."`
	dataFlag `embed:""`
}

// Run sets the tags.
func (c *shelfTagCommand) Run(ctx context.Context, s streams, now clock) error {
	return c.with(ctx, s, now, func(_ *store.SQLite, mine store.Store) error {
		it, err := mine.Item(ctx, c.ID)
		if err != nil {
			return none(err, "item", c.ID)
		}
		it.Tags = c.Tags
		return mine.Change(ctx, it)
	})
}

type shelfDropCommand struct {
	ID       int64 `arg:"" help:"Its number."`
	dataFlag `embed:""`
}

// Run drops the item.
func (c *shelfDropCommand) Run(ctx context.Context, s streams, now clock) error {
	return c.with(ctx, s, now, func(_ *store.SQLite, mine store.Store) error {
		if err := mine.Drop(ctx, c.ID, now()); err != nil {
			return none(err, "item", c.ID)
		}
		fmt.Fprintf(s.err, "dropped; heddle shelf restore %d puts it back\n", c.ID)
		return nil
	})
}

type shelfRestoreCommand struct {
	ID       int64 `arg:"" help:"Its number."`
	dataFlag `embed:""`
}

// Run puts the item back.
func (c *shelfRestoreCommand) Run(ctx context.Context, s streams, now clock) error {
	return c.with(ctx, s, now, func(_ *store.SQLite, mine store.Store) error {
		return none(mine.Restore(ctx, c.ID), "item", c.ID)
	})
}

type shelfSendCommand struct {
	IDs      []int64 `arg:"" optional:"" name:"id" help:"Their numbers. Default: all."`
	dataFlag `embed:""`
	Output   string `short:"o" required:"" help:"The file to write." placeholder:"FILE.json"`
}

// Run writes the file.
func (c *shelfSendCommand) Run(ctx context.Context, s streams, now clock) error {
	return c.with(ctx, s, now, func(_ *store.SQLite, mine store.Store) error {
		items, err := mine.Items(ctx, false)
		if err != nil {
			return err
		}
		for _, id := range c.IDs {
			if !slices.ContainsFunc(items, func(it practice.Item) bool { return it.ID == id }) {
				return none(store.ErrNone, "item", id)
			}
		}
		if len(c.IDs) > 0 {
			items = slices.DeleteFunc(items, func(it practice.Item) bool { return !slices.Contains(c.IDs, it.ID) })
		}
		return writeSent(ctx, s, c.Output, practice.Send(items, nil))
	})
}

// writeSent writes a file, as CSV where its name ends so.
func writeSent(ctx context.Context, s streams, name string, sent *practice.Sent) error {
	err := deliver.WriteFile(ctx, name, func(w io.Writer) error {
		if strings.HasSuffix(strings.ToLower(name), ".csv") {
			return sent.WriteCSV(w)
		}
		encoder := json.NewEncoder(w)
		encoder.SetIndent("", "  ")
		return encoder.Encode(sent)
	})
	if err == nil {
		fmt.Fprintln(s.err, "wrote", name)
	}
	return err
}

type shelfTakeCommand struct {
	File     string `arg:"" help:"A file that shelf send or log send wrote."`
	dataFlag `embed:""`
}

// Run puts the items on the shelf.
func (c *shelfTakeCommand) Run(ctx context.Context, s streams, now clock) error {
	file, done, err := openInput("file", c.File, s.in)
	if err != nil {
		return err
	}
	defer done()
	sent, err := practice.ReadSent(file, now())
	if err != nil {
		return err
	}
	sent.Runs = nil
	return c.with(ctx, s, now, func(_ *store.SQLite, mine store.Store) error {
		return takeSent(ctx, s, mine, sent)
	})
}

// takeSent keeps what a file holds and says how much of it is new.
func takeSent(ctx context.Context, s streams, mine store.Store, sent *practice.Sent) error {
	ids := make(map[string]int64)
	fresh := 0
	for _, it := range sent.Items {
		is, kept, err := mine.Keep(ctx, it.Item())
		if err != nil {
			return fmt.Errorf("%q: %w", it.Title, err)
		}
		if ids[it.UID] = is.ID; kept {
			fresh++
		}
	}
	var runs []practice.Run
	for _, r := range sent.Runs {
		runs = append(runs, r.Run(ids[r.Item]))
	}
	if _, err := mine.Add(ctx, runs...); err != nil {
		return err
	}
	said := fmt.Sprintf("%d of %d items are new", fresh, len(sent.Items))
	if len(runs) > 0 {
		said += fmt.Sprintf("; %d runs are in the log", len(runs))
	}
	_, err := fmt.Fprintln(s.out, said)
	return err
}
