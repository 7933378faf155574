package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"heddle/exercise"
	"heddle/practice/store"
)

// lineCommand builds a line and shows it.
type lineCommand struct {
	specFlags   `embed:""`
	outputFlags `embed:""`
	dataFlag    `embed:""`
}

// Help comes between the first line of `heddle line --help` and the flags.
func (lineCommand) Help() string {
	return `A line takes a few notes from each scale in turn, one group after another.
Say what you want in words; only --home is required.

  heddle line --home "G minor pentatonic"
      the scale by itself, falling, in twos

  heddle line --home "G minor pentatonic" --superimpose "semitone up" --groups 3,3 --fret 10
      three notes of G minor, three of A flat minor, with the first finger at fret 10

  heddle line --home "A blues" --superimpose tritone --direction up --land "third" -o line.json
      rising, led to the third of the chord, and written to a file

Put double quotes around words with spaces. If heddle can't read a value, it
says what it accepts.`
}

// Run builds the exercise and shows it.
func (c *lineCommand) Run(ctx context.Context, s streams, flags given, now clock) error {
	spec, err := c.read(s.in, flags)
	if err != nil {
		return err
	}
	if err := c.cells(ctx, s, now, spec.Cell); err != nil {
		return err
	}
	ex, err := exercise.Build(spec)
	if err != nil {
		return err
	}
	for _, time := range [...]struct {
		name       string
		asked, got float64
	}{{"gap", spec.Gap, ex.Spec.Gap}, {"pickup", spec.Pickup, ex.Spec.Pickup}} {
		if math.Abs(time.asked-time.got) > 0.002 { // quarter notes; what rounding to 1/960 may do
			fmt.Fprintf(s.err, "note: a %s of %g does not fit %ss, so it is %g\n", time.name, time.asked, ex.Spec.Value, time.got)
		}
	}
	return show(ctx, ex, c.outputFlags, flags, s)
}

// cells puts the shelf's own cells in the place of their numbers.
func (c *lineCommand) cells(ctx context.Context, s streams, now clock, cells []string) error {
	for i, text := range cells {
		id, err := strconv.ParseInt(text, 10, 64)
		if err != nil {
			continue // a cell as text
		}
		err = c.with(ctx, s, now, func(_ *store.SQLite, mine store.Store) error {
			it, err := mine.Item(ctx, id)
			cells[i] = it.Spec.Query()
			return none(err, "cell", id)
		})
		if err != nil {
			return err
		}
	}
	return nil
}

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
		togetherText(ex), wovenText(ex), cycleText(ex), landingText(ex), handText(ex),
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
