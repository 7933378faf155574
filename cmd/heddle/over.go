package main

import (
	"fmt"
	"io"
	"strings"

	"heddle/exercise"
	"heddle/pitch"
)

// overCommand ranks the transpositions of a scale over a chord.
type overCommand struct {
	Chord string   `arg:"" help:"A chord symbol, such as Gm7."`
	Type  []string `name:"scale" help:"The type of scale to lay over it. Default: home's own. May be repeated." placeholder:"\"minor pentatonic\"" group:"harmony" sep:"none"`
	JSON  bool     `name:"json" help:"Print every row as JSON; with several scales, an array of tables." group:"output"`
}

// Help comes before the flags.
func (overCommand) Help() string {
	return `Lays a scale over the chord in all twelve keys, and says of each what its notes are
to the chord, what it makes together with home, and how far the hand moves to it. Most
inside comes first: fewest outside notes, then fewest avoid notes, then least roughness.

  heddle over Gm7
  heddle over A7 --home "A blues" --scale "minor pentatonic" --scale "whole tone"

Without --home, home is the likeliest scale on the chord's root.`
}

// Run ranks and prints.
func (c *overCommand) Run(s streams, flags given) error {
	spec := exercise.Spec{Chord: c.Chord}
	if err := flags.apply(&spec); err != nil {
		return err
	}
	overlays, err := exercise.Over(spec, c.Type)
	if err != nil {
		return err
	}
	switch {
	case c.JSON && len(overlays) == 1:
		return printJSON(s.out, overlays[0])
	case c.JSON:
		return printJSON(s.out, overlays)
	}
	for i, o := range overlays {
		if i > 0 {
			fmt.Fprintln(s.out)
		}
		if _, err := io.WriteString(s.out, overText(o)); err != nil {
			return err
		}
	}
	return nil
}

// overText is one table, three lines for each row.
func overText(o exercise.Overlay) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s over %s, from home %s. Most inside first.\n", o.Type.Symbol(), o.Chord.Display(o.Naming), o.Naming.Scale(o.Home))
	for i, r := range o.Rows {
		notes := make([]string, len(r.Scale.Notes))
		for j, n := range r.Scale.Notes {
			notes[j] = o.Naming.Name(n) + " " + r.Degrees[j].Symbol()
		}
		hand := "no placement on this neck"
		if r.Near != nil {
			hand = fmt.Sprintf("hand moves %.0f mm", r.Near.ShiftMM)
		}
		fmt.Fprintf(&b, "\n%2d  %s, %s, on the %s: %s\n    %s\n    roughness %.2f; %d shared with home; together %s; %s\n",
			i+1, o.Naming.Name(r.Scale.Root), r.Interval, r.FromChord.Symbol(), exercise.CountFunctions(r.Functions),
			strings.Join(notes, ", "), r.Roughness, r.Shared, togetherName(r.Collection, o.Naming), hand)
	}
	return b.String()
}

// togetherName is a collection's set class and its first name, if it has one.
func togetherName(c pitch.Collection, naming pitch.Naming) string {
	if known := c.KnownAs(naming); len(known) > 0 {
		return c.Forte + ", " + known[0]
	}
	return c.Forte
}
