package line

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"heddle/pitch"
)

func TestLandingBeat(t *testing.T) {
	for _, c := range []struct {
		name string
		end  float64 // of the pattern, in quarters
		Meter
		beat float64
		bars int
		want float64
	}{
		{"the next bar line", 28.5, CommonTime, 1, 0, 32},
		{"the bar line the pattern ends on", 24, CommonTime, 1, 0, 24},
		{"beat 3 of the same bar", 28.5, CommonTime, 3, 0, 30},
		{"beat 3 has gone by", 30.5, CommonTime, 3, 0, 34},
		{"the off-beat of 2", 8, CommonTime, 2.5, 0, 9.5},
		{"beat 4 of six eight counts eighths", 4, Meter{6, 8}, 4, 0, 4.5},
		{"a line that ends within its pickup", -0.5, CommonTime, 1, 0, 0},
		{"the bar after the last of four", 15, CommonTime, 1, 4, 16},
		{"its beat 2, though the pattern ended long before", 6, CommonTime, 2, 4, 17},
	} {
		got, err := LandingBeat(Beat(c.end*960), c.Meter, c.beat, c.bars)
		if err != nil || got.Quarters() != c.want {
			t.Errorf("%s: %v, %v; want %v", c.name, got, err, c.want)
		}
	}
	for _, beat := range []float64{0, 0.99, 5, -1, math.NaN(), math.Inf(1)} {
		_, err := LandingBeat(0, CommonTime, beat, 0)
		var input *pitch.InputError
		if !errors.As(err, &input) || input.What != "land-beat" {
			t.Errorf("beat %v of four: error %v", beat, err)
		}
	}
	if got, err := LandingBeat(0, CommonTime, 4.5, 0); err != nil || got != 3360 {
		t.Errorf("beat 4.5: %v, %v", got, err)
	}
}

// told writes an ending as "Cb4 A3* | Bb3": chromatic notes starred.
func told(e Ending) string {
	var b strings.Builder
	for i, n := range e.Notes {
		if i == len(e.Notes)-1 {
			b.WriteString("| ")
		}
		b.WriteString(n.Pitch.String())
		if n.Scale == Chromatic {
			b.WriteByte('*')
		}
		b.WriteByte(' ')
	}
	return fmt.Sprintf("-%d %s", e.Replaced, strings.TrimSpace(b.String()))
}

func TestLandingsAPlayerWouldTake(t *testing.T) {
	b := func(s string, number, alter int) Target {
		return Target{name(s), pitch.Degree{Number: number, Alter: alter}}
	}
	for _, c := range []struct {
		name    string
		bars    int
		target  Target
		replace int
		want    string
		cost    float64
	}{
		// Four bars end D4 | G♭4 E♭4 D♭4 with a quarter to go.
		{"the third, enclosed by C flat above and A natural below", 4, b("Bb", 3, -1), 0, "-0 Cb4 A3* | Bb3", 1.0},
		// D4 is a semitone up: the turn under it and over it encloses it.
		{"the fifth, enclosed by C and E flat", 4, b("D", 5, 0), 0, "-0 C4 Eb4 | D4", 1.25},
		// Six bars end C♭4 A♭3 G♭3 with no time left: the pattern's own last
		// notes enclose G.
		{"the root, enclosed by the pattern itself", 6, b("G", 1, 0), 0, "-0 | G3", 0},
		{"the third, where one note gives way to the semitone below", 6, b("Bb", 3, -1), 0, "-1 A3* | Bb3", 2.125},
		{"no pattern note may give way, and there is no time: only the root is in reach", 6, b("G", 1, 0), -1, "-0 | G3", 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := weave(Down, FollowFirst, outAndBack(3, 3)...)
			r.Bars = c.bars
			request := landOn(t, r, c.target)
			request.Replace = c.replace
			endings := Land(request)
			if len(endings) == 0 || told(endings[0]) != c.want || endings[0].Cost != c.cost {
				for _, e := range endings {
					t.Logf("%.3f %s", e.Cost, told(e))
				}
				t.Errorf("want %.3f %s first", c.cost, c.want)
			}
		})
	}
}

func TestLandingNotesAreAGroupOfTheirOwn(t *testing.T) {
	r := weave(Down, FollowFirst, outAndBack(3, 3)...)
	r.Bars = 4
	request := landOn(t, r, third)
	e := Land(request)[0]
	whole := lead(request.Line, e)
	if len(whole) != len(request.Line)+3 || len(request.Line) != 30 {
		t.Fatalf("%d notes with the landing, %d without", len(whole), len(request.Line))
	}
	for i, want := range []Note{
		{Pitch: *note("Cb4"), Group: 10, Scale: 1, Step: 1, Start: 15 * Quarter, Duration: 480, Role: LandingRole},
		{Pitch: *note("A3"), Group: 10, Scale: Chromatic, Step: 2, Start: 15*Quarter + 480, Duration: 480, Role: LandingRole},
		{Pitch: *note("Bb3"), Group: 10, Scale: 0, Step: 3, Start: 16 * Quarter, Duration: 4 * Quarter, Role: LandingRole},
	} {
		if whole[30+i] != want {
			t.Errorf("landing note %d: %+v, want %+v", i, whole[30+i], want)
		}
	}
	if e.Target != third.Degree {
		t.Errorf("target %v, want %v", e.Target, third.Degree)
	}
}

func TestTargetLastsToTheEndOfItsBarAndAtLeastAQuarter(t *testing.T) {
	for _, c := range []struct{ beat, want float64 }{{1, 4}, {3, 2}, {4, 1}, {4.5, 1}} {
		r := weave(Down, FollowLast, outAndBack(3, 3)...)
		request := landOn(t, r, third)
		at, err := LandingBeat(6*Quarter, CommonTime, c.beat, 0)
		if err != nil {
			t.Fatal(err)
		}
		request.At = at
		for _, e := range Land(request) {
			if last := e.Notes[len(e.Notes)-1]; last.Start != at || last.Duration.Quarters() != c.want {
				t.Errorf("on beat %v the target starts at %v and lasts %v, want %v", c.beat, last.Start, last.Duration, c.want)
			}
		}
	}
}

func TestChromaticNotesLeadByLetter(t *testing.T) {
	for _, c := range []struct{ key, to, want string }{
		{"C#4", "D4", "C#4"}, // raised below
		{"C#4", "C4", "Db4"}, // lowered above
		{"A3", "Bb3", "A3"},
		{"B3", "Bb3", "Cb4"},
		{"E4", "F4", "E4"},
		{"F4", "Gb4", "F4"},
		{"G4", "Gb4", "G4"},   // not A𝄫
		{"E#4", "F#4", "E#4"}, // the letter below
		{"Bb3", "Cb4", "Bb3"},
		{"B3", "C4", "B3"},
		{"F#4", "Ab4", "F#4"}, // a tone: the plain sharp going up
		{"F#4", "E4", "Gb4"},  // and the plain flat coming down
		{"C4", "Bb3", "C4"},
	} {
		if got := leading(note(c.key).MIDI(), *note(c.to)); got != *note(c.want) {
			t.Errorf("%s to %s is written %v, want %s", c.key, c.to, got, c.want)
		}
	}
}

func TestLandingTakesTheScalesInForce(t *testing.T) {
	// The change comes with the landing: the target is the new chord's, the
	// approach still the old one's.
	r := weave(Down, FollowFirst, outAndBack(3, 3)...)
	r.Bars = 4
	r.Sections = append(r.Sections, Section{Start: 16 * Quarter, Sources: []Source{source("C", minorPentatonic, 10, 13, 3)}})
	fifth := Target{name("Eb"), pitch.Degree{Number: 3, Alter: -1}}
	for _, e := range Land(landOn(t, r, fifth)) {
		for i, n := range e.Notes {
			if last := i == len(e.Notes)-1; last && n.Scale != 2 || !last && n.Scale > 1 {
				t.Errorf("%s: note %d is of scale %d", told(e), i, n.Scale)
			}
		}
	}
}

func TestNoLandingWhereThereIsNone(t *testing.T) {
	r := weave(Down, FollowFirst, outAndBack(3, 3)...)
	good := landOn(t, r, third)
	if len(Land(good)) != defaultEndings {
		t.Fatalf("%d endings, want %d", len(Land(good)), defaultEndings)
	}
	for name, change := range map[string]func(*LandRequest){
		"no line":              func(l *LandRequest) { l.Line = nil },
		"no targets":           func(l *LandRequest) { l.Targets = nil },
		"no sections":          func(l *LandRequest) { l.Sections = nil },
		"no strings":           func(l *LandRequest) { l.Instrument.Open = nil },
		"no value":             func(l *LandRequest) { l.Rhythm.Value = "" },
		"no metre":             func(l *LandRequest) { l.Rhythm.Meter = Meter{} },
		"none asked for":       func(l *LandRequest) { l.Endings = -1 },
		"a time long gone by":  func(l *LandRequest) { l.At = 0 },
		"no way in no time":    func(l *LandRequest) { l.Replace, l.At = -1, l.Line[len(l.Line)-1].End() },
		"a hand off the neck":  func(l *LandRequest) { l.Instrument.Frets = 3 },
		"a section of nothing": func(l *LandRequest) { l.Sections = []Section{{}} },
	} {
		l := good
		change(&l)
		if endings := Land(l); len(endings) != 0 {
			t.Errorf("%s: %d endings, first %s", name, len(endings), told(endings[0]))
		}
	}
}

// lead returns a line with an ending in place of its last notes.
func lead(line []Note, e Ending) []Note {
	kept := max(0, len(line)-e.Replaced)
	return append(line[:kept:kept], e.Notes...)
}
