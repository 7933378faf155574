package main

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"

	"heddle/audio"
	"heddle/exercise"
	"heddle/hear"
	"heddle/pitch"
	"heddle/practice"
	"heddle/practice/store"
)

// logCommand keeps the log.
type logCommand struct {
	List   logListCommand   `cmd:"" default:"withargs" help:"List what was played, newest first; the same as heddle log alone."`
	Add    logAddCommand    `cmd:"" help:"Log that an item was played."`
	Strike logStrikeCommand `cmd:"" help:"Strike out a mistaken entry; it stays in the log and counts for nothing."`
	Send   logSendCommand   `cmd:"" help:"Write the log to a file."`
	Take   logTakeCommand   `cmd:"" help:"Add the log of another folder (JSON) or one kept elsewhere (CSV)."`
}

type logListCommand struct {
	dataFlag `embed:""`
	Item     int64 `help:"Only runs of this item." placeholder:"ID"`
	Most     int   `help:"How many at most. Default: 40." placeholder:"40"`
	All      bool  `help:"List all of them."`
	JSON     bool  `name:"json" help:"Print everything as JSON."`
}

// A runRow is a run as JSON lists it.
type runRow struct {
	Run     int64           `json:"run"`
	Item    int64           `json:"item"`
	Title   string          `json:"title"`
	Key     string          `json:"key"`
	Fret    int             `json:"fret"`
	At      time.Time       `json:"at"`
	Minutes float64         `json:"minutes"`
	Tempo   float64         `json:"tempo"`
	Went    practice.Went   `json:"went"`
	Marks   *practice.Marks `json:"marks"`
	Take    string          `json:"take"`
	Struck  bool            `json:"struck"`
}

// Run lists runs.
func (c *logListCommand) Run(ctx context.Context, s streams, now clock) error {
	return c.with(ctx, s, now, func(_ *store.SQLite, mine store.Store) error {
		items, err := mine.Items(ctx, true)
		if err != nil {
			return err
		}
		titles := make(map[int64]string)
		for _, it := range items {
			titles[it.ID] = it.Title
		}
		most := cmp.Or(max(0, c.Most), 40)
		if c.All {
			most = 0
		}
		runs, err := mine.Runs(ctx, store.Which{Item: c.Item, Most: most, Marks: c.JSON})
		if err != nil {
			return err
		}
		rows := []runRow{}
		for _, r := range runs {
			rows = append(rows, runRow{r.ID, r.Unit.Item, titles[r.Unit.Item], r.Unit.Key, r.Unit.Fret, r.At, r.Seconds / 60, r.Tempo, r.Went, r.Marks, r.Take, r.Struck})
		}
		if c.JSON {
			return printJSON(s.out, rows)
		}
		for _, r := range rows {
			struck := ""
			if r.Struck {
				struck = "  struck out"
			}
			fmt.Fprintf(s.out, "%5d  %s  %s  %s at %3.0f  %4.1f min  %s%s\n", r.Run, r.At.In(now().Location()).Format("2006-01-02 15:04"), pad(r.Title, 30), pad(practice.Unit{Key: r.Key, Fret: r.Fret}.Words(), 12), r.Tempo, r.Minutes, r.Went, struck)
		}
		return nil
	})
}

type logAddCommand struct {
	ID       int64 `arg:"" help:"The item's number."`
	dataFlag `embed:""`
	Tempo    float64 `help:"The tempo it was played at. Default: that of the take, or the next one due." placeholder:"92"`
	Went     string  `help:"How it went: fell apart, shaky, clean or relaxed." placeholder:"clean"`
	Take     string  `help:"A recording to mark: it then says how it went." placeholder:"FILE.wav"`
	Key      string  `help:"The key it was played in. Default: the item's own." placeholder:"C"`
	Fret     string  `help:"Where the first finger was. Default: the same placement in that key." placeholder:"8"`
	Minutes  float64 `help:"How long it was played. Default: as long as the take, or 3." placeholder:"3"`
	At       string  `help:"When it began. Default: now." placeholder:"2026-11-26T19:30:00+01:00"`
	JSON     bool    `name:"json" help:"Print the run's number as JSON, once it is on the disk."`
}

// Run adds a run.
func (c *logAddCommand) Run(ctx context.Context, s streams, now clock) error {
	if (c.Went == "") == (c.Take == "") {
		return &pitch.InputError{What: "went", Value: c.Went, Want: "one of fell apart, shaky, clean and relaxed, or --take with a recording to mark"}
	}
	return c.with(ctx, s, now, func(_ *store.SQLite, mine store.Store) error {
		it, err := mine.Item(ctx, c.ID)
		if err != nil {
			return none(err, "item", c.ID)
		}
		run, err := c.run(ctx, s.in, mine, it, now())
		if err != nil {
			return err
		}
		ids, err := mine.Add(ctx, run)
		if err != nil {
			return err
		}
		if c.JSON {
			return printJSON(s.out, struct {
				Run int64 `json:"run"`
			}{ids[0]})
		}
		_, err = fmt.Fprintf(s.out, "%d  %s, %s at %.0f: %s\n", ids[0], it.Title, run.Unit.Words(), run.Tempo, run.Went)
		return err
	})
}

func (c *logAddCommand) run(ctx context.Context, in io.Reader, mine store.Store, it practice.Item, now time.Time) (r practice.Run, err error) {
	if r.Unit, err = practice.UnitOf(it, c.Key, c.Fret); err != nil {
		return r, err
	}
	r.At, r.Tempo, r.Seconds = now, c.Tempo, c.Minutes*60
	if c.At != "" {
		if r.At, err = time.Parse(time.RFC3339, c.At); err != nil {
			return r, &pitch.InputError{What: "at", Value: c.At, Want: "a time such as 2026-11-26T19:30:00+01:00"}
		}
	}
	if c.Take != "" {
		if err := c.mark(ctx, in, &r, it); err != nil {
			return r, err
		}
	} else if r.Went, err = practice.ParseWent(strings.ToLower(c.Went)); err != nil {
		return r, err
	}
	if r.Seconds == 0 {
		r.Seconds = 180
	}
	if r.Tempo == 0 {
		if r.Tempo, err = nextTempo(ctx, mine, it, r.Unit); err != nil {
			return r, err
		}
	}
	return r, r.Check(now)
}

// mark marks the recording and takes from it how the run went.
func (c *logAddCommand) mark(ctx context.Context, in io.Reader, r *practice.Run, it practice.Item) error {
	spec, err := r.Unit.Spec(it.Spec)
	if err != nil {
		return err
	}
	if r.Tempo > 0 {
		spec.Tempo = r.Tempo
	}
	ex, err := exercise.Build(spec)
	if err != nil {
		return err
	}
	file, done, err := openInput("take", c.Take, in)
	if err != nil {
		return err
	}
	defer done()
	source, err := audio.DecodeAny(ctx, file)
	if err != nil {
		return err
	}
	report, err := hear.MarkTake(ctx, source, ex, hear.TakeOptions{})
	if err != nil {
		return err
	}
	r.Fill(ex, report, source.LengthS)
	return nil
}

// nextTempo is the tempo that a unit is to be played at.
func nextTempo(ctx context.Context, mine store.Store, it practice.Item, u practice.Unit) (float64, error) {
	record, err := mine.Record(ctx)
	if err != nil {
		return 0, err
	}
	for _, s := range record.Standings {
		if s.Unit == u {
			return s.Next(it.Target), nil
		}
	}
	return practice.FirstTempo(it.Target), nil
}

type logStrikeCommand struct {
	Run_     int64 `arg:"" name:"run" help:"The run's number."`
	dataFlag `embed:""`
}

// Run strikes a run out.
func (c *logStrikeCommand) Run(ctx context.Context, s streams, now clock) error {
	return c.with(ctx, s, now, func(_ *store.SQLite, mine store.Store) error {
		return none(mine.Strike(ctx, c.Run_), "run", c.Run_)
	})
}

type logSendCommand struct {
	dataFlag `embed:""`
	Output   string `short:"o" required:"" help:"The file to write: .csv for a spreadsheet, .json for another folder." placeholder:"FILE"`
}

// Run writes the log.
func (c *logSendCommand) Run(ctx context.Context, s streams, now clock) error {
	return c.with(ctx, s, now, func(_ *store.SQLite, mine store.Store) error {
		items, err := mine.Items(ctx, true)
		if err != nil {
			return err
		}
		runs, err := mine.Runs(ctx, store.Which{Marks: true})
		if err != nil {
			return err
		}
		return writeSent(ctx, s, c.Output, practice.Send(items, runs))
	})
}

type logTakeCommand struct {
	File     string `arg:"" help:"A .json file that log send wrote, or a .csv file with the columns date, title, minutes and tempo."`
	dataFlag `embed:""`
	JSON     bool `name:"json" help:"Print what was and was not imported as JSON."`
}

// Help comes before the flags.
func (logTakeCommand) Help() string {
	return `A CSV file names its columns in its first row: date, title, minutes, tempo, and
if it has them went, key and fret. Titles are those of items on the shelf. Rows
that can't be imported are listed with the reason. Importing a file twice does
no harm.`
}

// Run imports.
func (c *logTakeCommand) Run(ctx context.Context, s streams, now clock) error {
	file, done, err := openInput("file", c.File, s.in)
	if err != nil {
		return err
	}
	defer done()
	return c.with(ctx, s, now, func(_ *store.SQLite, mine store.Store) error {
		if !strings.HasSuffix(strings.ToLower(c.File), ".csv") {
			sent, err := practice.ReadSent(file, now())
			if err != nil {
				return err
			}
			return takeSent(ctx, s, mine, sent)
		}
		items, err := mine.Items(ctx, false)
		if err != nil {
			return err
		}
		runs, refused, err := practice.ReadLog(file, items, now())
		if err != nil {
			return err
		}
		if _, err := mine.Add(ctx, runs...); err != nil {
			return err
		}
		if c.JSON {
			return printJSON(s.out, struct {
				Imported int                `json:"imported"`
				Refused  []practice.Refused `json:"refused"`
			}{len(runs), append([]practice.Refused{}, refused...)})
		}
		fmt.Fprintf(s.out, "%d rows imported, %d not.\n", len(runs), len(refused))
		for _, r := range refused {
			fmt.Fprintln(s.out, "  row", strconv.Itoa(r.Row)+":", r.Why)
		}
		return nil
	})
}
