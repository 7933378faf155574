package musicxml

import (
	"math"
	"strconv"
	"strings"

	"heddle/notefile/melody"
	"heddle/pitch"
)

// parsePitch reads step, alteration and octave. A quarter tone is rounded to the
// semitone; micro reports that.
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

// A transposition leads from written to sounding pitches.
type transposition struct {
	Semitones int
	Steps     int // letters, octaves included
}

// stepsOfSemitones is how many letters an interval within the octave spans if
// a transposition does not say.
var stepsOfSemitones = [12]int{0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6}

func (x xmlTranspose) read() transposition {
	octaves := int(number(x.OctaveChange))
	t := transposition{Semitones: int(number(x.Chromatic)) + 12*octaves}
	if strings.TrimSpace(x.Diatonic) != "" {
		t.Steps = int(number(x.Diatonic)) + 7*octaves
		return t
	}
	octaves = floorDiv(t.Semitones, 12)
	t.Steps = 7*octaves + stepsOfSemitones[t.Semitones-12*octaves]
	return t
}

// sounding transposes a written pitch of a staff, name and all. It returns
// false for a pitch outside MIDI's keys.
func (p *scorePart) sounding(written pitch.Pitch, staff string) (pitch.Pitch, bool) {
	n, _ := strconv.Atoi(staff)
	t, ok := p.transpose[n]
	if !ok {
		t = p.transpose[0]
	}
	key := written.MIDI() + t.Semitones
	if key < 0 || key > 127 {
		return written, false
	}
	place := int(written.Name.Letter) + 7*written.Octave + t.Steps
	octave := floorDiv(place, 7)
	to := pitch.Pitch{Name: pitch.Name{Letter: pitch.Letter(place - 7*octave)}, Octave: octave}
	to.Name.Accidental = key - to.MIDI()
	if to.Name.Accidental < -3 || to.Name.Accidental > 3 {
		return melody.Spell(key, 0), true
	}
	return to, true
}

// number reads a small number. Anything else is 0.
func number(text string) float64 {
	x, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	if err != nil || !(math.Abs(x) <= 127) {
		return 0
	}
	return x
}

func floorDiv(a, b int) int {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}
