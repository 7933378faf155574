package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"heddle/deliver"
	"heddle/pitch"
	"heddle/practice"
	"heddle/practice/chart"
	"heddle/practice/store"
	"heddle/score/surface"
)

// progressCommand shows what the log adds up to.
type progressCommand struct {
	dataFlag `embed:""`
	Output   []string `short:"o" help:"Write it to a file: svg, png or pdf for the pictures, csv or json for the numbers. May be repeated." placeholder:"FILE" sep:"none"`
	Year     int      `help:"One A4 page of a year, with -o FILE.pdf, .svg or .png." placeholder:"2026"`
	Day      string   `help:"As of this day. Default: today." placeholder:"2026-11-26"`
	JSON     bool     `name:"json" help:"Print the numbers as JSON."`
}

// progressDPI is the resolution of a PNG.
const progressDPI = 200

// Run prints or writes it.
func (c *progressCommand) Run(ctx context.Context, s streams, now clock) error {
	day, err := readDay(c.Day, now())
	if err != nil {
		return err
	}
	writers := make([]func(io.Writer, *practice.Progress) error, len(c.Output))
	for i, name := range c.Output {
		if writers[i], err = c.writer(name); err != nil {
			return err
		}
	}
	if c.Year != 0 && (len(c.Output) == 0 || c.Year < 1970 || c.Year > 9999) {
		return &pitch.InputError{What: "year", Value: fmt.Sprint(c.Year), Want: "a year such as 2026, and a file to write with -o"}
	}
	return c.with(ctx, s, now, func(_ *store.SQLite, mine store.Store) error {
		p, err := store.Progress(ctx, mine, day)
		if err != nil {
			return err
		}
		for i, name := range c.Output {
			if err := deliver.WriteFile(ctx, name, func(w io.Writer) error { return writers[i](w, p) }); err != nil {
				return err
			}
			fmt.Fprintln(s.err, "wrote", name)
		}
		switch {
		case c.JSON:
			return printJSON(s.out, p)
		case len(c.Output) > 0:
			return nil
		}
		for _, picture := range chart.Pictures(p) {
			fmt.Fprintf(s.out, "%s\n%s", picture.Question, indent(wrap(picture.Answer, textWidth-2), "  "))
		}
		_, err = fmt.Fprint(s.out, "\n"+wrap(modelNote, textWidth))
		return err
	})
}

// writer returns what writes a file of a name.
func (c *progressCommand) writer(name string) (func(io.Writer, *practice.Progress) error, error) {
	draw := chart.Sheet
	if c.Year != 0 {
		draw = func(p *practice.Progress) surface.Drawing { return chart.Year(p, c.Year) }
	}
	switch ending := strings.ToLower(filepath.Ext(name)); {
	case ending == ".svg":
		return func(w io.Writer, p *practice.Progress) error { return surface.WriteSVG(w, draw(p)) }, nil
	case ending == ".png":
		return func(w io.Writer, p *practice.Progress) error { return surface.WritePNG(w, draw(p), progressDPI) }, nil
	case ending == ".pdf":
		return func(w io.Writer, p *practice.Progress) error { return surface.WritePDF(w, []surface.Drawing{draw(p)}) }, nil
	case ending == ".csv" && c.Year == 0:
		return func(w io.Writer, p *practice.Progress) error { return p.WriteCSV(w) }, nil
	case ending == ".json" && c.Year == 0:
		return func(w io.Writer, p *practice.Progress) error { return json.NewEncoder(w).Encode(p) }, nil
	}
	return nil, &pitch.InputError{What: "output", Value: name, Want: "a file name ending in svg, png, pdf, csv or json; a year has svg, png and pdf"}
}
