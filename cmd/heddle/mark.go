package main

import (
	"context"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"heddle/audio"
	"heddle/exercise"
	"heddle/hear"
	"heddle/pitch"
)

// markCommand marks a recorded take against an exercise.
type markCommand struct {
	Recording string `arg:"" help:"A recording of one guitar, at most ten minutes: WAV, FLAC or MP3, and through ffmpeg also M4A, Ogg, Opus or WebM; - reads standard input."`

	specFlags `embed:""`
	ClickAt   *float64 `help:"When the click's first bar line falls in the recording, in seconds. Timing is then marked against a click at --tempo. Without it, tempo and start are found from the take." placeholder:"2.4" group:"time"`
	JSON      bool     `name:"json" help:"Print everything as JSON." group:"output"`
}

// Help is the text before the flags.
func (markCommand) Help() string {
	return `Listens to a recording of the exercise and marks each note: right, wrong or
missed, how early or late, and how far out of tune.

  heddle mark take.wav --home "G minor pentatonic" --superimpose "semitone up" --groups 3,3 --fret 10

The recording is not stored, and nothing is sent anywhere.`
}

// Run listens, marks and prints.
func (c *markCommand) Run(ctx context.Context, s streams, flags given) error {
	if c.Spec != nil && *c.Spec == "-" && c.Recording == "-" {
		return &pitch.InputError{What: "spec", Value: "-", Want: "a file, since the recording comes from standard input"}
	}
	if err := c.checkClick(); err != nil {
		return err
	}
	spec, err := c.read(s.in, flags)
	if err != nil {
		return err
	}
	ex, err := exercise.Build(spec)
	if err != nil {
		return err
	}
	report, err := c.mark(ctx, ex, s.in)
	if err != nil {
		return err
	}
	if c.JSON {
		return printJSON(s.out, report)
	}
	_, err = io.WriteString(s.out, reportText(ex, report))
	return err
}

// checkClick refuses a click that is outside of any recording. The bar line may
// fall before the recording starts.
func (c *markCommand) checkClick() error {
	if c.ClickAt == nil || math.Abs(*c.ClickAt) <= audio.LongestS {
		return nil
	}
	return &pitch.InputError{What: "click-at", Value: strconv.FormatFloat(*c.ClickAt, 'g', -1, 64), Want: fmt.Sprintf("seconds from the start of the recording, from −%.0[1]f to %.0[1]f", audio.LongestS)}
}

func (c *markCommand) mark(ctx context.Context, ex *exercise.Exercise, in io.Reader) (*hear.Report, error) {
	in, done, err := openInput("recording", c.Recording, in)
	if err != nil {
		return nil, err
	}
	defer done()
	source, err := audio.DecodeAny(ctx, in)
	if err != nil {
		return nil, err
	}
	opts := hear.TakeOptions{}
	if c.ClickAt != nil {
		opts.Clicked, opts.ClickS = true, *c.ClickAt
	}
	return hear.MarkTake(ctx, source, ex, opts)
}

// reportText is a report for a player: what to act on first, then note by note.
func reportText(ex *exercise.Exercise, r *hear.Report) string {
	var b strings.Builder
	sum := r.Summary
	fmt.Fprintf(&b, "%d of %d notes right, %d wrong, %d missed, %d extra.\n", sum.Right, len(r.Marks), sum.Wrong, sum.Missed, sum.Extra)
	for _, fact := range r.Facts() {
		b.WriteString(wrap(fact, textWidth))
	}
	b.WriteByte('\n')
	if delay := r.DelayText(); delay != "" {
		b.WriteString(wrap(delay, textWidth))
	}
	for _, advice := range r.Advice {
		b.WriteString(wrap(advice, textWidth))
	}
	b.WriteString("\n note  written  string fret  verdict  timing  cents\n")
	for _, m := range r.Marks {
		n := ex.Notes[m.Index]
		fmt.Fprintf(&b, "%5d  %s %4d %6d   %s %s\n", m.Index+1, pad(ex.Naming.Pitch(n.Pitch), 8), n.String, n.Fret, pad(string(m.Verdict), 7), playedText(m))
	}
	return b.String()
}

// playedText is the timing and the tuning of a note that was played.
func playedText(m hear.NoteMark) string {
	if m.Verdict == hear.Missed {
		return ""
	}
	return fmt.Sprintf("%+5.0f ms %+5.0f", m.TimingMS, m.Cents)
}
