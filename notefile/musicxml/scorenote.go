package musicxml

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"heddle/exercise"
	"heddle/finger"
	"heddle/line"
	"heddle/neck"
	"heddle/notefile/melody"
	"heddle/pitch"
)

// mostStrings and mostFret limit what counts as a spot on a neck.
const (
	mostStrings = 24
	mostFret    = 36
)

func (p *scorePart) note(n xmlNote) error {
	if n.Grace != nil {
		p.graces++
		return nil
	}
	if strings.TrimSpace(n.Duration) == "" {
		return errors.New("a note has no duration")
	}
	d, err := p.length(n.Duration)
	if err != nil {
		return err
	}
	at := p.onset
	if n.Chord == nil {
		at, p.onset = p.now, p.now
		if err := p.advance(d); err != nil {
			return err
		}
	}
	switch {
	case n.Cue != nil:
		p.cues++
		return nil
	case n.Rest != nil || n.Unpitched != nil || n.Pitch == nil:
		return nil
	}
	named, micro, ok := parsePitch(*n.Pitch)
	if !ok {
		return &pitch.InputError{What: "pitch", Value: melody.CleanText(n.Pitch.Step + n.Pitch.Alter + n.Pitch.Octave),
			Want: "a step from A to G, an alteration from -3 to 3 and an octave from 0 to 9"}
	}
	if micro {
		p.microtones++
	}
	staff, name := or(n.Staff, "1"), or(n.Voice, "1")
	if named, ok = p.sounding(named, staff); !ok {
		return &pitch.InputError{What: "transposed pitch", Value: named.String(), Want: "a sound from C-1 to G9"}
	}
	note := exercise.GivenNote{Note: line.Note{Pitch: named, Scale: line.Chromatic, Role: line.PatternRole}, Fingering: fingeringOf(n.Notations)}
	readTouch(&note, n)
	v, err := p.voice(staff, name)
	if err == nil {
		v.add(scoreNote{note, at, at + d}, n)
	}
	return err
}

// or returns text without spaces around it, or a default if it is empty.
func or(text, otherwise string) string {
	if text = strings.TrimSpace(text); text == "" {
		return otherwise
	}
	return text
}

// mostVoices limits the voices of one part; an organ score has a dozen.
const mostVoices = 64

func (p *scorePart) voice(staff, name string) (*voice, error) {
	for _, v := range p.voices {
		if v.staff == staff && v.name == name {
			return v, nil
		}
	}
	if len(p.voices) == mostVoices {
		return nil, fmt.Errorf("more than %d voices in one part", mostVoices)
	}
	v := &voice{staff: melody.CleanText(staff), name: melody.CleanText(name), tied: map[int]int{}}
	p.voices = append(p.voices, v)
	return v, nil
}

// add appends a note to a voice. A note tied to the one before makes that one
// longer.
func (v *voice) add(note scoreNote, n xmlNote) {
	ties := n.Ties
	for _, notations := range n.Notations {
		ties = append(ties, notations.Tied...)
	}
	key := note.Pitch.MIDI() - note.Touch.Bend.Below() // as later pieces are written
	i, open := v.tied[key]
	joined := open && hasType(ties, "stop") && math.Abs(v.notes[i].Until-note.At) < sameTime
	if joined {
		v.notes[i].Until = note.Until
	} else {
		i = len(v.notes)
		v.notes = append(v.notes, note)
	}
	delete(v.tied, key)
	if hasType(ties, "start") {
		v.tied[key] = i
	}
}

func hasType(elements []xmlTyped, kind string) bool {
	return slices.Contains(elements, xmlTyped{kind})
}

func fingeringOf(all []xmlNotations) finger.Fingering {
	var f finger.Fingering
	for _, n := range all {
		if (hasType(n.Slides, "stop") || hasType(n.Glissandi, "stop")) && !pickedAgain(n) {
			f.Stroke = finger.Slide
		}
		for _, t := range n.Technical {
			switch {
			case hasType(t.HammerOns, "stop"):
				f.Stroke = finger.HammerOn
			case hasType(t.PullOffs, "stop"):
				f.Stroke = finger.PullOff
			case f.Stroke != "":
			case t.DownBow != nil:
				f.Stroke = finger.Down
			case t.UpBow != nil:
				f.Stroke = finger.Up
			}
			if len(t.Fingering) > 0 {
				if n, err := strconv.Atoi(strings.TrimSpace(t.Fingering[0])); err == nil && n >= 0 && n <= 4 {
					f.Finger = n
				}
			}
			number, errString := strconv.Atoi(strings.TrimSpace(t.String))
			fret, errFret := strconv.Atoi(strings.TrimSpace(t.Fret))
			if errString == nil && errFret == nil && number >= 1 && number <= mostStrings && fret >= 0 && fret <= mostFret {
				f.Spot = neck.Spot{String: number, Fret: fret}
			}
		}
	}
	return f
}
