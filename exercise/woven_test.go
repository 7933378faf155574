package exercise_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"heddle/exercise"
	"heddle/line"
	"heddle/notefile"
	"heddle/pitch"
)

// reread takes a line to another program and back, without its names.
func reread(t *testing.T, ex *exercise.Exercise) exercise.Given {
	t.Helper()
	g := exercise.Given{Title: "a line", Rhythm: ex.Rhythm}
	for _, n := range ex.Notes {
		key := n.Pitch.MIDI()
		plain := line.Note{Pitch: pitch.Named(pitch.PlainName(key%12, true), key), Start: n.Start, Duration: n.Duration}
		g.Notes = append(g.Notes, exercise.GivenNote{Note: plain})
	}
	return g
}

func TestAGivenLineIsReadAsThePatternThatMadeIt(t *testing.T) {
	for _, text := range []string{
		workshop,
		"home: G minor pentatonic\nsuperimpose: semitone up\ngroups: 4,2\nfret: 10\n",
		"home: G minor pentatonic\nsuperimpose: semitone up\norder: 1 3 2\ndirection: up\nfret: 10\n",
		"home: C major\nsuperimpose: tritone\ngroups: 2,2\nfollow: last\ndirection: up-down\n",
		"home: A minor blues\nsuperimpose: tritone\ngroups: 3,3\ndirection: down-up\n",
		"home: G dorian\ngroups: 4\n",
	} {
		made := build(t, text)
		read, err := exercise.Adopt(reread(t, made), exercise.Spec{})
		if err != nil {
			t.Fatal(err)
		}
		p := read.Readings[0].Pattern
		if p == nil {
			t.Errorf("%s: no pattern", text)
			continue
		}
		got := fmt.Sprint(p.Groups, p.Order, p.Follow, p.Direction, p.From, p.To)
		want := fmt.Sprint(made.Spec.Groups, made.Spec.Order, made.Spec.Follow, made.Spec.Direction, 1, len(made.Notes))
		if got != want {
			t.Errorf("%s: got %s, want %s", text, got, want)
		}
	}
}

func TestAReadingIsInTheJSON(t *testing.T) {
	ex, err := exercise.Adopt(reread(t, build(t, workshop)), exercise.Spec{Home: "G minor pentatonic"})
	if err != nil {
		t.Fatal(err)
	}
	data, err := json.Marshal(ex)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		`{"from":4,"to":6,"scale":"Ab minor pentatonic","outside":true,"why":"3 of its 5 notes; 3 of them not in home"}`,
		`"pattern":{"groups":[3,3],"order":"straight","follow":"first","direction":"down","from":1,"to":57}`,
	} {
		if !bytes.Contains(data, []byte(want)) {
			t.Errorf("no %s in the JSON", want)
		}
	}
	plain, _ := json.Marshal(build(t, workshop))
	if bytes.Contains(plain, []byte(`"segments"`)) {
		t.Error("a line that is not given has segments")
	}
}

func TestALineOutOfReachMovesByOctaves(t *testing.T) {
	for _, tt := range []struct{ notes, want, remark string }{
		{"E6 F6 G6", "E5 F5 G5", "the line moved an octave down into the reach of the guitar"},
		{"C2 D2 E2", "C3 D3 E3", "the line moved an octave up into the reach of the guitar"},
		{"E1 F1 G1", "E2 F2 G2", "the line moved an octave up into the reach of the guitar"},
		{"E2 F4 E7", "E2 F4 E5", "1 note moved by octaves into the reach of the guitar"},
		{"E4 F4 G4", "E4 F4 G4", ""},
	} {
		var g exercise.Given
		for i, word := range strings.Fields(tt.notes) {
			p, err := pitch.Parse(word)
			if err != nil {
				t.Fatal(err)
			}
			g.Notes = append(g.Notes, exercise.GivenNote{Note: line.Note{Pitch: p, Start: line.Beat(i) * line.Quarter, Duration: line.Quarter}})
		}
		ex, err := exercise.Adopt(g, exercise.Spec{})
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, n := range ex.Notes {
			got = append(got, n.Pitch.String())
		}
		if strings.Join(got, " ") != tt.want || strings.Join(ex.Remarks, "; ") != tt.remark {
			t.Errorf("%s became %v with %q, want %s with %q", tt.notes, got, ex.Remarks, tt.want, tt.remark)
		}
	}
}

func TestAPartIsChosenByNameOrNumber(t *testing.T) {
	var file bytes.Buffer
	if err := notefile.WriteMIDI(&file, build(t, workshop)); err != nil {
		t.Fatal(err)
	}
	for part, want := range map[string]string{"": "Line", "1": "Line", "2": "Chords", "chords": "Chords"} {
		im, err := notefile.Read("line.mid", bytes.NewReader(file.Bytes()), part)
		if err != nil || im.Part != want {
			t.Errorf("part %q: %q, %v", part, im.Part, err)
		}
	}
	_, err := notefile.Read("line.mid", bytes.NewReader(file.Bytes()), "Drums")
	if err == nil || !strings.Contains(err.Error(), `1 "Line", 2 "Chords"`) {
		t.Error(err)
	}
}
