// Evaluate writes the tables of doc/vocabulary.md: how lines are read, and whether
// phrases keep their rules.
//
//	go run ./internal/evaluate -o doc/vocabulary.md
package main

import (
	"bytes"
	"flag"
	"fmt"
	"os"
)

const head = `# Reading lines, and phrases: how well they do

Made by ` + "`go run ./internal/evaluate -o doc/vocabulary.md`" + `.

## Which scales a line is woven from

Lines that this program makes are read back as bare notes: no names, no chord, no home.
A note is *exact* if it is heard in the scale that it was woven from. It is *right* if it
is exact, or if the two scales do not differ audibly: the scale that it is heard in has
every note that the line plays from the other, or is also one of the line's scales and
has this note. Chromatic approach notes are not counted. The goal is 97 % right; lines of
twelve notes play only a few notes of each scale and are below it.

`

const phraseHead = `## Phrases

Random requests (home, scale laid over it, groups, metre, note value, bars, dips, busy,
changes), each checked against every rule of package phrase on the finished exercise. A
request has no phrase where the bars have no room for its dips, the hand does not join its
scales or the choice asked for does not exist. Difference is the edit distance over pitch
and start between each two of five choices, as a share of the longer one's notes; three
in ten is the least that is offered. Phrases are also read back as bare notes, as above.

`

func main() {
	output := flag.String("o", "", "the file to write; standard output without one")
	requests := flag.Int("requests", 2000, "how many random phrases are checked")
	flag.Parse()
	var b bytes.Buffer
	b.WriteString(head)
	writeReading(&b)
	b.WriteString(phraseHead)
	writePhrases(&b, *requests)
	if *output == "" {
		os.Stdout.Write(b.Bytes())
		return
	}
	if err := os.WriteFile(*output, b.Bytes(), 0o644); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}
