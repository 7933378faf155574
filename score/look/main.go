// Look draws a few exercises as PNG into a folder, so that a change to the
// engraving can be inspected.
package main

import (
	"fmt"
	"os"
	"path/filepath"

	"heddle/exercise"
	"heddle/score/paper"
	"heddle/score/strip"
	"heddle/score/surface"
)

const dpi = 150

var lines = map[string]string{
	"workshop": "home: G minor pentatonic\nsuperimpose: semitone up\ngroups: 3,3\nfret: 10\ntempo: 84\nchord: Gm7\nland: third\n",
	"blues":    "home: A blues\nchanges: A7 | D7 | A7 | A7 | D7 | D7 | A7 | A7 | E7 | D7 | A7 | E7\nsuperimpose: tritone\ngroups: 4,3\nvalue: eighth-triplet\nfeel: swing 2:1\nland: root\ndirection: down-up\npicking: legato\n",
	"bass":     "home: D dorian\nsuperimpose: minor third up\ninstrument: bass\ngroups: 4,2\nvalue: sixteenth\nmeter: 7/8\ngap: 0.5\nland: root,fifth\nnames: german\n",
	"left":     "home: E minor pentatonic\nsuperimpose: semitone up\nsuperimpose: tritone\ngroups: 3,2,4\nvalue: quintuplet\nleft: true\nnames: solfege\nmeter: 3/4\ndirection: up\ninstrument: seven-string guitar\n",
	"mandolin": "home: D major\ninstrument: mandolin\ngroups: 4\norder: 1 3 2 4\nvalue: sixteenth-triplet\nmeter: 6/8\n",
}

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: go run ./score/look DIR")
		os.Exit(2)
	}
	for name, text := range lines {
		if err := draw(os.Args[1], name, text); err != nil {
			fmt.Fprintf(os.Stderr, "%s: %v\n", name, err)
			os.Exit(1)
		}
	}
}

// draw writes the pages of an exercise, and its strip.
func draw(dir, name, text string) error {
	spec, err := exercise.ParseText(text)
	if err != nil {
		return err
	}
	ex, err := exercise.Build(spec)
	if err != nil {
		return err
	}
	drawings, err := paper.Pages(ex, paper.Options{Title: name})
	if err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	for i, d := range append(drawings, strip.Draw(ex, strip.Options{})) {
		f, err := os.Create(filepath.Join(dir, fmt.Sprintf("%s-%d.png", name, i+1)))
		if err != nil {
			return err
		}
		if err := surface.WritePNG(f, d, dpi); err != nil {
			f.Close()
			return err
		}
		if err := f.Close(); err != nil {
			return err
		}
	}
	return nil
}
