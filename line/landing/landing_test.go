package landing

import (
	"errors"
	"math"
	"slices"
	"testing"

	"heddle/line"
	"heddle/pitch"
)

func TestBeats(t *testing.T) {
	for _, c := range []struct {
		name string
		end  float64 // of the pattern, in quarters
		line.Meter
		beat float64
		bars int
		want []float64
	}{
		{"the next bar line, or beat 3 before it", 29.5, line.CommonTime, 1, 0, []float64{30, 32}},
		{"the bar line, when beat 3 has gone by", 30.5, line.CommonTime, 1, 0, []float64{32}},
		{"the bar line the pattern ends on", 24, line.CommonTime, 1, 0, []float64{24}},
		{"beat 3 of the same bar, since it is asked for", 28.5, line.CommonTime, 3, 0, []float64{30}},
		{"beat 3 of the next bar", 30.5, line.CommonTime, 3, 0, []float64{34}},
		{"the off-beat of 2", 8, line.CommonTime, 2.5, 0, []float64{9.5}},
		{"no strong beat in three four but the first", 8, line.Meter{Beats: 3, Unit: 4}, 1, 0, []float64{9}},
		{"beat 4 of six eight counts eighths", 4, line.Meter{Beats: 6, Unit: 8}, 4, 0, []float64{4.5}},
		{"five four is felt as three and two", 11, line.Meter{Beats: 5, Unit: 4}, 1, 0, []float64{13, 15}},
		{"a line that ends within its pickup", -0.5, line.CommonTime, 1, 0, []float64{0}},
		{"the bar after the last of four", 15, line.CommonTime, 1, 4, []float64{16}},
		{"beat 3 of the fourth, though the pattern ended long before", 6, line.CommonTime, 1, 4, []float64{14, 16}},
		{"beat 2 after the last of four", 6, line.CommonTime, 2, 4, []float64{17}},
	} {
		beats, err := Beats(line.Beat(c.end*960), c.Meter, c.beat, c.bars)
		var got []float64
		for _, at := range beats {
			got = append(got, at.Quarters())
		}
		if err != nil || !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, %v; want %v", c.name, got, err, c.want)
		}
	}
	for _, beat := range []float64{0, 0.99, 5, -1, math.NaN(), math.Inf(1)} {
		_, err := Beats(0, line.CommonTime, beat, 0)
		var input *pitch.InputError
		if !errors.As(err, &input) || input.What != "land-beat" {
			t.Errorf("beat %v of four: error %v", beat, err)
		}
	}
}

func TestEndingsAPlayerWouldTake(t *testing.T) {
	for _, c := range []struct {
		name  string
		bars  int
		third string
		want  []string
	}{
		{"four bars end D4 | G♭4 E♭4 D♭4 with a quarter to go", 4, "third", []string{
			"-0 C4 A3* | Bb3 enclosed from above",
			"-0 D4 C4 | Bb3 down the scale",
			"-0 A3* C4 | Bb3 enclosed from below",
			"-1 D4 F4 A4* | Bb4 by the chord's arpeggio",
			"-1 C4 G3 A3* | Bb3 leap and fill",
		}},
		{"six bars end C♭4 A♭3 G♭3 with no time left", 6, "root", []string{
			"-2 D4 F4 | G4 up the scale",
			"-2 A3* F3 | G3 enclosed from above",
			"-3 Gb3 F3 A3* | G3 enclosed from below",
			"-3 Ab3 E3* F3 | G3 leap and fill",
			"-3 D3 F3 | G3 anticipated by an eighth",
		}},
	} {
		r := workshop()
		r.Bars = c.bars
		var got []string
		for _, e := range Find(landOn(t, r, "Gm7", c.third)) {
			got = append(got, told(e))
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s:", c.name)
			for _, line := range got {
				t.Logf("%q,", line)
			}
		}
	}
}

func TestLandingNotesAreAGroupOfTheirOwn(t *testing.T) {
	r := workshop()
	r.Bars = 4
	request := landOn(t, r, "Gm7", "third")
	e := Find(request)[0]
	notes := whole(request.Line, e)
	for i, n := range notes[len(request.Line)-e.Replaced:] {
		if n.Group != notes[len(request.Line)-e.Replaced-1].Group+1 || n.Step != i+1 || n.Role != line.LandingRole {
			t.Errorf("landing note %d: %+v", i, n)
		}
	}
}

func TestAnticipatedTargetIsHeldOverTheBeat(t *testing.T) {
	request := landOn(t, workshop(), "Gm7", "third")
	endings := Find(request)
	i := slices.IndexFunc(endings, func(e Ending) bool { return e.Kind == Anticipated })
	if i < 0 {
		t.Fatal("no ending comes early")
	}
	e := endings[i]
	target := e.Notes[len(e.Notes)-1]
	if target.Start != e.At-line.Quarter/2 || target.End() != e.At+line.CommonTime.Bar() {
		t.Errorf("the target for %v sounds from %v to %v", e.At, target.Start, target.End())
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
		if got := leading(parsed(t, c.key).MIDI(), parsed(t, c.to)); got != parsed(t, c.want) {
			t.Errorf("%s to %s is written %v, want %s", c.key, c.to, got, c.want)
		}
	}
}

func parsed(t *testing.T, text string) pitch.Pitch {
	t.Helper()
	p, err := pitch.Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestLandingTakesTheScalesInForce(t *testing.T) {
	// The change comes with the landing: the target is the new chord's, the
	// approach still the old one's.
	r := workshop()
	r.Bars = 4
	r.Sections = append(r.Sections, line.Section{Start: 16 * line.Quarter, Sources: []line.Source{placed("C minor pentatonic", 10, 3)}})
	endings := Find(landOn(t, r, "Cm7", "third"))
	if len(endings) == 0 {
		t.Fatal("no ending")
	}
	for _, e := range endings {
		for i, n := range e.Notes {
			if last := i == len(e.Notes)-1; last && n.Scale != 2 || !last && n.Scale > 1 {
				t.Errorf("%s: note %d is of scale %d", told(e), i, n.Scale)
			}
		}
	}
}

func TestNoEndingWhereThereIsNone(t *testing.T) {
	good := landOn(t, workshop(), "Gm7", "third")
	if len(Find(good)) == 0 {
		t.Fatal("no ending")
	}
	end := good.Line[len(good.Line)-1].End()
	for name, change := range map[string]func(*Request){
		"no line":              func(l *Request) { l.Line = nil },
		"no goals":             func(l *Request) { l.Goals = nil },
		"no targets":           func(l *Request) { l.Goals = []Goal{{At: end}} },
		"no sections":          func(l *Request) { l.Sections = nil },
		"no strings":           func(l *Request) { l.Instrument.Open = nil },
		"no value":             func(l *Request) { l.Rhythm.Value = "" },
		"no metre":             func(l *Request) { l.Rhythm.Meter = line.Meter{} },
		"a time long gone by":  func(l *Request) { l.Goals = []Goal{goal(t, 0, "Gm7", "third")} },
		"no way in no time":    func(l *Request) { l.Replace, l.Goals = -1, []Goal{goal(t, end, "Gm7", "third")} },
		"a hand off the neck":  func(l *Request) { l.Instrument.Frets = 3 },
		"a section of nothing": func(l *Request) { l.Sections = []line.Section{{}} },
	} {
		l := good
		change(&l)
		if endings := Find(l); len(endings) != 0 {
			t.Errorf("%s: %d endings, first %s", name, len(endings), told(endings[0]))
		}
	}
}
