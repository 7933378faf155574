package line

import (
	"errors"
	"strings"
	"testing"

	"heddle/pitch"
)

func TestHandLaidPlacementIsTheOneOfCommonPractice(t *testing.T) {
	// G minor pentatonic at fret 10 from the lowest string:
	// 10-13 10-13 10-12 10-12 11-13 10-13 (common practice).
	var got []string
	for _, p := range source("G", minorPentatonic, 10, 13, 1).Placement.Places {
		got = append(got, p.Pitch.String())
	}
	if want := "D3 F3 G3 Bb3 C4 D4 F4 G4 Bb4 C5 D5 F5"; strings.Join(got, " ") != want {
		t.Errorf("got %v, want %s", got, want)
	}
}

func TestWorkedLines(t *testing.T) {
	for _, c := range []struct {
		name string
		Request
		want string
	}{
		{
			"threes falling, each beside the first of the one before (design, worked example)",
			weave(Down, FollowFirst, outAndBack(3, 3)...),
			"F5 D5 C5 | Eb5 Db5 Cb5 | D5 C5 Bb4 | Db5 Cb5 Ab4 | C5 Bb4 G4 | Cb5 Ab4 Gb4 | Bb4 G4 F4 | Ab4 Gb4 Eb4 | G4 F4 D4 | " +
				"Gb4 Eb4 Db4 | F4 D4 C4 | Eb4 Db4 Cb4 | D4 C4 Bb3 | Db4 Cb4 Ab3 | C4 Bb3 G3 | Cb4 Ab3 Gb3 | Bb3 G3 F3 | Ab3 Gb3 Eb3 | G3 F3 D3",
		},
		{
			"threes falling, each beside the last of the one before (design, worked example)",
			weave(Down, FollowLast, outAndBack(3, 3)...),
			"F5 D5 C5 | Cb5 Ab4 Gb4 | F4 D4 C4 | Cb4 Ab3 Gb3",
		},
		{
			"twos and threes rising",
			weave(Up, FollowLast, outAndBack(2, 3)...),
			"D3 F3 | Gb3 Ab3 Cb4 | C4 D4 | Eb4 Gb4 Ab4 | Bb4 C5 | Db5 Eb5 Gb5",
		},
		{
			"a start note inside the hand",
			Request{Sections: []Section{{Sources: outAndBack(3, 3)}}, Direction: Down, Follow: FollowLast, Repeats: KeepRepeats, Start: note("C5"), Rhythm: eighths},
			"C5 Bb4 G4 | Gb4 Eb4 Db4 | C4 Bb3 G3",
		},
		{
			"down and up again: the turn takes the lowest note of the next scale",
			weave(DownUp, FollowLast, outAndBack(3, 3)...),
			"F5 D5 C5 | Cb5 Ab4 Gb4 | F4 D4 C4 | Cb4 Ab3 Gb3 | D3 F3 G3 | Ab3 Cb4 Db4 | D4 F4 G4 | Ab4 Cb5 Db5",
		},
		{
			"up and down again",
			weave(UpDown, FollowLast, outAndBack(4, 4)...),
			"D3 F3 G3 Bb3 | Cb4 Db4 Eb4 Gb4 | G4 Bb4 C5 D5 | Gb5 Eb5 Db5 Cb5 | Bb4 G4 F4 D4 | Db4 Cb4 Ab3 Gb3",
		},
		{
			"one scale in fours, a plain pattern",
			weave(Down, FollowFirst, source("G", minorPentatonic, 10, 13, 4)),
			"F5 D5 C5 Bb4 | D5 C5 Bb4 G4 | C5 Bb4 G4 F4 | Bb4 G4 F4 D4 | G4 F4 D4 C4 | F4 D4 C4 Bb3 | D4 C4 Bb3 G3 | C4 Bb3 G3 F3 | Bb3 G3 F3 D3",
		},
		{
			"ones take turns, each the nearest of its scale",
			weave(Down, FollowFirst, append(outAndBack(1, 1), source("Db", minorPentatonic, 9, 12, 1))...),
			"F5 | Eb5 | Db5 | C5 | Cb5 | Ab4 | G4 | Gb4 | Fb4 | D4 | Db4 | Cb4 | Bb3 | Ab3 | Gb3 | F3 | Eb3 | Db3",
		},
		{
			"a run takes the nearest note of any of them",
			running(weave(Down, FollowFirst, append(outAndBack(1, 1), source("Db", minorPentatonic, 9, 12, 1))...)),
			"F5 | Fb5 | Eb5 | D5 | Db5 | C5 | Cb5 | Bb4 | Ab4 | G4 | Gb4 | F4 | Fb4 | Eb4 | D4 | Db4 | C4 | Cb4 | Bb3 | Ab3 | G3 | Gb3 | F3 | Fb3 | Eb3 | D3 | Db3",
		},
		{
			"a run through two scales",
			running(weave(Down, FollowFirst, outAndBack(1, 1)...)),
			"F5 | Eb5 | D5 | Db5 | C5 | Cb5 | Bb4 | Ab4 | G4 | Gb4 | F4 | Eb4 | D4 | Db4 | C4 | Cb4 | Bb3 | Ab3 | G3 | Gb3 | F3 | Eb3 | D3",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := spoken(build(t, c.Request)); got != c.want {
				t.Errorf("got  %s\nwant %s", got, c.want)
			}
		})
	}
}

func running(r Request) Request {
	r.Run = true
	return r
}

func TestThreesDownTheNeckMakeNineteenGroups(t *testing.T) {
	notes := build(t, weave(Down, FollowFirst, outAndBack(3, 3)...))
	last := notes[len(notes)-1]
	if last.Group != 18 || last.Pitch != *note("D3") || len(notes) != 57 {
		t.Errorf("%d notes, last %v in group %d; want 57, D3 in group 18 (design)", len(notes), last.Pitch, last.Group)
	}
}

func TestOrderIsPlayedInStepsOfTheDirection(t *testing.T) {
	for _, c := range []struct {
		order  string
		size   int
		follow Follow
		want   string
	}{
		{"1 3 2", 3, FollowFirst, "F5 C5 D5 | Eb5 Cb5 Db5 | D5 Bb4 C5"},
		{"1 2 4 3", 4, FollowFirst, "F5 D5 Bb4 C5 | Eb5 Db5 Ab4 Cb5"},
		{"1 3 5", 3, FollowFirst, "F5 C5 G4 | Eb5 Cb5 Gb4"},
		// The last note for rule 3 is the one furthest in the direction, …
		{"1 3 2", 3, FollowLast, "F5 C5 D5 | Cb5 Gb4 Ab4 | F4 C4 D4 | Cb4 Gb3 Ab3"},
		{"1 2 1 3", 4, FollowLast, "F5 D5 F5 C5 | Cb5 Ab4 Cb5 Gb4"},
		// … and the first is step 1, played later or not at all.
		{"3 2 1", 3, FollowFirst, "C5 D5 F5 | Cb5 Db5 Eb5 | Bb4 C5 D5"},
		{"2 3", 2, FollowFirst, "D5 C5 | Db5 Cb5 | C5 Bb4"},
	} {
		t.Run(c.order+" "+string(c.follow), func(t *testing.T) {
			orders, err := ParseOrder(c.order, []int{c.size, c.size})
			if err != nil {
				t.Fatal(err)
			}
			sources := outAndBack(c.size, c.size)
			for i := range sources {
				sources[i].Order = orders[i]
			}
			got := spoken(build(t, weave(Down, c.follow, sources...)))
			if got != c.want && !strings.HasPrefix(got, c.want+" |") {
				t.Errorf("got  %s\nwant %s …", got, c.want)
			}
		})
	}
}

func TestRhythmLaysTheNotes(t *testing.T) {
	r := weave(Down, FollowFirst, outAndBack(3, 3)...)
	r.Rhythm = Rhythm{Value: EighthTriplet, Meter: CommonTime, Pickup: Quarter, Gap: Quarter / 2}
	notes := build(t, r)
	for i, want := range []Beat{-960, -640, -320, 480, 800, 1120, 1920} {
		if n := notes[i]; n.Start != want || n.Duration != 320 {
			t.Errorf("note %d starts at %d for %d, want %d for 320", i, n.Start, n.Duration, want)
		}
	}
}

func TestBarsKeepWholeGroupsThatEndInTime(t *testing.T) {
	for _, c := range []struct {
		bars   int
		pickup Beat
		groups int
	}{
		{1, 0, 2},                // 8 eighths hold two threes
		{3, 0, 8},                // 24 eighths hold eight exactly
		{1, Quarter / 2, 3},      // with an eighth before the bar, three
		{256, 0, 19},             // the neck runs out first; nothing repeats
		{0, 0, 19},               // as long as the neck allows
		{1, 3 * Quarter, 14 / 3}, // 14 eighths
	} {
		r := weave(Down, FollowFirst, outAndBack(3, 3)...)
		r.Bars, r.Rhythm.Pickup = c.bars, c.pickup
		notes := build(t, r)
		if got := notes[len(notes)-1].Group + 1; got != c.groups {
			t.Errorf("%d bars after a pickup of %v: %d groups, want %d", c.bars, c.pickup, got, c.groups)
		}
	}
}

func TestChangesTakeTheSectionTheGroupStartsIn(t *testing.T) {
	r := weave(Down, FollowLast, outAndBack(3, 3)...)
	r.Sections = append(r.Sections, Section{Start: 3 * Quarter, Sources: []Source{
		source("C", minorPentatonic, 10, 13, 2),
		source("Db", minorPentatonic, 11, 14, 2),
	}})
	notes := build(t, r)
	// Group 2 starts on beat 4, where the change is: C minor pentatonic from
	// the nearest note below G♭4.
	want := "F5 D5 C5 | Cb5 Ab4 Gb4 | F4 Eb4 | Db4 Cb4 | Bb3 G3 | Gb3 Fb3"
	if got := spoken(notes); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	for i, scale := range []int{0, 0, 0, 1, 1, 1, 2, 2, 3, 3, 2, 2, 3, 3} {
		if notes[i].Scale != scale {
			t.Errorf("note %d is of scale %d, want %d", i, notes[i].Scale, scale)
		}
	}
}

func TestBuildRefusesWithOneLineThatNamesTheField(t *testing.T) {
	good := func() Request { return weave(Down, FollowFirst, outAndBack(3, 3)...) }
	for _, c := range []struct {
		field  string
		change func(*Request)
		want   string // part of the message
	}{
		{"direction", func(r *Request) { r.Direction = "dwon" }, `did you mean "down"`},
		{"follow", func(r *Request) { r.Follow = "" }, "first or last"},
		{"repeats", func(r *Request) { r.Repeats = "" }, "keep or skip"},
		{"groups", func(r *Request) { r.Run = true }, `"3"`},
		{"value", func(r *Request) { r.Rhythm.Value = "eigth" }, `did you mean "eighth"`},
		{"meter", func(r *Request) { r.Rhythm.Meter = Meter{4, 3} }, `"4/3"`},
		{"pickup", func(r *Request) { r.Rhythm.Pickup = 4 * Quarter }, "less than a bar of 4"},
		{"pickup", func(r *Request) { r.Rhythm.Pickup = -1 }, "0 or more"},
		{"feel", func(r *Request) { r.Rhythm.Swing = Swing{1, 2} }, "1:1 to 4:1"},
		{"feel", func(r *Request) { r.Rhythm.Swing, r.Rhythm.Meter = Swing{2, 1}, Meter{6, 8} }, "straight in 6/8"},
		{"gap", func(r *Request) { r.Rhythm.Gap = -Quarter }, `"-1"`},
		{"bars", func(r *Request) { r.Bars = 10000 }, `"10000": want 1 to 256`},
		{"bars", func(r *Request) { r.Bars = -1 }, "0 for as long as the neck allows"},
		{"bars", func(r *Request) { r.Bars, r.Rhythm.Meter = 1, Meter{1, 4} }, "at least 2"},
		{"groups", func(r *Request) { r.Sections[0].Sources[1].Size = 0 }, `"0": want 1 to 12`},
		{"groups", func(r *Request) { r.Sections[0].Sources[0].Size = 13 }, `"13"`},
		{"groups", func(r *Request) { r.Sections[0].Sources[0].Placement.Places = nil }, "0 notes under the hand"},
		{"order", func(r *Request) { r.Sections[0].Sources[0].Order = []int{1, 2} }, "3 steps for a group of 3"},
		{"order", func(r *Request) { r.Sections[0].Sources[0].Order = []int{1, 2, 14} }, "at most step 12"},
		{"start", func(r *Request) { r.Start = note("E5") }, "G3 Bb3 C4 D4 F4 G4 Bb4 C5 D5 F5"},
		{"start", func(r *Request) { r.Start = note("A#4") }, `did you mean "Bb4"`},
		{"start", func(r *Request) { r.Start = note("F3") }, "room for a group: G3"},
		{"superimpose", func(r *Request) { r.Sections[0].Sources = nil }, "0 scales"},
		{"home", func(r *Request) { r.Sections = nil }, "a scale"},
		{"changes", func(r *Request) { r.Sections = append(r.Sections, r.Sections[0]) }, "after the one before"},
	} {
		r := good()
		c.change(&r)
		_, err := Build(r)
		var input *pitch.InputError
		if !errors.As(err, &input) || input.What != c.field {
			t.Errorf("%s: got error %v", c.field, err)
			continue
		}
		if !strings.Contains(err.Error(), c.want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v\nwant one line with %q", c.field, err, c.want)
		}
	}
}
