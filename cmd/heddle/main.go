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
	"io/fs"
	"os"
	"os/signal"
	"strings"
	"syscall"
	"time"
	"unicode"

	"github.com/alecthomas/kong"

	"heddle/bench"
	"heddle/deliver"
	"heddle/pitch"
)

func main() {
	signals := []os.Signal{os.Interrupt, syscall.SIGTERM}
	if !signal.Ignored(syscall.SIGHUP) { // as under nohup
		signals = append(signals, syscall.SIGHUP)
	}
	ctx, stop := signal.NotifyContext(context.Background(), signals...)
	code := make(chan int, 1)
	go func() { code <- run(ctx, os.Args[1:], streams{os.Stdin, os.Stdout, os.Stderr}) }()
	select {
	case c := <-code:
		os.Exit(c)
	case <-ctx.Done():
	}
	stop() // a second signal ends the process at once
	select {
	case c := <-code:
		os.Exit(c)
	case <-time.After(patience): // something waits for input that may never come
		fmt.Fprintln(os.Stderr, "heddle:", interrupted)
		os.Exit(exitFailed)
	}
}

// patience is how long a command may take to end after the first signal.
const patience = 700 * time.Millisecond

// interrupted is what a command says that a signal ended.
const interrupted = "interrupted"

// Exit codes.
const (
	exitDone     = 0
	exitFailed   = 1
	exitBadInput = 2
)

// streams are the standard streams of one run.
type streams struct {
	in       io.Reader
	out, err io.Writer
}

// A clock tells the time in the player's time zone.
type clock func() time.Time

// commands is the command line as a whole.
type commands struct {
	Bench      benchCommand      `cmd:"" help:"Open the page in a browser; heddle alone does the same."`
	Line       lineCommand       `cmd:"" help:"Build a line and show it, or write it to files."`
	Mark       markCommand       `cmd:"" help:"Mark a recorded take note by note."`
	Read       readCommand       `cmd:"" help:"Read a line from a MIDI, MusicXML or JSON file; name, finger and analyse it."`
	Near       nearCommand       `cmd:"" help:"Rank the places on the neck where the scales lie under one hand."`
	Over       overCommand       `cmd:"" help:"Rank what to lay over a chord, from most inside to most outside."`
	Name       nameCommand       `cmd:"" help:"Name what a set of notes is."`
	Shelf      shelfCommand      `cmd:"" help:"Keep lines and find them again."`
	Today      todayCommand      `cmd:"" help:"Plan what to practise today, and be led through it."`
	Log        logCommand        `cmd:"" help:"Log what was played."`
	Ask        askCommand        `cmd:"" help:"Answer questions about the neck."`
	Progress   progressCommand   `cmd:"" help:"See what you can play, and what goes wrong."`
	Backup     backupCommand     `cmd:"" help:"Write everything that is kept to one file."`
	Restore    restoreCommand    `cmd:"" help:"Bring a backup back into an empty folder."`
	Licences   licencesCommand   `cmd:"" help:"Print the licences of heddle and of everything in it."`
	Completion completionCommand `cmd:"" help:"Print a script that completes commands in your shell."`
	Complete   completeCommand   `cmd:"" hidden:"" name:"__complete"`
}

// run parses args, runs one command and returns the exit code.
func run(ctx context.Context, args []string, s streams) int {
	out := &checkedWriter{Writer: s.out}
	s.out = out
	err := runCommand(ctx, args, s)
	if out.err != nil {
		err = fmt.Errorf("standard output: %w", out.err)
	}
	var input *pitch.InputError
	var usage usageError
	switch {
	case err == nil:
		return exitDone
	case ctx.Err() != nil:
		fmt.Fprintln(s.err, "heddle:", interrupted)
		return exitFailed
	}
	fmt.Fprintf(s.err, "heddle: %s\n", oneLine(err))
	if errors.As(err, &input) || errors.As(err, &usage) {
		return exitBadInput
	}
	return exitFailed
}

// A checkedWriter remembers that writing failed, for those who do not ask.
type checkedWriter struct {
	io.Writer
	err error
}

func (c *checkedWriter) Write(p []byte) (int, error) {
	n, err := c.Writer.Write(p)
	if err != nil && c.err == nil {
		var path *fs.PathError
		if c.err = err; errors.As(err, &path) {
			c.err = path.Err
		}
	}
	return n, err
}

func runCommand(ctx context.Context, args []string, s streams) error {
	flags, helped := given{}, false
	parser, err := newParser(s, flags, &helped)
	if err != nil {
		return err
	}
	parsed, err := parser.Parse(withCommand(args))
	if helped {
		return nil
	}
	if err != nil {
		return usageError{plainly(err, parser)}
	}
	parsed.BindTo(ctx, (*context.Context)(nil))
	parsed.Bind(clock(time.Now))
	return parsed.Run(s, parser, flags)
}

// withCommand puts in the word bench where no command is named.
func withCommand(args []string) []string {
	if len(args) == 0 || strings.HasPrefix(args[0], "-") && args[0] != "-h" && args[0] != "--help" {
		return append([]string{"bench"}, args...)
	}
	return args
}

// newParser makes the parser. It puts the values of flags from the tables into
// flags, and sets helped when it has shown help.
func newParser(s streams, flags given, helped *bool) (*kong.Kong, error) {
	parser, err := kong.New(&commands{},
		kong.Name("heddle"),
		kong.Description("Lines that leave the home key on purpose and come back on purpose.\n\n"+
			"Try: heddle line --home \"G minor pentatonic\" --superimpose \"semitone up\" --groups 3,3 --fret 10 --land third\n\n"+
			"Without a command, heddle opens the page and takes the flags of heddle bench.\n\n"+
			"Exit status: 0 done, 1 failed, 2 bad input."),
		kong.Writers(s.out, s.err),
		kong.Exit(func(int) { *helped = true }),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true, Summary: false, NoExpandSubcommands: true, WrapUpperBound: 92}),
		kong.ExplicitGroups(flagGroups),
		kong.Vars{"bench_address": bench.DefaultAddress, "formats": strings.Join(deliver.Names(), ", ")},
	)
	if err == nil {
		addTableFlags(parser.Model.Node, "", flags)
	}
	return parser, err
}

// longestWord is how much of one word of an error is shown, in characters:
// enough for most paths.
const longestWord = 200

// oneLine makes an error the one printable line that is promised.
func oneLine(err error) string {
	words := strings.Fields(strings.ToValidUTF8(err.Error(), "\uFFFD"))
	for i, word := range words {
		letters := []rune(word)
		if len(letters) > longestWord {
			letters = append(letters[:longestWord], '…')
		}
		for j, r := range letters {
			if !unicode.IsPrint(r) {
				letters[j] = unicode.ReplacementChar
			}
		}
		words[i] = string(letters)
	}
	return strings.Join(words, " ")
}
