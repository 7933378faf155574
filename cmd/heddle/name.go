package main

import (
	"io"
	"strings"

	"heddle/exercise"
	"heddle/pitch"
)

// nameCommand names a collection of notes.
type nameCommand struct {
	Notes []string `arg:"" help:"Two notes or more, such as G Ab Bb." sep:"none"`
	JSON  bool     `name:"json" help:"Print the collection as JSON."`
	Names *string  `help:"${help_names}" placeholder:"${example_names}"`
}

// Help is what stands before the flags.
func (nameCommand) Help() string {
	return `Says what a set of notes is: its set class, its intervals, every scale
that has just these notes, and what is missing from the twelve.

  heddle name G Ab Bb Cb C Db D Eb F Gb

With --names the notes are read, too, as they are then written: german H, solfege Si.`
}

// maxNotes bounds the notes that may be given; there are only 35 names.
const maxNotes = 64

// Run names and prints.
func (c *nameCommand) Run(s streams) error {
	naming := pitch.English
	if c.Names != nil {
		var err error
		if naming, err = pitch.ParseNaming(*c.Names); err != nil {
			return err
		}
	}
	words := strings.FieldsFunc(strings.Join(c.Notes, " "), func(r rune) bool { return r == ' ' || r == ',' })
	if len(words) == 0 || len(words) > maxNotes {
		return &pitch.InputError{What: "notes", Value: strings.Join(c.Notes, " "), Want: "note names such as G Ab Bb"}
	}
	names := make([]pitch.Name, len(words))
	for i, w := range words {
		var err error
		if names[i], err = naming.Parse(w); err != nil {
			return err
		}
	}
	collection := pitch.CollectNames(names)
	if c.JSON {
		return printJSON(s.out, exercise.DocumentCollection(collection))
	}
	_, err := io.WriteString(s.out, collectionText(collection, naming))
	return err
}
