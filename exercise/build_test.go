package exercise_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"heddle/exercise"
	"heddle/line"
	"heddle/pitch"
)

func asInput(err error, target **pitch.InputError) bool { return errors.As(err, target) }

func build(t testing.TB, text string) *exercise.Exercise {
	t.Helper()
	spec, err := exercise.ParseText(text)
	if err != nil {
		t.Fatal(err)
	}
	ex, err := exercise.Build(spec)
	if err != nil {
		t.Fatal(err)
	}
	return ex
}

const workshop = `home: G minor pentatonic
superimpose: semitone up
groups: 3,3
fret: 10
`

// groupsOf writes a line's pattern notes group by group.
func groupsOf(ex *exercise.Exercise) string {
	var b strings.Builder
	for i, n := range ex.Notes {
		switch {
		case i == 0:
		case n.Group != ex.Notes[i-1].Group:
			b.WriteString(" | ")
		default:
			b.WriteString(" ")
		}
		b.WriteString(n.Pitch.String())
	}
	return b.String()
}

// The worked example of the rules of the line.
func TestTheWorkedLineOfThrees(t *testing.T) {
	first := groupsOf(build(t, workshop))
	want := "F5 D5 C5 | Eb5 Db5 Cb5 | D5 C5 Bb4 | Db5 Cb5 Ab4 | C5 Bb4 G4 | Cb5 Ab4 Gb4 | Bb4 G4 F4 | Ab4 Gb4 Eb4 | G4 F4 D4 | "
	if !strings.HasPrefix(first, want) || !strings.HasSuffix(first, " | G3 F3 D3") || strings.Count(first, "|")+1 != 19 {
		t.Errorf("follow first: %s", first)
	}
	last := groupsOf(build(t, workshop+"follow: last\n"))
	if want := "F5 D5 C5 | Cb5 Ab4 Gb4 | F4 D4 C4 | Cb4 Ab3 Gb3"; last != want {
		t.Errorf("follow last: %s, want %s", last, want)
	}
}

func TestTheSentence(t *testing.T) {
	ex := build(t, workshop+"land: third\ntempo: 84\n")
	want := "Over Gm7, weave G minor pentatonic with the same scale a semitone up, three notes and three notes, falling, each group starting beside the first note of the one before, near fret 10, in eighths at 84, landing on the third."
	if ex.Sentence != want {
		t.Errorf("got  %s\nwant %s", ex.Sentence, want)
	}
}

// Threes in eighths last one and a half beats: common practice arithmetic,
// lcm(3, 8) = 24 eighths = 3 bars.
func TestThreesInEighthsMeetTheBarLineAfterThreeBars(t *testing.T) {
	if got := build(t, workshop).Cycle; got != (line.Cycle{Notes: 24, Bars: 3}) {
		t.Errorf("cycle %+v", got)
	}
}

func TestTheWindowsOfTheWorkshopLine(t *testing.T) {
	ex := build(t, workshop)
	home, over := ex.Scales[0].Placement, ex.Scales[1].Placement
	got := fmt.Sprintf("%v string %d shape %s, %v", home.Window, home.RootString, home.Shape, over.Window)
	if want := "10–13 string 5 shape A, 11–14"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	if ex.Collection.Forte != "10-5" || ex.Collection.Messiaen != 0 {
		t.Errorf("collection %+v", ex.Collection)
	}
}

// Computed from the interval structure; a note is outside where the chord has
// no place for it: the major seventh of a dominant chord.
// Where no fret is asked for the line lies lowest in the middle of the neck, and its
// own canonical spec brings the same placement back. A minor pentatonic is played at
// fret 5 (common practice).
func TestWithoutAFretAScaleLiesInTheMiddleOfTheNeck(t *testing.T) {
	for _, home := range []string{"E minor pentatonic", "A minor pentatonic", "A blues", "C major", "G major", "F major"} {
		ex := build(t, "home: "+home)
		if low := ex.Scales[0].Placement.Window.Low; low < 3 || low > 12 || home[0] == 'A' && low != 5 {
			t.Errorf("%s starts at fret %d", home, low)
		}
		again := build(t, ex.Spec.Text())
		if got, want := again.Scales[0].Placement.Window, ex.Scales[0].Placement.Window; got != want {
			t.Errorf("%s: fret %d brings back %v, want %v", home, ex.Spec.Fret, got, want)
		}
	}
}

// Fret 0 is the open position in every form: it uses an open string wherever a
// placement that one hand can join has one, and its canonical spec brings it back.
func TestFretZeroIsTheOpenPosition(t *testing.T) {
	for _, root := range strings.Fields("C Db D Eb E F F# G Ab A Bb B") {
		for _, kind := range []string{"minor pentatonic", "major pentatonic", "major", "dorian", "minor blues", "octatonic"} {
			home := root + " " + kind
			ex := build(t, "home: "+home+"\nfret: 0\n")
			near, err := exercise.Near(exercise.Spec{Home: home})
			if err != nil {
				t.Fatal(err)
			}
			lowest := 99
			for _, pair := range near.Pairs {
				lowest = min(lowest, pair.Home.Window.Low)
			}
			if got := ex.Scales[0].Placement.Window.Low; got != lowest {
				t.Errorf("%s starts at fret %d, want %d", home, got, lowest)
			}
			if open := strings.Contains(ex.Sentence, ", near fret 0, in open position,"); open != (lowest == 0) {
				t.Errorf("%s: %s", home, ex.Sentence)
			}
			data, err := json.Marshal(ex.Spec)
			if err != nil {
				t.Fatal(err)
			}
			var fromJSON exercise.Spec
			if err := json.Unmarshal(data, &fromJSON); err != nil {
				t.Fatal(err)
			}
			fromQuery, err := exercise.ParseQuery(ex.Spec.Query())
			if err != nil {
				t.Fatal(err)
			}
			if fromJSON.Fret != ex.Spec.Fret || fromQuery.Fret != ex.Spec.Fret {
				t.Errorf("%s: fret %d is %d in JSON and %d in a query", home, ex.Spec.Fret, fromJSON.Fret, fromQuery.Fret)
			}
			if again := build(t, ex.Spec.Text()); again.Sentence != ex.Sentence {
				t.Errorf("%s: %s\nthen %s", home, ex.Sentence, again.Sentence)
			}
		}
	}
}

func TestWordsAreTakenAsPlayersWriteThem(t *testing.T) {
	for _, tt := range []struct{ text, want string }{
		{"home: Gm pent\nland: third b7\n", "land: third,b7"},
		{"home: G minor pentatonic\nland: the third or the flat seventh\n", "land: third,flat seventh"},
		{"home: D minor\ntuning: DADGAD\n", "tuning: D2 A2 D3 G3 A3 D4"},
		{"home: D minor\ntuning: drop D\n", "tuning: D2 A2 D3 G3 B3 E4"},
		{"home: D minor\ntuning: D A D G B E\n", "tuning: D2 A2 D3 G3 B3 E4"},
		{"home: D minor\ninstrument: bass\ntuning: drop D\n", "tuning: D1 A1 D2 G2"},
	} {
		ex := build(t, tt.text)
		if retuned := strings.Contains(tt.text, "tuning"); retuned != strings.Contains(ex.Sentence, ", tuned D A ") {
			t.Errorf("%q: %s", tt.text, ex.Sentence)
		}
		if text := ex.Spec.Text(); !strings.Contains(text, tt.want+"\n") {
			t.Errorf("%q becomes\n%s", tt.text, text)
		}
		if again := build(t, ex.Spec.Text()); again.Sentence != ex.Sentence {
			t.Errorf("%s\nthen %s", ex.Sentence, again.Sentence)
		}
	}
}

func TestEFlatMinorPentatonicOverA7(t *testing.T) {
	ex := build(t, "home: A mixolydian\nchord: A7\nsuperimpose: Eb minor pentatonic\n")
	want := map[string]string{"Eb": "#11", "Gb": "13", "Ab": "7", "Bb": "b9", "Db": "3"}
	for _, n := range ex.Notes {
		if n.Scale != 1 {
			continue
		}
		name := n.Pitch.Name.String()
		if got := n.Degree.String(); got != want[name] {
			t.Errorf("%s is %s of A7, want %s", name, got, want[name])
		}
		if name == "Ab" && n.Function != pitch.Outside {
			t.Errorf("Ab over A7 is %s, want outside", n.Function)
		}
	}
}

func TestEveryNoteOfALineIsPlayable(t *testing.T) {
	for _, text := range []string{
		workshop + "land: third\n",
		"home: A minor blues\nsuperimpose: tritone\nland: root\ndirection: up-down\nvalue: sixteenth\n",
		"home: E phrygian dominant\ninstrument: bass\ngroups: 4\n",
		"home: F# dorian\nsuperimpose: minor third up\ncapo: 2\nleft: true\n",
		"home: C major\nchanges: Dm7 | G7 | Cmaj7 | %\nsuperimpose: whole tone up\nland: third,root\nbars: 4\n",
		"home: D dorian | G mixolydian | C major\nchanges: Dm7 | G7 | Cmaj7\ngroups: 4\nbars: 6\n",
		"home: G minor pentatonic\ninstrument: ukulele\n",
		"home: G minor pentatonic\ninstrument: mandolin\nsuperimpose: semitone up\n",
	} {
		ex := build(t, text)
		before := line.Beat(math.MinInt32)
		for _, n := range ex.Notes {
			if got := ex.Instrument.MIDI(n.Spot); got != n.Pitch.MIDI() {
				t.Errorf("%s: string %d fret %d sounds %d, the note is %s (%d)", text, n.String, n.Fret, got, n.Pitch, n.Pitch.MIDI())
			}
			if (n.Finger == 0) != (n.Fret == 0) || n.Finger < 0 || n.Finger > 4 || n.Stroke == "" {
				t.Errorf("%s: %v has finger %d and stroke %q", text, n.Pitch, n.Finger, n.Stroke)
			}
			if n.Start < before {
				t.Errorf("%s: %v starts before the note before it ends", text, n.Pitch)
			}
			before = n.Start + n.Duration
			if n.Scale != line.Chromatic {
				if name, ok := ex.Scales[n.Scale].Named(n.Pitch.Name.Class()); !ok || name != n.Pitch.Name {
					t.Errorf("%s: %v is not a note of %s", text, n.Pitch, ex.Scales[n.Scale].Name())
				}
			}
		}
	}
}

func TestRunsAndRepeatsInTheSentence(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"home: G minor pentatonic\nsuperimpose: semitone up\ngroups: run\nfret: 10\n", ", in a run through both, falling, near fret 10"},
		{"home: G minor pentatonic\ngroups: run\nfret: 10\n", ", in a run, falling, near fret 10"},
		{workshop + "repeats: skip\n", " note of the one before, repeated notes left out, near fret 10"},
	} {
		if got := build(t, c.text).Sentence; !strings.Contains(got, c.want) {
			t.Errorf("%q lacks %q", got, c.want)
		}
	}
}

func TestSkippedRepeatsAreLeftOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		spec := anySpec(t)
		spec.Repeats, spec.Cut = "skip", ""
		notes := mustBuild(t, spec).Notes
		for i, n := range notes[1:] {
			if n.Pitch.MIDI() == notes[i].Pitch.MIDI() {
				t.Fatalf("%v comes twice", n.Pitch)
			}
		}
	})
}

func TestALandingIsOnTheBeatAndOnTheTarget(t *testing.T) {
	ex := build(t, workshop+"land: third\n")
	last := ex.Notes[len(ex.Notes)-1]
	if last.Role != line.LandingRole || last.Start != ex.Endings[0].At || last.Pitch.Name.String() != "Bb" {
		t.Errorf("the line ends with %+v", last)
	}
	// The pattern ends on the off-beat of 1 in bar 8: it can land on beat 3 of that bar.
	if got := ex.BarBeat(ex.Endings[0].At); got != "bar 8, beat 3" || ex.Length != 8*4*line.Quarter {
		t.Errorf("the line lands on %s and lasts %v", got, ex.Length)
	}
	for i, e := range ex.Endings[1:] {
		if got := ex.BarBeat(e.At); got != "bar 9, beat 1" {
			t.Errorf("ending %d lands on %s", i+2, got)
		}
		if i > 0 && e.Cost < ex.Endings[i].Cost {
			t.Errorf("ending %d costs %g, the one before %g", i+2, e.Cost, ex.Endings[i].Cost)
		}
	}
	second := build(t, workshop+"land: third\nending: 2\n")
	if groupsOf(second) == groupsOf(ex) {
		t.Error("the second ending is the first")
	}
}
