package model

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// quarters is how long each note value lasts, in quarter notes.
var quarters = map[string]float64{
	"quarter": 1, "eighth": 1. / 2, "eighth-triplet": 1. / 3, "sixteenth": 1. / 4, "sixteenth-triplet": 1. / 6, "quintuplet": 1. / 5,
}

// A played note is a note of the model's line.
type played struct{ scale, midi int }

// tones returns the pitches of a scale's placement, lowest first.
func (b *built) tones(scale int) []int {
	var midi []int
	for _, s := range b.Scales[scale].Placement.Spots {
		midi = append(midi, s.MIDI)
	}
	slices.Sort(midi)
	return slices.Compact(midi) // re-entrant tunings have a pitch on two strings
}

// weave builds the pattern by the rules of the line. sizes is nil for a plain
// run through all the scales.
func (b *built) weave() []played {
	direction := b.fields.Get("direction")
	up := strings.HasPrefix(direction, "up")
	var notes []played
	g := 0
	for pass := range 1 + strings.Count(direction, "-") {
		if pass > 0 {
			up = !up
		}
		notes = append(notes, b.pass(&g, up, notes)...)
	}
	return notes
}

// pass goes once through the placements.
func (b *built) pass(g *int, up bool, before []played) []played {
	if b.groups == nil {
		return b.run(up, before)
	}
	sign := -1
	if up {
		sign = 1
	}
	var notes []played
	reference := -sign * 1000
	for ; ; *g++ {
		scale := *g % len(b.groups)
		tones := slices.Clone(b.tones(scale))
		if !up {
			slices.Reverse(tones)
		}
		start := slices.IndexFunc(tones, func(m int) bool { return sign*m > sign*reference })
		last := append(slices.Clone(before), notes...)
		order := b.order
		if order == nil {
			for step := range b.groups[scale] {
				order = append(order, step+1)
			}
		}
		opens := start + order[0] - 1 // the note played first
		if start >= 0 && b.fields.Get("repeats") == "skip" && len(last) > 0 && opens < len(tones) && tones[opens] == last[len(last)-1].midi {
			start++
		}
		furthest := start + slices.Max(order) - 1
		if start < 0 || furthest >= len(tones) {
			return notes
		}
		for _, step := range order {
			notes = append(notes, played{scale, tones[start+step-1]})
		}
		reference = tones[start]
		if b.fields.Get("follow") == "last" {
			reference = tones[furthest]
		}
	}
}

// run is the plain run through the union of the scales. A shared note goes to
// a scale that was not played last; -1 stands for any such scale.
func (b *built) run(up bool, before []played) []played {
	holders := map[int][]int{}
	for scale := range b.Scales {
		for _, m := range b.tones(scale) {
			holders[m] = append(holders[m], scale)
		}
	}
	var all []int
	for m := range holders {
		all = append(all, m)
	}
	slices.Sort(all)
	if !up {
		slices.Reverse(all)
	}
	// It begins on home's outermost note, and after a turn beside the last one.
	sign, from := -1, slices.Max(b.tones(0))+1
	if up {
		sign, from = 1, slices.Min(b.tones(0))-1
	}
	if len(before) > 0 {
		from = before[len(before)-1].midi
	}
	var notes []played
	for _, m := range all {
		if sign*m <= sign*from {
			continue
		}
		scale := -1
		if len(holders[m]) == 1 {
			scale = holders[m][0]
		}
		notes = append(notes, played{scale, m})
	}
	return notes
}

func (b *built) pattern() (pattern []note) {
	for _, n := range b.Notes {
		if n.Role == "pattern" {
			pattern = append(pattern, n)
		}
	}
	return pattern
}

func checkLine(f *faults, b *built) {
	want, got := b.weave(), b.pattern()
	whole := !b.landing && !b.fields.Has("bars")
	if len(got) > len(want) || whole && len(got) != len(want) {
		f.add("the pattern has as many notes as the rules give", b, "%d, want %d", len(got), len(want))
		return
	}
	for i, n := range got {
		if n.MIDI != want[i].midi || want[i].scale >= 0 && n.Scale != want[i].scale {
			f.add("the pattern follows the rules", b, "note %d is %d of scale %d, want %d of scale %d", i, n.MIDI, n.Scale, want[i].midi, want[i].scale)
			return
		}
	}
	length := quarters[b.fields.Get("value")]
	for i, n := range got {
		if math.Abs(n.Beat-float64(i)*length) > 1./960 || math.Abs(n.Duration-length) > 1./960 {
			f.add("every note has the value asked for", b, "note %d at %g lasts %g, want %g at %g", i, n.Beat, n.Duration, length, float64(i)*length)
			return
		}
	}
	if b.fields.Get("repeats") == "skip" {
		for i := 1; i < len(got); i++ {
			if got[i].MIDI == got[i-1].MIDI {
				f.add("no pitch comes twice in a row where repeats are left out", b, "notes %d and %d", i-1, i)
			}
		}
	}
}

const anticipated = "anticipated by an eighth"

// endingKinds says in the model's own terms what an ending of each kind does. It
// is given the semitones of the last notes above the target, which is the last
// and 0; notes of the pattern before the ending count. home says which are of the
// home scale.
var endingKinds = map[string]func(d []int, home []bool) bool{
	"enclosed from above": func(d []int, _ []bool) bool { return len(d) > 2 && back(d, 3) > 0 && back(d, 2) < 0 },
	"enclosed from below": func(d []int, _ []bool) bool { return len(d) > 2 && back(d, 3) < 0 && back(d, 2) > 0 },
	"down the scale": func(d []int, home []bool) bool {
		return len(d) > 2 && back(d, 3) > back(d, 2) && back(d, 2) > 0 && home[len(d)-3] && home[len(d)-2]
	},
	"up the scale": func(d []int, home []bool) bool {
		return len(d) > 2 && back(d, 3) < back(d, 2) && back(d, 2) < 0 && home[len(d)-3] && home[len(d)-2]
	},
	"by two semitones": func(d []int, _ []bool) bool {
		return len(d) > 2 && (back(d, 3) == 2 && back(d, 2) == 1 || back(d, 3) == -2 && back(d, 2) == -1)
	},
	"by the chord's arpeggio": func(d []int, _ []bool) bool { return len(d) > 2 && widest(steps(d[max(0, len(d)-4):])) >= 3 },
	"leap and fill": func(d []int, _ []bool) bool {
		if len(d) < 4 {
			return false
		}
		s := steps(d[len(d)-4:])
		return max(s[0], -s[0]) >= 3 && s[0]*s[1] < 0 && s[1]*s[2] > 0 && widest(s[1:]) <= 2
	},
	anticipated: func([]int, []bool) bool { return true },
}

// back returns the nth value from the end, counted from 1.
func back(d []int, n int) int { return d[len(d)-n] }

func widest(steps []int) (w int) {
	for _, s := range steps {
		w = max(w, s, -s)
	}
	return w
}

func steps(d []int) (s []int) {
	for i := 1; i < len(d); i++ {
		s = append(s, d[i]-d[i-1])
	}
	return s
}

func checkEndings(f *faults, b *built) {
	if !b.landing {
		if len(b.Endings) > 0 {
			f.add("no landing was asked for", b, "%d endings", len(b.Endings))
		}
		return
	}
	pattern := b.weave()
	beat := beatLength(b.fields.Get("meter"))
	// Only where no ending on the beat can avoid it may one come home through a scale
	// that is being left.
	avoidable := slices.ContainsFunc(b.Endings, func(e ending) bool { return e.Kind != anticipated && !comesAway(e.Notes) })
	seen, tails := map[string]bool{}, map[string]bool{}
	for i, e := range b.Endings {
		told := func(rule, format string, args ...any) {
			f.add(rule, b, "ending %d (%s, %s): %s", i+1, e.Kind, e.Target, fmt.Sprintf(format, args...))
		}
		if seen[e.Kind] {
			told("one ending of each kind", "again")
		}
		seen[e.Kind] = true
		if len(e.Notes) == 0 {
			told("an ending has notes", "none")
			continue
		}
		target := e.Notes[len(e.Notes)-1]
		var heard []int // the pattern's last note, then the ending, above the target
		if first := e.Notes[0].Index; first > 0 && first <= len(pattern) {
			heard = append(heard, pattern[first-1].midi-target.MIDI)
		}
		for _, n := range e.Notes {
			heard = append(heard, n.MIDI-target.MIDI)
		}
		for _, s := range steps(heard) {
			if s == 0 {
				told("no pitch is repeated at once", "%v", heard)
			}
			if max(s, -s) > 5 {
				told("no leap is larger than a fourth", "%v", heard)
			}
		}
		if len(heard) > 1 && max(heard[len(heard)-2], -heard[len(heard)-2]) > 2 {
			told("the last step is a tone or less", "%v", heard)
		}
		if avoidable && e.Kind != anticipated && comesAway(e.Notes) {
			told("the last two notes before the target are home or chromatic", "%v", e.Notes)
		}
		var d []int
		var home []bool
		for _, p := range pattern[max(0, e.Notes[0].Index-3):min(e.Notes[0].Index, len(pattern))] {
			d, home = append(d, p.midi-target.MIDI), append(home, b.isHome(p.midi))
		}
		for _, n := range e.Notes {
			d, home = append(d, n.MIDI-target.MIDI), append(home, b.isHome(n.MIDI))
		}
		if is, ok := endingKinds[e.Kind]; !ok || !is(d, home) {
			told("a kind is what its name says", "%v", d)
		}
		early := []float64{0}
		if e.Kind == anticipated { // or by an eighth of the line's triplets
			early = []float64{.5, quarters[b.fields.Get("value")]}
		}
		if !slices.ContainsFunc(early, func(by float64) bool { at := (target.Beat + by) / beat; return math.Abs(at-math.Round(at)) < .002 }) {
			told("the target falls on a beat", "%g", target.Beat)
		}
		if tail := fmt.Sprint(heard[max(0, len(heard)-3):], target.MIDI); tails[tail] && len(e.Notes) > 2 {
			told("no two endings have the same last three notes", "%v", heard)
		} else {
			tails[tail] = true
		}
		if semis := degreeSemitones(target.Degree); e.Target == "root" && semis != 0 || e.Target == "third" && semis != 3 && semis != 4 || e.Target == "fifth" && (semis < 6 || semis > 8) {
			told("it ends on its target", "on %s", target.Degree)
		}
	}
}

// comesAway reports whether one of the two notes before the target is of a
// superimposed scale.
func comesAway(notes []note) bool {
	return slices.ContainsFunc(notes[max(0, len(notes)-3):max(0, len(notes)-1)], func(n note) bool { return n.Scale > 0 })
}

// isHome reports whether a pitch belongs to the home scale.
func (b *built) isHome(midi int) bool {
	return slices.ContainsFunc(b.Scales[0].Notes, func(name string) bool { return pitchClass(name) == mod(midi, 12) })
}

// beatLength returns the length of a metre's lower number, in quarter notes.
func beatLength(meter string) float64 {
	var beats, unit int
	fmt.Sscanf(meter, "%d/%d", &beats, &unit)
	return 4 / float64(unit)
}
