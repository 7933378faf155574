package main

import (
	"bytes"
	"flag"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "write what the commands print into the scripts")

// TestMain puts this very program on the PATH as `heddle`, for scripts and for
// tests that need a process.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"heddle": main})
}

func TestCommands(t *testing.T) {
	testscript.Run(t, testscript.Params{Dir: "testdata", UpdateScripts: *update, Setup: func(e *testscript.Env) error {
		e.Setenv("ESC", "\x1b") // a control character, which a script can't hold
		return nil
	}})
}

// An error shows the beginning of a value, however long or broken it is.
func TestErrorsAreShortAndPrintable(t *testing.T) {
	long := strings.Repeat("x", 100_000)
	for _, args := range [][]string{
		{long}, {"line", "--home", long}, {"line", "--home", "C major", "-o", long + ".svg"}, {"line", "--spec", long}, {"line", "--" + long}, {"name", long},
		{"line", "--home", "C \xff\x00\x07major"}, {"mark", "\x1b[2J\xc3\x28"}, {"\xff"}, {"line", "--home", "C major", "--tempo", "\x9b31m"}, {"--addr", "\x07\u202e"},
	} {
		var out, remarks bytes.Buffer
		if code := run(t.Context(), args, streams{strings.NewReader(""), &out, &remarks}); code == exitDone {
			t.Errorf("%.40q exits with 0", args)
		}
		text, whole := strings.CutSuffix(remarks.String(), "\n")
		if !whole || len(text) > 1000 || !utf8.ValidString(text) || strings.ContainsFunc(text, func(r rune) bool { return !unicode.IsPrint(r) }) {
			t.Errorf("%.40q: %d bytes, %.200q", args, len(text), text)
		}
	}
}
