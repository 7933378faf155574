package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"strings"

	"heddle/exercise"
)

// outputFlags say where an exercise goes.
type outputFlags struct {
	JSON       bool     `name:"json" help:"Print everything as JSON." group:"output"`
	Output     []string `short:"o" help:"Write it to a file, as its ending says: ${endings}. May be given again." placeholder:"FILE" group:"output" sep:"none"`
	pageFlags  `embed:""`
	soundFlags `embed:""`
}

// lineCommand builds a line and shows it.
type lineCommand struct {
	specFlags   `embed:""`
	outputFlags `embed:""`
}

// Help is what stands between the first line of `heddle line --help` and the
// flags.
func (lineCommand) Help() string {
	return `A line takes a few notes from each scale in turn, one group after another.
Say what you want in words; only --home must be given.

  heddle line --home "G minor pentatonic"
      the scale by itself, falling, in twos

  heddle line --home "G minor pentatonic" --superimpose "semitone up" --groups 3,3 --fret 10
      three notes of G minor, three of A flat minor, with the first finger at fret 10

  heddle line --home "A blues" --superimpose tritone --direction up --land "third" -o line.json
      rising, led to the third of the chord, and kept in a file

Put words with spaces between double quotes. A value that can't be read is
answered with what would be.`
}

// Run builds the exercise and shows it.
func (c *lineCommand) Run(ctx context.Context, s streams) error {
	spec, err := c.read(s.in)
	if err != nil {
		return err
	}
	ex, err := exercise.Build(spec)
	if err != nil {
		return err
	}
	return show(ctx, ex, c.outputFlags, s)
}

// show writes the exercise to the files named, and prints it unless only files
// were asked for.
func show(ctx context.Context, ex *exercise.Exercise, f outputFlags, s streams) error {
	if err := (job{ex, f, s.err}).writeFiles(ctx); err != nil {
		return err
	}
	switch {
	case f.JSON:
		return printJSON(s.out, ex)
	case len(f.Output) > 0:
		return nil
	}
	_, err := io.WriteString(s.out, lineText(ex))
	return err
}

// printJSON prints v indented, with a newline at the end.
func printJSON(w io.Writer, v any) error {
	text, err := json.MarshalIndent(v, "", "  ")
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(w, "%s\n", text)
	return err
}

// lineText is the line as a player reads it in a terminal.
func lineText(ex *exercise.Exercise) string {
	var b strings.Builder
	for _, part := range []string{
		wrap(ex.Sentence, textWidth), groupsText(ex), tabText(ex), againstText(ex),
		togetherText(ex), cycleText(ex), landingText(ex), handText(ex),
	} {
		if part != "" {
			b.WriteString(part + "\n")
		}
	}
	return strings.TrimSuffix(b.String(), "\n")
}

// textWidth is how many columns a text may fill.
const textWidth = 80

// wrap breaks text at spaces so that no line is wider than width, where its
// words allow that.
func wrap(text string, width int) string {
	var b strings.Builder
	column := 0
	for i, word := range strings.Fields(text) {
		size := len([]rune(word))
		switch {
		case i == 0:
		case column+1+size > width:
			b.WriteByte('\n')
			column = 0
		default:
			b.WriteByte(' ')
			column++
		}
		b.WriteString(word)
		column += size
	}
	return b.String() + "\n"
}
