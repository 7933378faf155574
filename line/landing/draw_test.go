package landing

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
	"pgregory.net/rapid"
)

// scale reads a scale that is known to be good.
func scale(text string) pitch.Scale {
	s, err := pitch.ParseScale(text)
	if err != nil {
		panic(err)
	}
	return s
}

// placed is a scale with its first finger nearest to a fret of the guitar.
func placed(text string, fret, size int) line.Source {
	s := scale(text)
	all := neck.Placements(neck.Guitar(), s)
	nearest := slices.MinFunc(all, func(a, b neck.Placement) int {
		return abs(a.FirstFinger()-fret) - abs(b.FirstFinger()-fret)
	})
	return line.Source{Scale: s, Placement: nearest, Size: size}
}

// workshop is the worked example of the design: threes falling from G minor
// pentatonic at fret 10 and A♭ minor pentatonic at fret 11.
func workshop() line.Request {
	return line.Request{
		Sections:  []line.Section{{Sources: []line.Source{placed("G minor pentatonic", 10, 3), placed("Ab minor pentatonic", 11, 3)}}},
		Direction: line.Down, Follow: line.FollowFirst, Repeats: line.KeepRepeats, Rhythm: line.Rhythm{Value: line.Eighth, Meter: line.CommonTime},
	}
}

// landOn is a request to land a line on beat 1 over a chord, where it is asked to.
func landOn(t testing.TB, r line.Request, chord string, degrees ...string) Request {
	t.Helper()
	notes, err := line.Build(r)
	if err != nil {
		t.Fatal(err)
	}
	beats, err := Beats(notes[len(notes)-1].End(), r.Rhythm.Meter, 1, r.Bars)
	if err != nil {
		t.Fatal(err)
	}
	land := Request{Line: notes, Sections: r.Sections, Instrument: neck.Guitar(), Rhythm: r.Rhythm}
	for _, at := range beats {
		land.Goals = append(land.Goals, goal(t, at, chord, degrees...))
	}
	return land
}

func goal(t testing.TB, at line.Beat, chord string, degrees ...string) Goal {
	t.Helper()
	c, err := pitch.ParseChord(chord)
	if err != nil {
		t.Fatal(err)
	}
	g := Goal{At: at}
	for _, d := range c.Degrees {
		g.Chord = append(g.Chord, (c.Root.Class()+d.Semitones())%12)
	}
	for _, text := range degrees {
		d, err := pitch.ParseDegree(text)
		if err != nil {
			t.Fatal(err)
		}
		name := c.Target(d)
		g.Targets = append(g.Targets, Target{name, c.Degree(name, pitch.Scale{})})
	}
	return g
}

// told writes an ending as "-2 C4 A3* | Bb3 enclosed from above": how many notes it
// replaces, then its own, chromatic ones starred, then its kind.
func told(e Ending) string {
	var b strings.Builder
	for i, n := range e.Notes {
		if i == len(e.Notes)-1 {
			b.WriteString("| ")
		}
		b.WriteString(n.Pitch.String())
		if n.Scale == line.Chromatic {
			b.WriteByte('*')
		}
		b.WriteByte(' ')
	}
	return fmt.Sprintf("-%d %s%v", e.Replaced, b.String(), e.Kind)
}

// whole returns a line with an ending in place of its last notes.
func whole(notes []line.Note, e Ending) []line.Note {
	kept := max(0, len(notes)-e.Replaced)
	return append(notes[:kept:kept], e.Notes...)
}

// homeTypes, distances and chords are what the drawn lines are made from.
var (
	homeTypes = []string{"minor pentatonic", "major pentatonic", "minor blues", "dorian", "mixolydian", "whole tone", "major"}
	distances = []string{"semitone up", "semitone down", "tritone", "minor third up", "whole tone down", "major third up"}
	chords    = []string{"m7", "7", "maj7", "m7b5", "sus4", "6", "5"}
)

// drawLine draws any line of one to three scales near one fret.
func drawLine(t *rapid.T) line.Request {
	root := pitch.PlainName(rapid.IntRange(0, 11).Draw(t, "root"), true)
	home := scale(root.String() + " " + rapid.SampledFrom(homeTypes).Draw(t, "home"))
	scales := []pitch.Scale{home}
	for range rapid.IntRange(0, 2).Draw(t, "superimposed") {
		s, err := pitch.Relative(home, rapid.SampledFrom(distances).Draw(t, "distance"))
		if err != nil {
			t.Fatal(err)
		}
		scales = append(scales, s.Scale)
	}
	fret := rapid.IntRange(1, 13).Draw(t, "fret")
	r := line.Request{
		Direction: rapid.SampledFrom([]line.Direction{line.Down, line.Up, line.DownUp, line.UpDown}).Draw(t, "direction"),
		Repeats:   line.KeepRepeats,
		Follow:    rapid.SampledFrom([]line.Follow{line.FollowFirst, line.FollowLast}).Draw(t, "follow"),
		Rhythm: line.Rhythm{
			Value: rapid.SampledFrom([]line.Value{line.QuarterNote, line.Eighth, line.EighthTriplet, line.Sixteenth, line.Quintuplet}).Draw(t, "value"),
			Meter: rapid.SampledFrom([]line.Meter{line.CommonTime, {Beats: 3, Unit: 4}, {Beats: 6, Unit: 8}, {Beats: 5, Unit: 4}}).Draw(t, "meter"),
		},
		Sections: make([]line.Section, 1),
	}
	for _, s := range scales {
		r.Sections[0].Sources = append(r.Sections[0].Sources, placed(s.Name(), fret, rapid.IntRange(1, 4).Draw(t, "size")))
	}
	return r
}

// drawLanding draws a line and a landing; at most left notes fit in the time that is
// left, besides those replaced.
func drawLanding(t *rapid.T, replace, left int) Request {
	r := drawLine(t)
	notes, err := line.Build(r)
	if err != nil {
		t.Fatal(err)
	}
	notes = notes[:rapid.IntRange(1, len(notes)).Draw(t, "cut")]
	value, end := r.Rhythm.Value.Length(), notes[len(notes)-1].End()
	if rapid.Bool().Draw(t, "change") {
		at := end + line.Beat(rapid.IntRange(-2, 2).Draw(t, "when"))*value
		if at > 0 {
			fret := r.Sections[0].Sources[0].Placement.FirstFinger()
			r.Sections = append(r.Sections, line.Section{Start: at, Sources: []line.Source{placed("D "+rapid.SampledFrom(homeTypes).Draw(t, "next home"), fret, 2)}})
		}
	}
	l := Request{Line: notes, Sections: r.Sections, Instrument: neck.Guitar(), Rhythm: r.Rhythm, Replace: rapid.IntRange(1, replace+1).Draw(t, "replace") - 1}
	if l.Replace == 0 {
		l.Replace = -1
	}
	at := end + line.Beat(rapid.IntRange(0, left).Draw(t, "left"))*value + line.Beat(rapid.IntRange(0, 1).Draw(t, "odd"))*60
	if rapid.Bool().Draw(t, "early") {
		if early := at - value*line.Beat(rapid.IntRange(1, 2).Draw(t, "by")); early >= end {
			l.Goals = append(l.Goals, drawGoal(t, early))
		}
	}
	l.Goals = append(l.Goals, drawGoal(t, at))
	return l
}

func drawGoal(t *rapid.T, at line.Beat) Goal {
	chord, err := pitch.ParseChord(pitch.PlainName(rapid.IntRange(0, 11).Draw(t, "chord root"), true).String() + rapid.SampledFrom(chords).Draw(t, "chord"))
	if err != nil {
		t.Fatal(err)
	}
	g := Goal{At: at}
	for _, d := range chord.Degrees {
		g.Chord = append(g.Chord, (chord.Root.Class()+d.Semitones())%12)
	}
	for range rapid.IntRange(1, 2).Draw(t, "targets") {
		name := chord.Target(pitch.Degree{Number: rapid.SampledFrom([]int{1, 3, 5, 7, 9}).Draw(t, "target")})
		g.Targets = append(g.Targets, Target{name, chord.Degree(name, pitch.Scale{})})
	}
	return g
}

func abs(n int) int { return max(n, -n) }
