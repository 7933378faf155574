package notefile

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"heddle/finger"
	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
)

// mostStrings and mostFret bound what is taken for a place on a neck.
const (
	mostStrings = 24
	mostFret    = 36
)

// note reads one note or rest.
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
		return &pitch.InputError{What: "pitch", Value: cleanText([]byte(n.Pitch.Step + n.Pitch.Alter + n.Pitch.Octave)),
			Want: "a step from A to G, an alteration from -3 to 3 and an octave from 0 to 9"}
	}
	if micro {
		p.microtones++
	}
	staff, name := or(n.Staff, "1"), or(n.Voice, "1")
	if named, ok = transposed(named, p.transposeOf(staff)); !ok {
		return &pitch.InputError{What: "transposed pitch", Value: named.String(), Want: "a sound from C-1 to G9"}
	}
	note := Note{Note: line.Note{Pitch: named, Scale: line.Chromatic, Role: line.PatternRole}, Fingering: fingeringOf(n.Notations)}
	v, err := p.voice(staff, name)
	if err == nil {
		v.add(scoreNote{note, at, at + d}, n)
	}
	return err
}

// or returns a trimmed text, or a default for an empty one.
func or(text, otherwise string) string {
	if text = strings.TrimSpace(text); text == "" {
		return otherwise
	}
	return text
}

// transposeOf returns the transposition of a staff.
func (p *scorePart) transposeOf(staff string) xmlTranspose {
	if t, ok := p.transpose[staff]; ok {
		return t
	}
	return p.transpose[""]
}

// mostVoices bounds the voices of one part; a full organ score has a dozen.
const mostVoices = 64

// voice returns a voice of a staff.
func (p *scorePart) voice(staff, name string) (*voice, error) {
	for _, v := range p.voices {
		if v.staff == staff && v.name == name {
			return v, nil
		}
	}
	if len(p.voices) == mostVoices {
		return nil, fmt.Errorf("more than %d voices in one part", mostVoices)
	}
	v := &voice{staff: staff, name: name, tied: map[int]int{}}
	p.voices = append(p.voices, v)
	return v, nil
}

// add appends a note to a voice. One that is tied from the note before makes
// that one longer.
func (v *voice) add(note scoreNote, n xmlNote) {
	ties := n.Ties
	for _, notations := range n.Notations {
		ties = append(ties, notations.Tied...)
	}
	key := note.Pitch.MIDI()
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

// hasType reports whether one of the elements is of the type.
func hasType(elements []xmlTyped, kind string) bool {
	for _, e := range elements {
		if e.Type == kind {
			return true
		}
	}
	return false
}

// fingeringOf reads string, fret, finger and stroke.
func fingeringOf(all []xmlNotations) finger.Fingering {
	var f finger.Fingering
	for _, n := range all {
		if hasType(n.Slides, "stop") || hasType(n.Glissandi, "stop") {
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

// parsePitch reads step, alteration and octave. A quarter tone is rounded to
// the semitone, and micro says so.
func parsePitch(x xmlPitch) (named pitch.Pitch, micro, ok bool) {
	name, err := pitch.ParseName(strings.TrimSpace(x.Step))
	if err != nil || name.Accidental != 0 {
		return pitch.Pitch{}, false, false
	}
	octave, err := strconv.Atoi(strings.TrimSpace(x.Octave))
	if err != nil || octave < -1 || octave > 10 {
		return pitch.Pitch{}, false, false
	}
	alter := 0.0
	if text := strings.TrimSpace(x.Alter); text != "" {
		if alter, err = strconv.ParseFloat(text, 64); err != nil || !(math.Abs(alter) <= 3) {
			return pitch.Pitch{}, false, false
		}
	}
	name.Accidental = int(math.RoundToEven(alter))
	return pitch.Pitch{Name: name, Octave: octave}, alter != math.Trunc(alter), true
}

// stepsOfSemitones gives the letters that an interval within the octave is
// written over, where a transposition does not say.
var stepsOfSemitones = [12]int{0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6}

// transposed turns a written pitch into the sounding one, name and all.
func transposed(p pitch.Pitch, t xmlTranspose) (pitch.Pitch, bool) {
	chromatic := int(number(t.Chromatic)) + 12*int(number(t.OctaveChange))
	if key := p.MIDI() + chromatic; key < 0 || key > 127 {
		return p, false
	}
	if chromatic == 0 && strings.TrimSpace(t.Diatonic) == "" {
		return p, true
	}
	octaves := floorDiv(chromatic, 12)
	steps := 7*octaves + stepsOfSemitones[chromatic-12*octaves]
	if strings.TrimSpace(t.Diatonic) != "" {
		steps = int(number(t.Diatonic)) + 7*int(number(t.OctaveChange))
	}
	place := int(p.Name.Letter) + 7*p.Octave + steps
	to := pitch.Pitch{Name: pitch.Name{Letter: pitch.Letter(place - 7*floorDiv(place, 7))}, Octave: floorDiv(place, 7)}
	to.Name.Accidental = p.MIDI() + chromatic - to.MIDI()
	if to.Name.Accidental < -3 || to.Name.Accidental > 3 {
		return spell(p.MIDI()+chromatic, 0), true
	}
	return to, true
}

// number reads a small number, 0 for anything else.
func number(text string) float64 {
	x, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	if err != nil || !(math.Abs(x) <= 127) {
		return 0
	}
	return x
}

// floorDiv divides, rounding down.
func floorDiv(a, b int) int {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}
