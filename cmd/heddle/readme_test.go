package main

import (
	"bytes"
	"context"
	"os"
	"strings"
	"testing"
)

// TestTheReadmeShowsWhatIsPrinted runs each block that begins with "$ heddle"
// and compares; a last line of "…" stands for the rest.
func TestTheReadmeShowsWhatIsPrinted(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	checked := 0
	for _, block := range strings.Split(string(text), "```\n") {
		command, want, found := strings.Cut(block, "\n")
		arguments, ours := strings.CutPrefix(command, "$ heddle ")
		if !found || !ours {
			continue
		}
		checked++
		var out, remarks bytes.Buffer
		if code := run(context.Background(), shellWords(arguments), streams{strings.NewReader(""), &out, &remarks}); code != exitDone {
			t.Errorf("%s: exit %d, %s", command, code, remarks.String())
			continue
		}
		got := out.String()
		if shown, more := strings.CutSuffix(want, "…\n"); more {
			want, got = shown, got[:min(len(got), len(shown))]
		}
		if got != want {
			t.Errorf("%s prints\n%s\nand the README shows\n%s", command, got, want)
		}
	}
	if checked == 0 {
		t.Fatal("the README shows no command")
	}
}

// shellWords splits at spaces outside double quotes.
func shellWords(s string) []string {
	var words []string
	for i, part := range strings.Split(s, `"`) {
		if i%2 == 1 {
			words = append(words, part)
			continue
		}
		words = append(words, strings.Fields(part)...)
	}
	return words
}
