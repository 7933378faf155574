package musicxml

import (
	"encoding/xml"
	"fmt"
	"math"
	"strconv"
	"strings"

	"heddle/exercise"
	"heddle/line"
	"heddle/notefile/melody"
	"heddle/notefile/sheet"
	"heddle/pitch"
)

// A scorePart is one part of a score. Positions are in quarter notes from the
// beginning of the part: a file's own divisions need not fit the beat, and sums
// of rounded lengths would drift.
type scorePart struct {
	id        string
	divisions float64
	barStart  float64 // of the open measure
	now       float64
	reach     float64 // the furthest position in the open measure
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
	transpose map[int]transposition // by staff; 0 for all

	measures, repeats, graces, cues, microtones, oddMeters, oddSwings int

	kept *melody.Counter
}

// placed is something that begins at a position.
type placed[T any] struct {
	At float64
	Is T
}

// firstMeasure is what decides whether there is a pickup.
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

// A scoreNote is a note with its position.
type scoreNote struct {
	exercise.GivenNote
	At, Until float64
}

// longestScore is the last position in a file, in quarter notes: sheet.MaxBars
// bars of the longest common metre.
const longestScore = sheet.MaxBars * 12

// sameTime is how far apart, in quarter notes, two positions may be that are
// meant to be one: far less than a beat, for rounded divisions.
const sameTime = 1.0 / 4096

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
		return 0, &pitch.InputError{What: "duration", Value: melody.CleanText(duration), Want: "a number of divisions of the quarter note"}
	}
	return d / p.divisions, nil
}

func (p *scorePart) backup(l xmlLength) error {
	d, err := p.length(l.Duration)
	if err != nil {
		return err
	}
	if p.now-d < p.barStart-sameTime {
		return fmt.Errorf("backup of %s goes back beyond the beginning of the measure", melody.CleanText(l.Duration))
	}
	p.now = max(p.barStart, p.now-d)
	return nil
}

// forward goes on in the measure without a note.
func (p *scorePart) forward(l xmlLength) error {
	d, err := p.length(l.Duration)
	if err != nil {
		return err
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
			return &pitch.InputError{What: "divisions", Value: melody.CleanText(a.Divisions), Want: "a number above 0"}
		}
		p.divisions = d
	}
	for _, t := range a.Times {
		if m, ok := parseTime(t.Beats, t.BeatType); ok {
			p.meters = append(p.meters, placed[line.Meter]{p.now, m})
		} else if len(t.Beats) > 0 {
			p.oddMeters++
		}
		if err := p.kept.Keep(); err != nil {
			return err
		}
	}
	for _, t := range a.Transposes {
		staff, _ := strconv.Atoi(t.Number)
		p.transpose[staff] = t.read()
		if err := p.kept.Keep(); err != nil {
			return err
		}
	}
	for _, d := range a.StaffDetails {
		if capo, err := strconv.Atoi(strings.TrimSpace(d.Capo)); err == nil && capo > 0 && capo <= mostFret {
			p.capo = capo
		}
		if open := tuning(d.Tunings); len(open) > 0 {
			p.open = open
		}
	}
	return nil
}

// tuning reads the tuning of a staff, or returns nil if it can't be one. Lines
// are counted from the lowest, strings from the highest.
func tuning(tunings []xmlTuning) []pitch.Pitch {
	if len(tunings) > mostStrings {
		return nil
	}
	open := make([]pitch.Pitch, len(tunings))
	for i, t := range tunings {
		number, err := strconv.Atoi(t.Line)
		named, _, ok := parsePitch(xmlPitch{t.Step, t.Alter, t.Octave})
		if err != nil || !ok || number != i+1 {
			return nil
		}
		open[len(open)-1-i] = named
	}
	return open
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

// direction reads the tempo of a metronome mark, unless there is one for
// playback.
func (p *scorePart) direction(d xmlDirection) error {
	if d.Sound != nil {
		if err := p.sound(*d.Sound); err != nil || d.Sound.Tempo != "" {
			return err
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
			if err := p.kept.Keep(); err != nil {
				return err
			}
		}
	}
	return nil
}

func (p *scorePart) sound(s xmlSound) error {
	if tempo, err := strconv.ParseFloat(strings.TrimSpace(s.Tempo), 64); err == nil {
		p.setTempo(tempo)
	}
	if s.Swing == nil {
		return nil
	}
	if kind := or(s.Swing.Type, "eighth"); kind != "eighth" {
		p.oddSwings++
		return nil
	}
	long, errLong := strconv.Atoi(strings.TrimSpace(s.Swing.First))
	short, errShort := strconv.Atoi(strings.TrimSpace(s.Swing.Second))
	swing := line.Swing{Long: long, Short: short}
	if s.Swing.Straight != nil || errLong != nil || errShort != nil || swing.Check() != nil {
		swing = line.Swing{}
	}
	if p.swings == 0 {
		p.swing = swing
	}
	p.swings++
	return nil
}

func (p *scorePart) setTempo(tempo float64) {
	if sheet.CheckTempo(tempo) == nil {
		p.tempos = append(p.tempos, placed[float64]{p.now, tempo})
	}
}

// barline counts repeats, which are not played out.
func (p *scorePart) barline(b xmlBarline) error {
	if b.Repeat != nil || b.Ending != nil {
		p.repeats++
	}
	return nil
}
