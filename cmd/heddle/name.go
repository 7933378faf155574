package main

import (
	"cmp"
	"io"
	"strings"

	"heddle/exercise"
	"heddle/pitch"
)

// nameCommand names a collection of notes.
type nameCommand struct {
	Notes []string `arg:"" help:"Two notes or more, such as G Ab Bb." sep:"none"`
	JSON  bool     `name:"json" help:"Print the collection as JSON."`
}

// Help comes before the flags.
func (nameCommand) Help() string {
	return `Says what a set of notes is: every interval, chord or scale that has just
these notes, the most common first; its set class and intervals; and what is
missing from the twelve. The first note is the bass of a chord.

  heddle name E G C
  heddle name G Ab Bb Cb C Db D Eb F Gb

--names says how note names are read and written: H in german, Si in solfege.`
}

// maxNotes bounds the notes that may be given; there are only 35 names.
const maxNotes = 64

// Run names and prints.
func (c *nameCommand) Run(s streams, flags given) error {
	var spec exercise.Spec
	if err := flags.apply(&spec); err != nil {
		return err
	}
	naming, err := pitch.ParseNaming(cmp.Or(spec.Names, pitch.English.String()))
	if err != nil {
		return err
	}
	words := strings.FieldsFunc(strings.Join(c.Notes, " "), func(r rune) bool { return r == ' ' || r == ',' })
	if len(words) == 0 || len(words) > maxNotes {
		return &pitch.InputError{What: "notes", Value: strings.Join(c.Notes, " "), Want: "note names such as G Ab Bb"}
	}
	names := make([]pitch.Name, len(words))
	for i, w := range words {
		if names[i], err = naming.Parse(w); err != nil {
			return err
		}
	}
	collection := pitch.CollectNames(names)
	if c.JSON {
		return printJSON(s.out, exercise.DocumentCollection(collection))
	}
	_, err = io.WriteString(s.out, collectionText(collection, naming))
	return err
}
