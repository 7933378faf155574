package exercise

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"

	"heddle/finger"
	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
	"heddle/touch"
)

// A lineDocument is what [ParseLine] reads of an exercise in JSON.
type lineDocument struct {
	Spec   Spec `json:"spec"`
	Scales []struct {
		Name string `json:"name"`
	} `json:"scales"`
	Chords []chordDocument `json:"chords"`
	Notes  []givenDocument `json:"notes"`
}

// A givenDocument is what is read of one note.
type givenDocument struct {
	Name     string          `json:"name"`
	Octave   *int            `json:"octave"`
	MIDI     *int            `json:"midi"`
	Beat     *float64        `json:"beat"`
	Duration float64         `json:"duration"`
	Group    *int            `json:"group"`
	Scale    *int            `json:"scale"`
	String   int             `json:"string"`
	Fret     int             `json:"fret"`
	Finger   int             `json:"finger"`
	Stroke   finger.Stroke   `json:"stroke"`
	Touch    json.RawMessage `json:"touch"`
	Role     line.Role       `json:"role"`
}

// ParseLine reads an exercise in the JSON that `heddle line --json` prints, perhaps
// changed by hand, as a given line. A note needs its name, octave, beat and duration;
// string, fret, finger, stroke, touch, group, scale and role may be left out, and
// what the exercise worked out (degrees, functions …) is not read. Of the spec it
// takes the instrument, the hands and the time.
func ParseLine(data []byte) (Given, error) {
	var d lineDocument
	if err := json.Unmarshal(data, &d); err != nil {
		var input *pitch.InputError
		if errors.As(err, &input) {
			return Given{}, input
		}
		return Given{}, &pitch.InputError{What: "line", Value: err.Error(), Want: "JSON as heddle line --json prints it"}
	}
	if len(d.Notes) == 0 || len(d.Notes) > maxGiven {
		return Given{}, &pitch.InputError{What: "line", Value: pitch.Count(len(d.Notes), "note"), Want: "1 to " + strconv.Itoa(maxGiven) + " notes"}
	}
	g := Given{Spec: d.Spec, Tempo: d.Spec.Tempo, Grouped: true}
	if err := g.setRhythm(d.Spec); err != nil {
		return Given{}, err
	}
	for _, c := range d.Chords {
		g.Chords = append(g.Chords, GivenChord{Start: beatOf(c.Beat), Symbol: c.Symbol})
	}
	for i := range d.Notes {
		note, err := d.note(i)
		if err != nil {
			return Given{}, named(fmt.Sprintf("note %d", i+1), err)
		}
		if i > 0 && note.Start < g.Notes[i-1].End() {
			return Given{}, &pitch.InputError{What: fmt.Sprintf("note %d beat", i+1), Value: note.Start.String(),
				Want: "at or after " + g.Notes[i-1].End().String() + ", where the note before it ends"}
		}
		g.Grouped = g.Grouped && d.Notes[i].Group != nil
		g.Notes = append(g.Notes, note)
	}
	g.Rhythm.Pickup = max(0, -g.Notes[0].Start)
	return g, nil
}

// setRhythm takes metre and swing from the spec.
func (g *Given) setRhythm(s Spec) (err error) {
	if s.Meter != "" {
		if g.Rhythm.Meter, err = line.ParseMeter(s.Meter); err != nil {
			return err
		}
	}
	if s.Feel != "" {
		g.Rhythm.Swing, err = line.ParseSwing(s.Feel)
	}
	return err
}

// beatOf rounds a time in quarter notes to 1/960.
func beatOf(quarters float64) line.Beat {
	return line.Beat(math.Round(quarters * float64(line.Quarter)))
}

// farthestBeat is more quarter notes than the longest line has.
const farthestBeat = 1 << 16

// note reads note i.
func (d *lineDocument) note(i int) (GivenNote, error) {
	doc := &d.Notes[i]
	refuse := func(what string, value any, want string) (GivenNote, error) {
		return GivenNote{}, &pitch.InputError{What: what, Value: fmt.Sprint(value), Want: what + ": " + want}
	}
	if doc.Octave == nil {
		return refuse("octave", "", "a whole number, as in F5")
	}
	p, err := pitch.Parse(doc.Name + strconv.Itoa(*doc.Octave))
	switch {
	case err != nil:
		return GivenNote{}, err
	case doc.MIDI != nil && *doc.MIDI != p.MIDI():
		return refuse("midi", *doc.MIDI, fmt.Sprintf("%d, which is %v, or nothing", p.MIDI(), p))
	case doc.Beat == nil || !(math.Abs(*doc.Beat) < farthestBeat):
		return refuse("beat", "", "quarter notes from the first bar line")
	case !(doc.Duration < farthestBeat) || beatOf(doc.Duration) < 1:
		return refuse("duration", doc.Duration, "quarter notes, more than 0")
	case doc.String < 0 || doc.Fret < 0 || doc.Finger < 0 || doc.Finger > 4:
		return refuse("finger", doc.Finger, "0 to 4, on a string and fret of the neck")
	case !slices.Contains([]finger.Stroke{"", finger.Down, finger.Up, finger.HammerOn, finger.PullOff, finger.Slide}, doc.Stroke):
		return refuse("stroke", doc.Stroke, "down, up, hammer-on, pull-off or slide")
	case !slices.Contains([]line.Role{"", line.PatternRole, line.LandingRole}, doc.Role):
		return refuse("role", doc.Role, "pattern or landing")
	}
	n := GivenNote{
		Note:      line.Note{Pitch: p, Scale: line.Chromatic, Start: beatOf(*doc.Beat), Duration: beatOf(doc.Duration), Role: line.PatternRole},
		Fingering: finger.Fingering{Spot: neck.Spot{String: doc.String, Fret: doc.Fret}, Finger: doc.Finger, Stroke: doc.Stroke},
	}
	if doc.Role != "" {
		n.Role = doc.Role
	}
	if doc.Group != nil {
		n.Group = *doc.Group
	}
	if doc.Scale != nil && *doc.Scale >= 0 && *doc.Scale < len(d.Scales) {
		n.From = d.Scales[*doc.Scale].Name
	}
	n.Touch, err = readTouch(doc.Touch)
	return n, err
}

// readTouch reads the touch of a note: the fields of a [touch.Touch], or its words.
func readTouch(data json.RawMessage) (t touch.Touch, err error) {
	if len(data) == 0 {
		return t, nil
	}
	var words string
	if json.Unmarshal(data, &words) == nil {
		return touch.Parse(words)
	}
	decoder := json.NewDecoder(bytes.NewReader(data))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(&t); err != nil {
		return t, &pitch.InputError{What: "touch", Value: string(data), Want: `touch: an object such as {"bend": 2, "vibrato": true}`}
	}
	return t, t.Check()
}
