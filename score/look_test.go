package score

import (
	"os"
	"testing"

	"heddle/exercise"
)

// TestLook writes every hard case and some built exercises to the folder that
// LOOK names, to be looked at.
func TestLook(t *testing.T) {
	dir := os.Getenv("LOOK")
	if dir == "" {
		t.Skip("LOOK names no folder to draw into")
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	show := func(name string, d Drawing) {
		t.Helper()
		f, err := os.Create(dir + "/" + name + ".svg")
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		if err := WriteSVG(f, d); err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range hardCases(t) {
		show(c.name, Sheet(c.exercise, c.options))
		show(c.name+"-neck", Neck(c.exercise, c.options))
	}
	for name, text := range builtCases {
		ex := built(t, text)
		pages, err := Pages(ex, Options{Title: name})
		if err != nil {
			t.Fatal(err)
		}
		for i, d := range pages {
			show(name+string(rune('1'+i)), d)
		}
		show(name+"-strip", Strip(ex, Options{}))
	}
}

var builtCases = map[string]string{
	"workshop": "home: G minor pentatonic\nsuperimpose: semitone up\ngroups: 3,3\nfret: 10\ntempo: 84\nchord: Gm7\nland: third\n",
	"blues":    "home: A blues\nchanges: A7 | D7 | A7 | A7 | D7 | D7 | A7 | A7 | E7 | D7 | A7 | E7\nsuperimpose: tritone\ngroups: 4,3\nvalue: eighth-triplet\nfeel: swing 2:1\nland: root\ndirection: down-up\npicking: legato\n",
	"bass":     "home: D dorian\nsuperimpose: minor third up\ninstrument: bass\ngroups: 4,2\nvalue: sixteenth\nmeter: 7/8\ngap: 0.5\nland: root,fifth\nnames: german\n",
	"left":     "home: E minor pentatonic\nsuperimpose: semitone up\nsuperimpose: tritone\ngroups: 3,2,4\nvalue: quintuplet\nleft: true\nnames: solfege\nmeter: 3/4\ndirection: up\ninstrument: seven-string guitar\n",
	"mandolin": "home: D major\ninstrument: mandolin\ngroups: 4\norder: 1 3 2 4\nvalue: sixteenth-triplet\nmeter: 6/8\n",
}

func built(t testing.TB, text string) *exercise.Exercise {
	t.Helper()
	spec, err := exercise.ParseText(text)
	if err != nil {
		t.Fatal(err)
	}
	ex, err := exercise.Build(spec)
	if err != nil {
		t.Fatal(err)
	}
	return ex
}
