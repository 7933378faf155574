package notefile

import (
	"encoding/xml"
	"fmt"
	"math"
	"strconv"
	"strings"

	"heddle/line"
	"heddle/pitch"
)

// A scorePart is one part of a score as far as it is read. Places are in
// quarter notes from the beginning of the part: a file's own division need not
// go into a beat, and sums of rounded lengths would drift.
type scorePart struct {
	id        string
	divisions float64
	barStart  float64 // of the open measure
	now       float64
	reach     float64 // the furthest place of the open measure
	onset     float64 // of the last note that was not in a chord
	opened    bool
	implicit  bool // the open measure
	first     firstMeasure

	voices    []*voice
	meters    []placed[line.Meter]
	tempos    []placed[float64]
	chords    []placed[string]
	swing     line.Swing
	swings    int
	open      []pitch.Pitch
	capo      int
	transpose map[string]xmlTranspose // by staff; "" for all

	measures, repeats, graces, cues, microtones, oddMeters, oddSwings int
}

// placed is something that begins at a place.
type placed[T any] struct {
	At float64
	Is T
}

// firstMeasure is what the first measure says about a pickup.
type firstMeasure struct {
	Length   float64
	Implicit bool
}

// A voice is the notes of one voice on one staff.
type voice struct {
	staff, name string
	notes       []scoreNote
	tied        map[int]int // index of the note whose tie is open, by key
}

// A scoreNote is a note with its place.
type scoreNote struct {
	Note
	At, Until float64
}

// longestScore bounds the places in a file, in quarter notes: what maxBars
// bars of the longest common metre hold.
const longestScore = maxBars * 12

// sameTime is how far apart, in quarter notes, two places may be that are
// meant to be one: rounding of divisions, far below a beat.
const sameTime = 1.0 / 4096

func newScorePart(id string) *scorePart {
	return &scorePart{id: id, divisions: 1, transpose: map[string]xmlTranspose{}}
}

// openMeasure begins a measure where the one before ended.
func (p *scorePart) openMeasure(e xml.StartElement) {
	p.implicit = attribute(e, "implicit") == "yes"
	p.now, p.reach, p.onset = p.barStart, p.barStart, p.barStart
	p.opened = true
}

// closeMeasure ends a measure. It lasts as long as its longest voice; an empty
// one lasts for a bar.
func (p *scorePart) closeMeasure() error {
	if !p.opened {
		return nil
	}
	p.opened = false
	length := p.reach - p.barStart
	if length < sameTime {
		length = p.meter().Bar().Quarters()
	}
	if p.measures == 0 {
		p.first = firstMeasure{Length: length, Implicit: p.implicit}
	}
	p.measures++
	p.barStart += length
	if p.barStart > longestScore {
		return fmt.Errorf("the part lasts longer than %d quarter notes", longestScore)
	}
	return nil
}

// meter returns the metre in force.
func (p *scorePart) meter() line.Meter {
	if len(p.meters) == 0 {
		return line.CommonTime
	}
	return p.meters[len(p.meters)-1].Is
}

// length reads a duration in divisions into quarter notes.
func (p *scorePart) length(duration string) (float64, error) {
	d, err := strconv.ParseFloat(strings.TrimSpace(duration), 64)
	if err != nil || d < 0 || math.IsNaN(d) || d/p.divisions > longestScore {
		return 0, &pitch.InputError{What: "duration", Value: cleanText([]byte(duration)), Want: "a number of divisions of the quarter note"}
	}
	return d / p.divisions, nil
}

// move goes back or forward in the measure.
func (p *scorePart) move(duration string, back bool) error {
	d, err := p.length(duration)
	if err != nil {
		return err
	}
	if back {
		if p.now-d < p.barStart-sameTime {
			return fmt.Errorf("backup of %s goes back beyond the beginning of the measure", cleanText([]byte(duration)))
		}
		p.now = max(p.barStart, p.now-d)
		return nil
	}
	return p.advance(d)
}

func (p *scorePart) advance(d float64) error {
	p.now += d
	p.reach = max(p.reach, p.now)
	if p.now > longestScore {
		return fmt.Errorf("the part lasts longer than %d quarter notes", longestScore)
	}
	return nil
}

// attributes reads divisions, metre, transposition and tuning.
func (p *scorePart) attributes(a xmlAttributes) error {
	if a.Divisions != "" {
		d, err := strconv.ParseFloat(strings.TrimSpace(a.Divisions), 64)
		if err != nil || d <= 0 || math.IsInf(d, 0) || math.IsNaN(d) {
			return &pitch.InputError{What: "divisions", Value: cleanText([]byte(a.Divisions)), Want: "a number above 0"}
		}
		p.divisions = d
	}
	for _, t := range a.Times {
		if m, ok := parseTime(t.Beats, t.BeatType); ok {
			p.meters = append(p.meters, placed[line.Meter]{p.now, m})
		} else if len(t.Beats) > 0 {
			p.oddMeters++
		}
	}
	for _, t := range a.Transposes {
		p.transpose[t.Number] = t
	}
	for _, d := range a.StaffDetails {
		if capo, err := strconv.Atoi(strings.TrimSpace(d.Capo)); err == nil && capo > 0 && capo <= mostFret {
			p.capo = capo
		}
		open := make([]pitch.Pitch, len(d.Tunings))
		for i, t := range d.Tunings {
			// Lines are counted from the lowest, strings from the highest.
			number, err := strconv.Atoi(t.Line)
			named, _, ok := parsePitch(xmlPitch{t.Step, t.Alter, t.Octave})
			if err != nil || !ok || number != i+1 || len(open) > mostStrings {
				open = nil
				break
			}
			open[len(open)-1-i] = named
		}
		if len(open) > 0 {
			p.open = open
		}
	}
	return nil
}

// parseTime reads a time signature; "3+2" over 8 is 5/8.
func parseTime(beats, beatType []string) (line.Meter, bool) {
	if len(beats) != 1 || len(beatType) != 1 {
		return line.Meter{}, false
	}
	sum := 0
	for _, word := range strings.Split(beats[0], "+") {
		n, err := strconv.Atoi(strings.TrimSpace(word))
		if err != nil || n < 1 || n > 99 {
			return line.Meter{}, false
		}
		sum += n
	}
	unit, err := strconv.Atoi(strings.TrimSpace(beatType[0]))
	m := line.Meter{Beats: sum, Unit: unit}
	return m, err == nil && m.Check() == nil
}

// beatUnits are the lengths of metronome units in quarter notes.
var beatUnits = map[string]float64{"whole": 4, "half": 2, "quarter": 1, "eighth": 0.5, "16th": 0.25}

// direction reads the tempo of a metronome mark, unless playback's is given.
func (p *scorePart) direction(d xmlDirection) {
	if d.Sound != nil {
		p.sound(*d.Sound)
		if d.Sound.Tempo != "" {
			return
		}
	}
	for _, t := range d.Types {
		for _, m := range t.Metronomes {
			if len(m.BeatUnit) != 1 {
				continue
			}
			unit := beatUnits[strings.TrimSpace(m.BeatUnit[0])]
			if len(m.Dots) > 0 {
				unit *= 1.5
			}
			number := strings.Trim(m.PerMinute, "abcdefghijklmnopqrstuvwxyz=()~. ")
			if perMinute, err := strconv.ParseFloat(number, 64); err == nil {
				p.setTempo(perMinute * unit)
			}
		}
	}
}

// sound reads the tempo and swing of playback.
func (p *scorePart) sound(s xmlSound) {
	if tempo, err := strconv.ParseFloat(strings.TrimSpace(s.Tempo), 64); err == nil {
		p.setTempo(tempo)
	}
	if s.Swing == nil {
		return
	}
	long, errLong := strconv.Atoi(strings.TrimSpace(s.Swing.First))
	short, errShort := strconv.Atoi(strings.TrimSpace(s.Swing.Second))
	swing := line.Swing{Long: long, Short: short}
	if kind := or(s.Swing.Type, "eighth"); kind != "eighth" {
		p.oddSwings++
		return
	}
	if s.Swing.Straight != nil || errLong != nil || errShort != nil || swing.Check() != nil {
		swing = line.Swing{}
	}
	if p.swings == 0 {
		p.swing = swing
	}
	p.swings++
}

func (p *scorePart) setTempo(tempo float64) {
	if tempo >= slowestTempo && tempo <= fastestTempo {
		p.tempos = append(p.tempos, placed[float64]{p.now, tempo})
	}
}
