package model

import (
	"encoding/xml"
	"math"
	"slices"
	"strconv"
	"strings"
)

// A partXML is what the MusicXML says, as far as it is checked.
type partXML struct {
	Measures []measureXML `xml:"part>measure"`
}

type measureXML struct {
	Implicit  string `xml:"implicit,attr"`
	Divisions int    `xml:"attributes>divisions"`
	Beats     string `xml:"attributes>time>beats"`
	BeatType  string `xml:"attributes>time>beat-type"`
	Metronome []struct {
		Unit string     `xml:"beat-unit"`
		Dots []struct{} `xml:"beat-unit-dot"`
		Per  float64    `xml:"per-minute"`
	} `xml:"direction>direction-type>metronome"`
	Sound []struct {
		Tempo float64 `xml:"tempo,attr"`
	} `xml:"direction>sound"`
	Notes []noteXML `xml:"note"`
}

type noteXML struct {
	Staff string    `xml:"staff"`
	Rest  *struct{} `xml:"rest"`
	Pitch struct {
		Step   string `xml:"step"`
		Alter  int    `xml:"alter"`
		Octave int    `xml:"octave"`
	} `xml:"pitch"`
	Duration   float64    `xml:"duration"`
	Type       string     `xml:"type"`
	Dots       []struct{} `xml:"dot"`
	Accidental *struct {
		Cautionary string `xml:"cautionary,attr"`
		Sign       string `xml:",chardata"`
	} `xml:"accidental"`
	Actual float64 `xml:"time-modification>actual-notes"`
	Normal float64 `xml:"time-modification>normal-notes"`
	Beams  []struct {
		Number int    `xml:"number,attr"`
		Does   string `xml:",chardata"`
	} `xml:"beam"`
	Ties []struct {
		Type string `xml:"type,attr"`
	} `xml:"tie"`
}

func readScore(text []byte) (p partXML, err error) {
	err = xml.Unmarshal(text, &p)
	return p, err
}

// written is how long each note type lasts, in quarter notes.
var written = map[string]float64{"breve": 8, "whole": 4, "half": 2, "quarter": 1, "eighth": .5, "16th": .25, "32nd": .125, "64th": .0625, "128th": .03125}

// A sign is a note or rest of the upper staff with its place in the bar, in
// quarter notes.
type sign struct {
	noteXML
	at, length float64
}

func checkWriting(f *faults, b *built) {
	m := b.score.Measures[0]
	divisions := float64(m.Divisions)
	beats, _ := strconv.Atoi(m.Beats)
	unit, _ := strconv.Atoi(m.BeatType)
	bar := float64(beats) * 4 / float64(unit)
	compound := unit >= 8 && beats%3 == 0 && beats > 3
	for _, metronome := range m.Metronome {
		if tempo := m.Sound[0].Tempo; compound && (metronome.Unit != "quarter" || len(metronome.Dots) != 1 || math.Abs(metronome.Per*1.5-tempo) > .51) {
			f.add("a compound metre's tempo is in dotted quarters", b, "%s: %d dots, %g, sounds at %g", b.fields.Get("meter"), len(metronome.Dots), metronome.Per, tempo)
		}
	}
	for i, m := range b.score.Measures {
		var signs []sign
		at := 0.
		for _, n := range m.Notes {
			if n.Staff == "2" {
				continue
			}
			s := sign{noteXML: n, at: at, length: n.Duration / divisions}
			at += s.length
			signs = append(signs, s)
			checkValue(f, b, i, s, len(m.Notes) == 1 || n.Rest != nil && s.length == bar)
		}
		if math.Abs(at-bar) > 1./480 && m.Implicit != "yes" {
			f.add("a bar is full", b, "bar %d lasts %g, want %g", i+1, at, bar)
		}
		checkBeams(f, b, i, signs, beats, unit)
		checkAccidentals(f, b, i, signs)
		if !compound {
			checkMiddle(f, b, i, signs, beats, unit)
		}
	}
}

// checkValue checks that type, dots and tuplet say how long a sign lasts.
func checkValue(f *faults, b *built, bar int, s sign, wholeBar bool) {
	if wholeBar && s.Rest != nil {
		return
	}
	length := written[s.Type] * (2 - math.Pow(.5, float64(len(s.Dots))))
	if s.Actual > 0 {
		length *= s.Normal / s.Actual
	}
	if math.Abs(length-s.length) > 1./480 {
		f.add("a sign lasts as long as it looks", b, "bar %d at %g: %s with %d dots, %g:%g, lasts %g", bar+1, s.at, s.Type, len(s.Dots), s.Actual, s.Normal, s.length)
	}
}

func on(at, grid float64) bool { return math.Abs(at/grid-math.Round(at/grid)) < .01 }

// checkBeams checks how notes are beamed (Gould 2011, "Beaming according to the
// metre", from memory): never across the middle of 4/4; four eighths of one half
// of it together; in compound metres by the dotted quarter.
func checkBeams(f *faults, b *built, bar int, signs []sign, beats, unit int) {
	beam := func(s sign) string {
		for _, x := range s.Beams {
			if x.Number == 1 {
				return x.Does
			}
		}
		return ""
	}
	for _, s := range signs {
		joined := beam(s) == "continue" || beam(s) == "end"
		if !joined {
			continue
		}
		if beats == 4 && unit == 4 && on(s.at-2, 4) {
			f.add("no beam crosses the middle of 4/4", b, "bar %d", bar+1)
		}
		if unit == 8 && beats%3 == 0 && beats > 3 && on(s.at, 1.5) && s.at > 0 && s.Actual == 0 {
			f.add("beams of compound metres keep to the dotted quarter", b, "bar %d at %g", bar+1, s.at)
		}
	}
	if beats != 4 || unit != 4 {
		return
	}
	for i := 0; i+4 <= len(signs); i++ {
		four := signs[i : i+4]
		plain := on(four[0].at, 2) && !slices.ContainsFunc(four, func(s sign) bool { return s.Rest != nil || s.length != .5 || s.Actual > 0 })
		if plain && (beam(four[0]) != "begin" || beam(four[1]) != "continue" || beam(four[2]) != "continue" || beam(four[3]) != "end") {
			f.add("four eighths of half a bar of 4/4 are beamed together", b, "bar %d at %g", bar+1, four[0].at)
		}
	}
}

// checkAccidentals reads the bar as a player does: an accidental holds to the
// end of the bar for its line or space.
func checkAccidentals(f *faults, b *built, bar int, signs []sign) {
	alters := map[string]int{"": 0, "natural": 0, "sharp": 1, "flat": -1, "double-sharp": 2, "sharp-sharp": 2, "flat-flat": -2}
	holds := map[string]int{}
	courtesies := map[string]int{}
	for _, s := range signs {
		if s.Rest != nil {
			continue
		}
		tied := slices.ContainsFunc(s.Ties, func(t struct {
			Type string `xml:"type,attr"`
		}) bool {
			return t.Type == "stop"
		})
		place := s.Pitch.Step + strconv.Itoa(s.Pitch.Octave)
		reads, known := holds[place]
		if s.Accidental != nil {
			sign := strings.TrimSpace(s.Accidental.Sign)
			reads = alters[sign]
			if known && reads == holds[place] || !known && reads == 0 {
				courtesies[place]++
			}
			holds[place] = reads
		} else if tied {
			continue
		}
		if reads != s.Pitch.Alter {
			f.add("accidentals read as the pitch", b, "bar %d at %g: %s%+d reads as %+d", bar+1, s.at, place, s.Pitch.Alter, reads)
		}
	}
	for place, n := range courtesies {
		if n > 1 {
			f.add("a courtesy accidental comes once a bar for each place", b, "bar %d: %s %d times", bar+1, place, n)
		}
	}
}

// checkMiddle checks that a written value shows the middle of 4/4 and the parts
// of 5/4 and 7/8 (Gould 2011, "Grouping of note-values", from memory): a value
// that begins on a weaker place does not hide it, but for half a bar's worth of
// syncopation from beat to beat.
func checkMiddle(f *faults, b *built, bar int, signs []sign, beats, unit int) {
	if beats != 4 || unit != 4 {
		return
	}
	for _, s := range signs {
		hides := s.at < 1.99 && s.at+s.length > 2.01
		if hides && s.at > 0 && (!on(s.at, 1) || !on(s.length, 1)) {
			f.add("the middle of 4/4 stays visible", b, "bar %d: a sign of %g at %g", bar+1, s.length, s.at)
		}
	}
}
