package main

import (
	"bufio"
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"

	"heddle/deliver"
	"heddle/exercise"
	"heddle/practice"
	"heddle/practice/store"
)

// lines reads what a person types, line by line.
type lines struct{ *bufio.Scanner }

func newLines(in io.Reader) lines { return lines{bufio.NewScanner(in)} }

// next returns the next line, or io.EOF.
func (l lines) next() (string, error) {
	if !l.Scan() {
		return "", cmp.Or(l.Err(), io.EOF)
	}
	return strings.TrimSpace(l.Text()), nil
}

// A leader goes through a plan with a player.
type leader struct {
	streams
	mine   store.Store
	now    clock
	folder string // for sound files; empty to play them
	lines  lines
}

// errLeft says that the player left the plan.
var errLeft = errors.New("left")

// lead goes through the day's plan from where it was left. A plan that was begun
// stays as it is for the day.
func (l *leader) lead(ctx context.Context, record *practice.Record, asked practice.Asked) error {
	plan, done, err := l.mine.Begun(ctx, practice.Day(asked.Day))
	if errors.Is(err, store.ErrNone) || err == nil && done >= len(plan.Blocks) {
		done = 0
		if plan, err = practice.Today(record, asked); err == nil && len(plan.Blocks) > 0 {
			err = l.mine.Begin(ctx, plan, 0)
		}
	}
	if err != nil {
		return err
	}
	if len(plan.Blocks) == 0 {
		return printPlan(l.out, plan)
	}
	fmt.Fprint(l.out, wrap(cautions, textWidth)+wrap(modelNote, textWidth))
	if done > 0 {
		fmt.Fprintf(l.out, "Going on at block %d of %d.\n", done+1, len(plan.Blocks))
	}
	for i := done; i < len(plan.Blocks); i++ {
		fmt.Fprintf(l.out, "\n%d of %d: %s\n%s", i+1, len(plan.Blocks), blockTitle(plan.Blocks[i]), indent(wrap(plan.Blocks[i].Why, textWidth-5), "     "))
		err := l.block(ctx, record, plan.Blocks[i], i+1)
		switch {
		case errors.Is(err, errLeft), errors.Is(err, io.EOF):
			fmt.Fprintln(l.out, "Left here; heddle today --start goes on with this block.")
			return nil
		case err != nil:
			return err
		}
		if err := l.mine.Begin(ctx, plan, i+1); err != nil {
			return err
		}
	}
	fmt.Fprintln(l.out, "\nDone for today.")
	return nil
}

// block plays one block and asks how it went.
func (l *leader) block(ctx context.Context, record *practice.Record, b practice.Block, number int) error {
	unit, played := b.Unit()
	switch {
	case b.Kind == practice.Quiz:
		return l.quiz(ctx, record, number)
	case !played:
		fmt.Fprint(l.out, "Press Enter when it is over, or q to leave: ")
		return l.goOn()
	}
	ex, err := exercise.Build(*b.Spec)
	if err != nil {
		return err
	}
	fmt.Fprint(l.out, wrap(ex.Sentence, textWidth)+tabText(ex))
	stop, err := l.sound(ctx, ex, b.Minutes, number)
	if err != nil {
		return err
	}
	defer stop()
	began := l.now()
	went, err := l.askWent()
	if err != nil || went == 0 {
		return err
	}
	seconds := l.now().Sub(began).Seconds()
	if planned := float64(b.Minutes) * 60; seconds < 10 || seconds > 2*planned {
		seconds = planned // answered at once or much later: the plan is a better guess
	}
	run := practice.Run{Unit: unit, At: began, Seconds: seconds, Tempo: b.Tempo, Went: went}
	if err := run.Check(l.now()); err != nil {
		return err
	}
	_, err = l.mine.Add(ctx, run)
	return err
}

func (l *leader) goOn() error {
	text, err := l.lines.next()
	if err == nil && text == "q" {
		err = errLeft
	}
	return err
}

// askWent asks for one of the four words; 0 says that the block was left out.
func (l *leader) askWent() (practice.Went, error) {
	for {
		fmt.Fprint(l.out, "How did it go? 1 fell apart, 2 shaky, 3 clean, 4 relaxed; s leaves it out, q leaves the plan: ")
		text, err := l.lines.next()
		switch {
		case err != nil:
			return 0, err
		case text == "q":
			return 0, errLeft
		case text == "s":
			return 0, nil
		}
		if n, err := strconv.Atoi(text); err == nil && n >= int(practice.FellApart) && n <= int(practice.Relaxed) {
			return practice.Went(n), nil
		}
		if went, err := practice.ParseWent(text); err == nil {
			return went, nil
		}
	}
}

// quiz asks a few questions about what is on the shelf.
func (l *leader) quiz(ctx context.Context, record *practice.Record, seed int) error {
	exercises, err := exercisesOf(record, 0)
	if err != nil {
		return err
	}
	const inABlock = 6
	questions := practice.Ask(exercises, record.Topics, inABlock, l.now(), uint64(l.now().YearDay()*100+seed))
	_, err = askAll(ctx, l.streams, l.lines, l.mine, l.now, questions)
	return err
}

// players are programs that play a sound file; the first one installed is used.
var players = [][]string{{"pw-play"}, {"paplay"}, {"ffplay", "-nodisp", "-autoexit", "-loglevel", "quiet"}, {"aplay", "-q"}, {"afplay"}}

// sound plays click and vamp for a block, or writes them to a file. Stop ends
// the playing.
func (l *leader) sound(ctx context.Context, ex *exercise.Exercise, minutes, number int) (stop func(), err error) {
	stop = func() {}
	player := installed(players)
	folder := l.folder
	if folder == "" && player == nil {
		fmt.Fprintln(l.out, "No program that plays sound was found; --sound DIR writes click and vamp to files.")
		return stop, nil
	}
	if folder == "" {
		if folder, err = os.MkdirTemp("", "heddle-today"); err != nil {
			return stop, err
		}
		stop = func() { os.RemoveAll(folder) }
	} else if err := os.MkdirAll(folder, 0o777); err != nil {
		return stop, err
	}
	name := filepath.Join(folder, fmt.Sprintf("block-%d.wav", number))
	if err := writeVamp(ctx, name, ex, minutes); err != nil {
		stop()
		return func() {}, err
	}
	if l.folder != "" {
		fmt.Fprintln(l.out, "wrote", name)
		return stop, nil
	}
	playing := exec.CommandContext(ctx, player[0], append(player[1:], name)...)
	if playing.Start() != nil {
		stop()
		return func() {}, nil
	}
	remove := stop
	return func() {
		_ = playing.Process.Kill()
		_ = playing.Wait()
		remove()
	}, nil
}

// writeVamp writes the line over its vamp, as often as fills the minutes.
func writeVamp(ctx context.Context, name string, ex *exercise.Exercise, minutes int) error {
	loops := strconv.Itoa(practice.Loops(ex, minutes))
	choices, err := deliver.Choose(map[string][]string{"loops": {loops}, "bits": {"16"}, "rate": {"44100"}})
	if err != nil {
		return err
	}
	format, err := deliver.ForFile(name)
	if err != nil {
		return err
	}
	return deliver.WriteFile(ctx, name, func(w io.Writer) error { return format.Write(ctx, w, ex, choices, nil) })
}

// installed returns the first of the programs that is there.
func installed(programs [][]string) []string {
	for _, p := range programs {
		if _, err := exec.LookPath(p[0]); err == nil {
			return p
		}
	}
	return nil
}
