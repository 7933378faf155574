package line

import (
	"slices"
	"testing"

	"heddle/neck"
	"heddle/pitch"
	"pgregory.net/rapid"
)

// twelve degrees, of which any number makes a scale.
var twelve = []pitch.Degree{
	{Number: 1}, {Number: 2, Alter: -1}, {Number: 2}, {Number: 3, Alter: -1}, {Number: 3}, {Number: 4},
	{Number: 4, Alter: 1}, {Number: 5}, {Number: 6, Alter: -1}, {Number: 6}, {Number: 7, Alter: -1}, {Number: 7},
}

// drawSource draws any scale of 3 to 12 notes in any window of four to six
// frets, with groups that fit it.
func drawSource(t *rapid.T, low int) Source {
	degrees := []pitch.Degree{twelve[0]}
	for _, i := range rapid.Permutation([]int{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11}).Draw(t, "degrees")[:rapid.IntRange(2, 11).Draw(t, "notes")] {
		degrees = append(degrees, twelve[i])
	}
	slices.SortFunc(degrees, func(a, b pitch.Degree) int { return a.Semitones() - b.Semitones() })
	root := pitch.Name{Letter: pitch.Letter(rapid.IntRange(0, 6).Draw(t, "letter")), Accidental: rapid.IntRange(-1, 1).Draw(t, "accidental")}
	s := Source{Scale: pitch.NewScale(root, pitch.Type{Name: "drawn", Degrees: degrees})}
	low += rapid.IntRange(-2, 2).Draw(t, "shift")
	s.Placement = inWindow(s.Scale, low, low+rapid.IntRange(3, 5).Draw(t, "width"))
	places := len(s.Placement.Places)
	s.Size = rapid.IntRange(1, min(6, places)).Draw(t, "size")
	if rapid.Bool().Draw(t, "ordered") {
		s.Order = rapid.SliceOfN(rapid.IntRange(1, min(s.Size+2, places)), s.Size, s.Size).Draw(t, "order")
	}
	return s
}

// drawRequest draws any line of one section: one to four scales, any sizes,
// orders, direction, follow, rhythm and start.
func drawRequest(t *rapid.T) Request {
	low := rapid.IntRange(2, 14).Draw(t, "fret")
	sources := make([]Source, rapid.IntRange(1, 4).Draw(t, "scales"))
	for i := range sources {
		sources[i] = drawSource(t, low)
	}
	run := rapid.IntRange(0, 4).Draw(t, "run") == 0
	if run || rapid.IntRange(0, 4).Draw(t, "ones") == 0 {
		for i := range sources {
			sources[i].Size, sources[i].Order = 1, nil
		}
	}
	r := Request{
		Sections:  []Section{{Sources: sources}},
		Direction: rapid.SampledFrom([]Direction{Down, Up, DownUp, UpDown}).Draw(t, "direction"),
		Follow:    rapid.SampledFrom([]Follow{FollowFirst, FollowLast}).Draw(t, "follow"),
		Run:       run,
		Repeats:   rapid.SampledFrom([]Repeats{KeepRepeats, SkipRepeats}).Draw(t, "repeats"),
		Rhythm:    drawRhythm(t),
	}
	if rapid.Bool().Draw(t, "starts inside") {
		home := newLadder(sources[0], 0)
		i := rapid.IntRange(0, len(home.places)-1).Draw(t, "start")
		if home.fits(i, r.Direction.rises()) {
			r.Start = &home.places[i].Pitch
		}
	}
	return r
}

func mustBuild(t *rapid.T, r Request) []Note {
	notes, err := Build(r)
	if err != nil {
		t.Fatal(err)
	}
	return notes
}

// groupsOf cuts a line into its groups.
func groupsOf(notes []Note) [][]Note {
	var groups [][]Note
	for _, n := range notes {
		if n.Group == len(groups) {
			groups = append(groups, nil)
		}
		groups[n.Group] = append(groups[n.Group], n)
	}
	return groups
}

func TestEveryNoteIsOfItsScaleUnderTheHand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRequest(t)
		for i, n := range mustBuild(t, r) {
			source := r.Sections[0].Sources[n.Scale]
			if named, ok := source.Scale.Named(n.Pitch.MIDI() % 12); !ok || named != n.Pitch.Name {
				t.Fatalf("note %d: %v is not a note of %v", i, n.Pitch, source.Scale.Notes)
			}
			if place, ok := source.Placement.At(n.Pitch.MIDI()); !ok || place.Pitch != n.Pitch || neck.Guitar().MIDI(place.Spot) != n.Pitch.MIDI() {
				t.Fatalf("note %d: %v does not lie under the hand", i, n.Pitch)
			}
			if n.Role != PatternRole {
				t.Fatalf("note %d has the role %q", i, n.Role)
			}
		}
	})
}

func TestGroupsAreWholeAndGoRoundTheScales(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRequest(t)
		sources := r.Sections[0].Sources
		for g, group := range groupsOf(mustBuild(t, r)) {
			source := sources[group[0].Scale]
			if !r.Run && group[0].Scale != g%len(sources) {
				t.Fatalf("group %d is of scale %d of %d", g, group[0].Scale, len(sources))
			}
			if len(group) != source.Size {
				t.Fatalf("group %d has %d notes, want %d", g, len(group), source.Size)
			}
			for i, n := range group {
				want := i + 1
				if source.Order != nil {
					want = source.Order[i]
				}
				if n.Step != want || n.Scale != group[0].Scale {
					t.Fatalf("group %d plays step %d of scale %d at %d, want step %d", g, n.Step, n.Scale, i, want)
				}
			}
		}
	})
}

func TestNotesLieOnTheGrid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRequest(t)
		at := -r.Rhythm.Pickup
		for i, group := range groupsOf(mustBuild(t, r)) {
			for _, n := range group {
				if n.Start != at || n.Duration != r.Rhythm.Value.Length() {
					t.Fatalf("a note of group %d starts at %d for %d, want %d", i, n.Start, n.Duration, at)
				}
				at = n.End()
			}
			at += r.Rhythm.Gap
		}
	})
}

// rungs finds step 1 and the farthest step of a group in its placement, from
// any one of its notes.
func rungs(source Source, group []Note, rises bool) (first, last int) {
	sign := 1
	if !rises {
		sign = -1
	}
	at := slices.IndexFunc(source.Placement.Places, func(p neck.Place) bool { return p.Pitch == group[0].Pitch })
	first = at - sign*(group[0].Step-1)
	reach := source.Size
	if source.Order != nil {
		reach = slices.Max(source.Order)
	}
	return first, first + sign*(reach-1)
}

// obeys checks rules 3 to 5 over one pass, all groups of which go one way,
// and that it went on as long as it could.
func obeys(t *rapid.T, r Request, groups [][]Note, rises bool) {
	sources := r.Sections[0].Sources
	beyond := func(source Source, key int) int { // by looking at every note
		best := -1
		for i, p := range source.Placement.Places {
			k := p.Pitch.MIDI()
			if rises && k > key && (best < 0 || k < source.Placement.Places[best].Pitch.MIDI()) ||
				!rises && k < key && (best < 0 || k > source.Placement.Places[best].Pitch.MIDI()) {
				best = i
			}
		}
		return best
	}
	reference := 0
	played := func(source Source, start int) int { // the key that a group plays first
		step := 1
		if source.Order != nil {
			step = source.Order[0]
		}
		if !rises {
			return start - step + 1
		}
		return start + step - 1
	}
	start := func(source Source, before Note) int {
		at := beyond(source, reference)
		if i := played(source, at); r.Repeats == SkipRepeats && at >= 0 && i >= 0 && i < len(source.Placement.Places) &&
			source.Placement.Places[i].Pitch.MIDI() == before.Pitch.MIDI() {
			if at--; rises {
				at += 2
			}
		}
		return at
	}
	for g, group := range groups {
		source := sources[group[0].Scale]
		first, last := rungs(source, group, rises)
		if g > 0 && first != start(source, groups[g-1][len(groups[g-1])-1]) {
			t.Fatalf("group %d starts on %v, which is not the nearest of its scale beyond key %d", g, source.Placement.Places[first].Pitch, reference)
		}
		for _, n := range group {
			at := first + n.Step - 1
			if !rises {
				at = first - n.Step + 1
			}
			if n.Pitch != source.Placement.Places[at].Pitch {
				t.Fatalf("group %d plays %v on step %d, want %v", g, n.Pitch, n.Step, source.Placement.Places[at].Pitch)
			}
		}
		reference = source.Placement.Places[first].Pitch.MIDI()
		if r.Follow == FollowLast {
			reference = source.Placement.Places[last].Pitch.MIDI()
		}
	}
	if r.Run {
		return // its end is the union's, see below
	}
	end := groups[len(groups)-1]
	next := sources[(end[0].Group+1)%len(sources)]
	if at := start(next, end[len(end)-1]); at >= 0 && newLadder(next, 0).fits(at, rises) {
		t.Fatalf("the pass ends though another group fits on %v", next.Placement.Places[at].Pitch)
	}
}

func TestStartsObeyTheFollowRule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRequest(t)
		rises := r.Direction.rises()
		groups := groupsOf(mustBuild(t, r))
		home := r.Sections[0].Sources[0]
		first, _ := rungs(home, groups[0], rises)
		start := home.Placement.Places[newLadder(home, 0).outermost(rises)].Pitch
		if r.Start != nil {
			start = *r.Start
		}
		if home.Placement.Places[first].Pitch != start {
			t.Fatalf("the line starts on %v, want %v", home.Placement.Places[first].Pitch, start)
		}
		if !r.Direction.turns() {
			obeys(t, r, groups, rises)
			return
		}
		// A line that turns begins as the one that does not, …
		there := r
		there.Direction = Down
		if rises {
			there.Direction = Up
		}
		pass := groupsOf(mustBuild(t, there))
		if !slices.EqualFunc(pass, groups[:len(pass)], slices.Equal) {
			t.Fatalf("the first pass of %s is not that of %s", r.Direction, there.Direction)
		}
		// … and comes back from the outermost note of the next scale in turn, a run
		// from the nearest note of any.
		back := groups[len(pass):]
		if r.Run {
			key := pass[len(pass)-1][0].Pitch.MIDI()
			for _, source := range r.Sections[0].Sources {
				at := newLadder(source, 0).beyond(key, !rises)
				if !newLadder(source, 0).fits(at, !rises) {
					continue
				}
				if next := source.Placement.Places[at].Pitch.MIDI(); len(back) > 0 && nearer(next, back[0][0].Pitch.MIDI(), !rises) {
					t.Fatalf("the turn starts on %v, but key %d is nearer", back[0][0].Pitch, next)
				}
			}
			return
		}
		if len(back) == 0 && r.Repeats == SkipRepeats {
			return // past the note left out, no group fits
		}
		source := r.Sections[0].Sources[back[0][0].Scale]
		first, _ = rungs(source, back[0], !rises)
		ladder := newLadder(source, 0)
		turn := ladder.outermost(!rises)
		if r.Repeats == SkipRepeats && ladder.keys[ladder.step(turn, ladder.stepAt(0), !rises)] == groups[len(pass)-1][len(groups[len(pass)-1])-1].Pitch.MIDI() {
			turn = ladder.step(turn, 2, !rises)
		}
		if first != turn {
			t.Fatalf("the turn starts on %v", source.Placement.Places[first].Pitch)
		}
		obeys(t, r, back, !rises)
	})
}

func TestARunIsThePlainRunThroughTheUnion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRequest(t)
		r.Direction = rapid.SampledFrom([]Direction{Down, Up}).Draw(t, "one way")
		r.Start, r.Run = nil, true
		union := map[int]bool{}
		for i := range r.Sections[0].Sources {
			source := &r.Sections[0].Sources[i]
			source.Size, source.Order = 1, nil
			for _, p := range source.Placement.Places {
				union[p.Pitch.MIDI()] = true
			}
		}
		notes := mustBuild(t, r)
		key := notes[0].Pitch.MIDI()
		for i, n := range notes[1:] {
			if shared := slices.ContainsFunc(r.Sections[0].Sources, func(s Source) bool {
				_, has := s.Placement.At(n.Pitch.MIDI())
				return has && s.Scale.Root != r.Sections[0].Sources[n.Scale].Scale.Root
			}); shared && n.Scale == notes[i].Scale {
				t.Fatalf("%v is shared and goes to the scale played last", n.Pitch)
			}
			for key += step(r.Direction); !union[key]; key += step(r.Direction) {
			}
			if n.Pitch.MIDI() != key {
				t.Fatalf("%v comes next, want key %d", n.Pitch, key)
			}
		}
		for k := range union {
			if (k-key)*step(r.Direction) > 0 {
				t.Fatalf("key %d lies beyond the last note", k)
			}
		}
	})
}

func step(d Direction) int {
	if d.rises() {
		return 1
	}
	return -1
}

const highestMIDI = 127

// mirrored turns a request upside down: every key k of every placement
// becomes 127 − k.
func mirrored(r Request) Request {
	turn := func(p pitch.Pitch) pitch.Pitch {
		key := highestMIDI - p.MIDI()
		return pitch.Named(pitch.PlainName(key%12, false), key)
	}
	m := r
	m.Direction = map[Direction]Direction{Down: Up, Up: Down, DownUp: UpDown, UpDown: DownUp}[r.Direction]
	if r.Start != nil {
		start := turn(*r.Start)
		m.Start = &start
	}
	sources := slices.Clone(r.Sections[0].Sources)
	for i := range sources {
		places := slices.Clone(sources[i].Placement.Places)
		slices.Reverse(places)
		for j := range places {
			places[j].Pitch = turn(places[j].Pitch)
		}
		sources[i].Placement.Places = places
	}
	m.Sections = []Section{{Sources: sources}}
	return m
}

func TestRisingLineMirrorsFallingOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRequest(t)
		line, mirror := mustBuild(t, r), mustBuild(t, mirrored(r))
		if len(line) != len(mirror) {
			t.Fatalf("%d notes and %d in the mirror", len(line), len(mirror))
		}
		for i, n := range line {
			m := mirror[i]
			if m.Pitch.MIDI() != highestMIDI-n.Pitch.MIDI() {
				t.Fatalf("note %d: %v is not the mirror of %v", i, m.Pitch, n.Pitch)
			}
			m.Pitch = n.Pitch
			if m != n {
				t.Fatalf("note %d: %+v is not the mirror of %+v", i, m, n)
			}
		}
	})
}

func TestSkippedRepeatsAreGone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRequest(t)
		r.Repeats = SkipRepeats
		groups := groupsOf(mustBuild(t, r))
		for g, group := range groups[1:] {
			if before := groups[g][len(groups[g])-1]; before.Pitch.MIDI() == group[0].Pitch.MIDI() {
				t.Fatalf("%v comes twice, in groups %d and %d", group[0].Pitch, g, g+1)
			}
		}
	})
}

func TestBarsCutALineBetweenGroups(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRequest(t)
		whole := mustBuild(t, r)
		r.Bars = rapid.IntRange(1, 12).Draw(t, "bars")
		cut, err := Build(r)
		end := Beat(r.Bars) * r.Rhythm.Meter.Bar()
		if err != nil {
			if first := groupsOf(whole)[0]; first[len(first)-1].End() <= end {
				t.Fatal(err)
			}
			return
		}
		if !slices.Equal(cut, whole[:len(cut)]) {
			t.Fatal("the cut line is not the beginning of the whole one")
		}
		if last := cut[len(cut)-1]; last.End() > end {
			t.Fatalf("the line ends at %d, past bar %d's end %d", last.End(), r.Bars, end)
		}
		if len(cut) < len(whole) {
			next := whole[len(cut)].Group
			if size := len(groupsOf(whole)[next]); whole[len(cut)+size-1].End() <= end {
				t.Fatalf("group %d would still end in bar %d", next, r.Bars)
			}
		}
	})
}

func TestSameRequestGivesTheSameLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRequest(t)
		if !slices.Equal(mustBuild(t, r), mustBuild(t, r)) {
			t.Fatal("two lines from one request")
		}
	})
}

func TestLinesOnRealPlacements(t *testing.T) {
	// Every placement of G minor pentatonic on the guitar with every one of
	// A♭ minor pentatonic: a line comes, and all its notes are placed.
	in := neck.Guitar()
	gm := neck.Placements(in, pitch.NewScale(name("G"), minorPentatonic))
	abm := neck.Placements(in, pitch.NewScale(name("Ab"), minorPentatonic))
	if len(gm) < 5 || len(abm) < 5 {
		t.Fatalf("%d and %d placements, want at least five", len(gm), len(abm))
	}
	for _, home := range gm {
		for _, out := range abm {
			for _, f := range []Follow{FollowFirst, FollowLast} {
				notes := build(t, weave(DownUp, f, Source{home.Scale, home, 3, nil}, Source{out.Scale, out, 3, nil}))
				for _, n := range notes {
					if _, ok := []neck.Placement{home, out}[n.Scale].At(n.Pitch.MIDI()); !ok {
						t.Errorf("%v is not under the hand at fret %d", n.Pitch, home.FirstFinger())
					}
				}
			}
		}
	}
}
