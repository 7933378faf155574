// Heddle works out lines for improvising guitarists: it lays one scale over
// another, finds where both lie under one hand, takes groups of notes from
// each in turn, fingers them and lands them.
//
// Results go to standard output and remarks to standard error. The exit code
// is 0 when the work is done, 1 when it could not be, 2 for bad input.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"
	"syscall"

	"github.com/alecthomas/kong"

	"heddle/bench"
	"heddle/exercise"
	"heddle/pitch"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	code := run(ctx, os.Args[1:], streams{os.Stdin, os.Stdout, os.Stderr})
	stop()
	os.Exit(code)
}

// Exit codes.
const (
	exitDone     = 0
	exitFailed   = 1
	exitBadInput = 2
)

// streams are the world's ends of one run.
type streams struct {
	in       io.Reader
	out, err io.Writer
}

// commands is the command line as a whole.
type commands struct {
	Bench      benchCommand      `cmd:"" help:"Open the page where the work is done (also without any command)."`
	Line       lineCommand       `cmd:"" help:"Build a line and show it, or write it to files."`
	Mark       markCommand       `cmd:"" help:"Mark a recorded take note by note."`
	Read       readCommand       `cmd:"" help:"Take a line from a MIDI or MusicXML file; name, finger and analyse it."`
	Near       nearCommand       `cmd:"" help:"Rank the places on the neck where the scales lie under one hand."`
	Name       nameCommand       `cmd:"" help:"Name what a set of notes is."`
	Completion completionCommand `cmd:"" help:"Print a script that completes commands in your shell."`
	Complete   completeCommand   `cmd:"" hidden:"" name:"__complete"`
}

// run parses args, runs one command and returns the exit code.
func run(ctx context.Context, args []string, s streams) int {
	exited := -1
	parser, err := newParser(s, &exited)
	if err != nil {
		fmt.Fprintln(s.err, "heddle:", err)
		return exitFailed
	}
	if len(args) == 0 {
		args = []string{"bench"}
	}
	parsed, err := parser.Parse(args)
	if exited >= 0 {
		return exited
	}
	if err == nil {
		err = givenTwice(parsed)
	}
	if err != nil {
		fmt.Fprintf(s.err, "heddle: %s\n", oneLine(plainly(err, parser)))
		return exitBadInput
	}
	parsed.BindTo(ctx, (*context.Context)(nil))
	err = parsed.Run(s, parser)
	var input *pitch.InputError
	switch {
	case err == nil:
		return exitDone
	case errors.As(err, &input):
		fmt.Fprintf(s.err, "heddle: %s\n", oneLine(err))
		return exitBadInput
	}
	fmt.Fprintf(s.err, "heddle: %s\n", oneLine(err))
	return exitFailed
}

// newParser makes the parser; exited receives the code when help is shown.
func newParser(s streams, exited *int) (*kong.Kong, error) {
	return kong.New(&commands{},
		kong.Name("heddle"),
		kong.Description("Lines that leave the home key on purpose and come back on purpose.\n\nTry: heddle line --home \"G minor pentatonic\" --superimpose \"semitone up\" --groups 3,3 --fret 10 --land third"),
		kong.Writers(s.out, s.err),
		kong.Exit(func(code int) { *exited = code }),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true, Summary: false, NoExpandSubcommands: true, WrapUpperBound: 92}),
		kong.ExplicitGroups(flagGroups),
		kong.Vars(fieldHelp()),
	)
}

// fieldHelp gives the help of each spec field as a variable for flag tags.
func fieldHelp() map[string]string {
	vars := make(map[string]string)
	for _, f := range exercise.Fields() {
		name := strings.ReplaceAll(f.Name, "-", "_")
		vars["help_"+name] = strings.ToUpper(f.Meaning[:1]) + f.Meaning[1:] + "."
		if f.Default != "" {
			vars["help_"+name] += " Unless given, " + f.Default + "."
		}
		vars["example_"+name] = f.Example
	}
	vars["bench_address"] = bench.DefaultAddress
	vars["endings"] = strings.Join(endings(), ", ")
	return vars
}

// oneLine keeps an error to the one line that is promised.
func oneLine(err error) string { return strings.Join(strings.Fields(err.Error()), " ") }
