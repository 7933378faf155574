// Evaluate writes the tables of doc/vocabulary.md: how lines are read.
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

func main() {
	output := flag.String("o", "", "the file to write; standard output without one")
	flag.Parse()
	var b bytes.Buffer
	b.WriteString(head)
	writeReading(&b)
	if *output == "" {
		os.Stdout.Write(b.Bytes())
		return
	}
	if err := os.WriteFile(*output, b.Bytes(), 0o644); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}
