package musicxml

import (
	"strconv"
	"strings"

	"heddle/exercise"
	"heddle/pitch"
	"heddle/touch"
)

// readTouch gives a note its touch. A note with a bend of a semitone or a tone is
// written where the string is stopped, and becomes the note that is heard.
func readTouch(note *exercise.GivenNote, n xmlNote) {
	t := touch.Touch{}
	for _, head := range n.Noteheads {
		t.Ghost = t.Ghost || head.Parentheses == "yes"
	}
	for _, notations := range n.Notations {
		for _, o := range notations.Ornaments {
			t.Vibrato = t.Vibrato || hasType(o.WavyLines, "start")
		}
		for _, a := range notations.Articulations {
			t.Accent = t.Accent || a.Accent != nil || a.StrongAccent != nil
			t.Staccato = t.Staccato || a.Staccato != nil
			if a.Scoop != nil {
				t.Slide = touch.Into
			}
		}
		for _, technical := range notations.Technical {
			for _, b := range technical.Bends {
				readBend(&t, b)
			}
		}
		slid := hasType(notations.Slides, "stop") || hasType(notations.Glissandi, "stop")
		if slid && pickedAgain(notations) {
			t.Slide = touch.Between
		}
	}
	if t.Accent && t.Ghost {
		t.Ghost = false
	}
	if t.Check() != nil {
		return
	}
	note.Touch = t
	if below := t.Bend.Below(); below > 0 {
		name := pitch.Interval{Steps: 1, Semitones: below}.From(note.Pitch.Name)
		note.Pitch = pitch.Named(name, note.Pitch.MIDI()+below)
	}
}

// pickedAgain reports whether a note has a stroke of the pick.
func pickedAgain(n xmlNotations) bool {
	for _, t := range n.Technical {
		if t.DownBow != nil || t.UpBow != nil {
			return true
		}
	}
	return false
}

// readBend reads one bend of a note. Other sizes than a quarter tone, a semitone and a
// tone are left out.
func readBend(t *touch.Touch, b xmlBend) {
	semitones, err := strconv.ParseFloat(strings.TrimSpace(b.Alter), 64)
	bend := touch.Bend(semitones)
	switch {
	case err != nil || b.PreBend != nil:
	case b.Release != nil:
		t.Release = t.Bend > 0
	case bend == touch.Quarter || bend == touch.Half || bend == touch.Whole:
		t.Bend = bend
	}
}

// join adds the touch that another staff or part gives for the same note.
func join(a, b touch.Touch) touch.Touch {
	if a.Bend == 0 {
		a.Bend, a.Release = b.Bend, b.Release
	}
	if a.Slide == "" {
		a.Slide = b.Slide
	}
	a.Vibrato, a.Ghost, a.Accent, a.Staccato = a.Vibrato || b.Vibrato, a.Ghost || b.Ghost, a.Accent || b.Accent, a.Staccato || b.Staccato
	return a
}
