package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"

	"heddle/exercise"
	"heddle/pitch"
	"heddle/practice"
	"heddle/practice/store"
)

// askCommand asks questions.
type askCommand struct {
	dataFlag  `embed:""`
	specFlags `embed:""`
	Item      int64  `help:"Ask about one item of the shelf." placeholder:"ID"`
	Questions int    `help:"How many questions, from 1 to 500. Default: 10." placeholder:"10"`
	Seed      uint64 `help:"Another number asks other questions. Default: by the time of day, or 0 with --json." placeholder:"1"`
	JSON      bool   `name:"json" help:"Print the questions with their answers instead of asking them." group:"output"`
}

// Help comes before the flags.
func (askCommand) Help() string {
	return `Asks about the neck as an exercise uses it: names and places of notes, which of
the scales holds a note, what it is to the chord, what comes next in the line.
Without --home or --item, it asks about what is on the shelf. Answers within the
time shown count as known; what is not known is asked more often.

  heddle ask --home "G minor pentatonic" --superimpose "semitone up" --fret 10`
}

// mostQuestions bounds one sitting.
const mostQuestions = 500

// Run asks, or prints the questions.
func (c *askCommand) Run(ctx context.Context, s streams, flags given, now clock) error {
	count := cmp.Or(c.Questions, 10)
	if count < 1 || count > mostQuestions {
		return &pitch.InputError{What: "questions", Value: fmt.Sprint(c.Questions), Want: "from 1 to 500"}
	}
	spec, err := c.read(s.in, flags)
	if err != nil {
		return err
	}
	seed := c.Seed
	if seed == 0 && !c.JSON {
		seed = uint64(now().UnixNano())
	}
	return c.with(ctx, s, now, func(_ *store.SQLite, mine store.Store) error {
		record, err := mine.Record(ctx)
		if err != nil {
			return err
		}
		exercises, err := c.exercises(record, spec)
		if err != nil {
			return err
		}
		questions := practice.Ask(exercises, record.Topics, count, now(), seed)
		if c.JSON {
			return printJSON(s.out, questions)
		}
		right, err := askAll(ctx, s, newLines(s.in), mine, now, questions)
		if err != nil && !errors.Is(err, io.EOF) && !errors.Is(err, errLeft) {
			return err
		}
		_, err = fmt.Fprintf(s.out, "%d right.\n", right)
		return err
	})
}

// exercises are what is asked about.
func (c *askCommand) exercises(record *practice.Record, spec exercise.Spec) ([]*exercise.Exercise, error) {
	if spec.Home == "" {
		return exercisesOf(record, c.Item)
	}
	ex, err := exercise.Build(spec)
	return []*exercise.Exercise{ex}, err
}

// mostAsked is how many exercises questions are about at most, the most overdue
// of the shelf.
const mostAsked = 8

// exercisesOf builds what is on the shelf, or one item of it, in the keys and
// places that were played last.
func exercisesOf(record *practice.Record, item int64) ([]*exercise.Exercise, error) {
	list, err := record.Exercises(item, mostAsked)
	if err == nil && len(list) == 0 {
		if item != 0 {
			return nil, none(store.ErrNone, "item", item)
		}
		return nil, &pitch.InputError{What: "home", Value: "", Want: "a scale to ask about, since nothing is on the shelf"}
	}
	return list, err
}

// askAll asks one question after the other and keeps the answers.
func askAll(ctx context.Context, s streams, in lines, mine store.Store, now clock, questions []practice.Question) (right int, err error) {
	for i, q := range questions {
		fmt.Fprintf(s.out, "\n%d of %d. %sAnswer with %s; q leaves: ", i+1, len(questions), wrap(q.Ask, textWidth), q.Want())
		asked := now()
		reply, err := askOne(s, in, q)
		if err != nil {
			return right, err
		}
		at := now()
		seconds := at.Sub(asked).Seconds()
		said := reply.Text
		if reply.Right {
			right++
			said = fmt.Sprintf("%s %.1f s.", said, seconds)
		}
		fmt.Fprint(s.out, wrap(said, textWidth))
		if err := mine.Answer(ctx, store.Answer{Topic: practice.TopicOf(q), Spot: q.At, At: at, Right: reply.Right, Seconds: seconds, Within: q.Within}); err != nil {
			return right, err
		}
	}
	return right, nil
}

// askOne reads answers until one can be read.
func askOne(s streams, in lines, q practice.Question) (practice.Reply, error) {
	for {
		text, err := in.next()
		if err != nil {
			return practice.Reply{}, err
		}
		if text == "q" {
			return practice.Reply{}, errLeft
		}
		reply, err := q.Check(text)
		if err == nil {
			return reply, nil
		}
		fmt.Fprintf(s.out, "%s: ", oneLine(err))
	}
}
