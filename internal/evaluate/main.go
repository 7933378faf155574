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

func main() {
	output := flag.String("o", "", "the file to write; standard output without one")
	flag.Parse()
	var b bytes.Buffer
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
