package main

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"strings"

	"heddle/practice"
	"heddle/practice/store"
)

// todayCommand plans a day.
type todayCommand struct {
	dataFlag `embed:""`
	Minutes  int    `help:"How many minutes there are, from 5 to 240. Default: 30." placeholder:"30"`
	Day      string `help:"The day to plan. Default: today." placeholder:"2026-11-26"`
	Seed     uint64 `help:"Another number settles ties in another way. Default: 0." placeholder:"1"`
	NoGuitar bool   `help:"Questions only, for a day without a guitar."`
	Start    bool   `help:"Go through the plan here: click and vamp sound where a player is installed, and each block is logged in one of four words."`
	Sound    string `help:"With --start: write click and vamp into this folder instead of playing them." placeholder:"DIR"`
	JSON     bool   `name:"json" help:"Print the plan as JSON."`
}

// Help comes before the flags.
func (todayCommand) Help() string {
	return `Plans what to play from the shelf and the log: a warm-up, what is due, moves that
fail, something new, questions, and something free, in turns of about three
minutes. Each block says why it is there.

` + wrap(modelNote, 88) + "\n" + wrap(cautions, 88)
}

// Run prints the plan or leads through it.
func (c *todayCommand) Run(ctx context.Context, s streams, now clock) error {
	day, err := readDay(c.Day, now())
	if err != nil {
		return err
	}
	asked := practice.Asked{Day: day, Minutes: cmp.Or(c.Minutes, practice.UsualPlan), Seed: c.Seed, NoGuitar: c.NoGuitar}
	return c.with(ctx, s, now, func(_ *store.SQLite, mine store.Store) error {
		record, err := mine.Record(ctx)
		if err != nil {
			return err
		}
		if c.Start {
			l := leader{streams: s, mine: mine, now: now, folder: c.Sound, lines: newLines(s.in)}
			return l.lead(ctx, record, asked)
		}
		plan, err := practice.Today(record, asked)
		if err != nil {
			return err
		}
		if c.JSON {
			return printJSON(s.out, plan)
		}
		return printPlan(s.out, plan)
	})
}

// printPlan writes the plan for a reader.
func printPlan(out io.Writer, plan *practice.Plan) error {
	var b strings.Builder
	if len(plan.Blocks) == 0 {
		b.WriteString("Nothing is on the shelf yet. Keep a line with: heddle shelf keep \"A title\" --home \"G minor pentatonic\"\n")
	} else {
		fmt.Fprintf(&b, "%s, %d minutes\n\n", plan.Day, plan.Minutes)
	}
	at := 0
	for _, block := range plan.Blocks {
		fmt.Fprintf(&b, "%3d  %s\n", at, blockTitle(block))
		b.WriteString(indent(wrap(block.Why, textWidth-5), "     "))
		at += block.Minutes
	}
	if len(plan.Blocks) > 0 {
		b.WriteString("\n" + wrap(modelNote, textWidth) + wrap(cautions, textWidth))
	}
	_, err := io.WriteString(out, b.String())
	return err
}

// blockTitle is the first line of a block.
func blockTitle(b practice.Block) string {
	title := fmt.Sprintf("%d min  %s", b.Minutes, pad(b.Kind.Words(), 11))
	u, ok := b.Unit()
	if !ok {
		return strings.TrimRight(title, " ")
	}
	title += fmt.Sprintf("%s in %s, at %.0f", b.Title, u.Words(), b.Tempo)
	if b.Kind == practice.WeakOne && b.Spec.Cut != "" {
		title += ", notes " + b.Spec.Cut
	}
	return title
}

// indent puts something before each line.
func indent(text, before string) string {
	return before + strings.ReplaceAll(strings.TrimSuffix(text, "\n"), "\n", "\n"+before) + "\n"
}
