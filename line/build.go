package line

import (
	"math"
	"strconv"

	"heddle/pitch"
)

// Build returns the line of a request.
//
//  1. Groups cycle through the scales: group g is from scale g mod n of the
//     section in which it starts, and has that scale's size.
//  2. Group 0 starts on Start, by default the highest home note when falling,
//     the lowest when rising.
//  3. Each later group starts on the nearest note of its scale strictly beyond
//     the reference note of the group before: its step 1 (FollowFirst) or its
//     step farthest in the direction (FollowLast).
//  4. A group's notes are the steps of its order, counted along its scale in
//     the direction.
//  5. A group that does not fit completely in its placement ends the pass. DownUp
//     then turns: the next group starts on the lowest note of the next scale in
//     turn, and the same rules apply upwards. UpDown mirrors it.
//  6. A Run is the plain run through the union of the scales instead: each next note
//     is the nearest one of any scale, also where the line turns, and a shared note
//     goes to the scale that was not played last.
//  7. With SkipRepeats, a group that would start with the pitch just played starts one
//     note further on.
//
// Only whole groups whose notes end by the end of bar Bars are kept, and no pass is
// repeated.
func Build(r Request) ([]Note, error) {
	if err := r.check(); err != nil {
		return nil, err
	}
	w := newWeaver(r)
	rises := r.Direction.rises()
	home := w.sections[w.at()].ladders[0]
	start, err := startRung(r.Start, home, rises)
	if err != nil {
		return nil, err
	}
	w.pass(home, start, rises)
	if len(w.notes) == 0 {
		return nil, barsError(r, home)
	}
	if r.Direction.turns() && !w.full {
		next := w.inTurn()
		rung := w.skip(next, next.outermost(!rises), !rises)
		if w.run {
			next, rung = w.next(w.notes[len(w.notes)-1].Pitch.MIDI(), !rises)
		}
		w.pass(next, rung, !rises)
	}
	return w.notes, nil
}

// startRung returns the rung that the first group starts on.
func startRung(start *pitch.Pitch, home ladder, rises bool) (int, error) {
	if start == nil {
		return home.outermost(rises), nil
	}
	for i, place := range home.places {
		if place.Pitch == *start && home.fits(i, rises) {
			return i, nil
		}
	}
	return 0, startError(*start, home, rises)
}

// barsError is the error if not even one group ends in time.
func barsError(r Request, home ladder) error {
	need := Beat(home.size)*r.Rhythm.Value.Length() - r.Rhythm.Pickup
	bars := -FloorDiv(-need, r.Rhythm.Meter.Bar())
	return &pitch.InputError{What: "bars", Value: strconv.Itoa(r.Bars),
		Want: "at least " + strconv.Itoa(int(bars)) + ", where the first group of " + strconv.Itoa(home.size) + " notes ends"}
}

// A weaver is a line being made.
type weaver struct {
	sections []stretch
	follow   Follow
	run      bool
	skips    bool
	value    Beat
	gap      Beat
	limit    Beat // when the last note must end
	full     bool // a group did not fit before the limit

	notes []Note
	group int
	time  Beat // when the next group starts
	last  int  // the scale last taken, counted in its section
}

// A stretch is a section ready to take groups from.
type stretch struct {
	start   Beat
	ladders []ladder
}

func newWeaver(r Request) *weaver {
	w := &weaver{
		sections: make([]stretch, len(r.Sections)),
		follow:   r.Follow,
		run:      r.Run,
		skips:    r.Repeats == SkipRepeats,
		value:    r.Rhythm.Value.Length(),
		gap:      r.Rhythm.Gap,
		limit:    Beat(r.Bars) * r.Rhythm.Meter.Bar(),
		time:     -r.Rhythm.Pickup,
		notes:    make([]Note, 0, usualNotes),
	}
	if r.Bars == 0 {
		w.limit = math.MaxInt32
	}
	scale := 0
	for i, section := range r.Sections {
		s := stretch{start: section.Start, ladders: make([]ladder, len(section.Sources))}
		for j, source := range section.Sources {
			s.ladders[j] = newLadder(source, scale)
			scale++
		}
		w.sections[i] = s
	}
	return w
}

// usualNotes is the number of notes of a pass in threes across six strings.
const usualNotes = 72

// at returns the section in which the next group starts.
func (w *weaver) at() int {
	i := len(w.sections) - 1
	for i > 0 && w.sections[i].start > w.time {
		i--
	}
	return i
}

// inTurn returns the scale whose turn it is.
func (w *weaver) inTurn() ladder {
	s := w.sections[w.at()]
	if w.run {
		return s.ladders[(w.last+1)%len(s.ladders)]
	}
	return s.ladders[w.group%len(s.ladders)]
}

// pass adds group after group until one does not fit.
func (w *weaver) pass(l ladder, rung int, rises bool) {
	for l.fits(rung, rises) {
		if w.time+Beat(l.size)*w.value > w.limit {
			w.full = true
			return
		}
		w.add(l, rung, rises)
		reference := rung
		if w.follow == FollowLast {
			reference = l.step(rung, l.reach, rises)
		}
		l, rung = w.next(l.keys[reference], rises)
		rung = w.skip(l, rung, rises)
	}
}

// add plays one group.
func (w *weaver) add(l ladder, rung int, rises bool) {
	w.last = l.scale - w.sections[w.at()].ladders[0].scale
	for i := range l.size {
		step := l.stepAt(i)
		w.notes = append(w.notes, Note{
			Pitch:    l.places[l.step(rung, step, rises)].Pitch,
			Group:    w.group,
			Scale:    l.scale,
			Step:     step,
			Start:    w.time,
			Duration: w.value,
			Role:     PatternRole,
		})
		w.time += w.value
	}
	w.time += w.gap
	w.group++
}

// skip moves the start of a group one note on if repeats are skipped and the group
// would begin with the pitch just played.
func (w *weaver) skip(l ladder, rung int, rises bool) int {
	if !w.skips || !l.fits(rung, rises) {
		return rung
	}
	if l.keys[l.step(rung, l.stepAt(0), rises)] == w.notes[len(w.notes)-1].Pitch.MIDI() {
		return l.step(rung, 2, rises)
	}
	return rung
}

// next returns where the group beyond a key starts. In a run, a shared note goes to
// the first of its scales in turn after the one played last.
func (w *weaver) next(key int, rises bool) (ladder, int) {
	s := w.sections[w.at()]
	l := w.inTurn()
	rung := l.beyond(key, rises)
	if !w.run {
		return l, rung
	}
	for i := range len(s.ladders) - 1 {
		other := s.ladders[(w.last+2+i)%len(s.ladders)]
		if o := other.beyond(key, rises); other.fits(o, rises) && (!l.fits(rung, rises) || nearer(other.keys[o], l.keys[rung], rises)) {
			l, rung = other, o
		}
	}
	return l, rung
}

// nearer reports whether key a comes before key b in the direction.
func nearer(a, b int, rises bool) bool {
	if rises {
		return a < b
	}
	return a > b
}
