package exercise

import (
	"cmp"
	"slices"
	"strconv"

	"heddle/neck"
	"heddle/pitch"
)

// An Overlay is one type of scale laid over a chord in all twelve transpositions,
// from most inside to most outside.
type Overlay struct {
	Chord  pitch.Chord
	Home   pitch.Scale
	Type   pitch.Type
	Naming pitch.Naming
	Rows   []OverRow
}

// An OverRow is one transposition of an overlay. The counts are of its notes by their
// function over the chord.
type OverRow struct {
	Scale      pitch.Scale
	Interval   string       // from home, as superimpose takes it: "semitone up"
	FromChord  pitch.Degree // the root's degree over the chord
	Degrees    []pitch.Degree
	Functions  []pitch.Function // one for each note
	Roughness  float64          // the mean over its notes from C4 to B5, see [pitch.Hearing]
	Shared     int              // notes shared with home
	Collection pitch.Collection // with home
	Near       *neck.Pair       // the nearest placements; nil if it has none on this neck
}

// Count returns how many notes have the function.
func (r OverRow) Count(f pitch.Function) int {
	count := 0
	for _, own := range r.Functions {
		if own == f {
			count++
		}
	}
	return count
}

// overIntervals are the twelve transpositions from home, each named the short way
// round.
var overIntervals = []string{
	"unison", "semitone up", "whole tone up", "minor third up", "major third up", "fourth up", "tritone",
	"fourth down", "major third down", "minor third down", "whole tone down", "semitone down",
}

// maxOverTypes bounds the tables of one call.
const maxOverTypes = 8

// Over lays each type of scale over the spec's chord, in all twelve transpositions.
// Without types it takes home's own. Rows are in the order of fewest outside notes,
// then fewest avoid notes, then least mean roughness, then nearest root above home's.
// Of the spec it uses chord, home, fret, names and the instrument. Without a home it
// takes the likeliest scale on the chord's root, see [homeOn].
//
// The placements of a row are the nearest of all, or the nearest to the fret if the
// spec has one.
func Over(s Spec, types []string) ([]Overlay, error) {
	s = Spec{Chord: s.Chord, Home: s.Home, Fret: s.Fret, Names: s.Names, Instrument: s.Instrument, Tuning: s.Tuning, Frets: s.Frets,
		Scale: s.Scale, Reach: s.Reach, Capo: s.Capo, Left: s.Left}
	if s.Home == "" && s.Chord != "" {
		chord, err := pitch.ParseChord(s.Chord)
		if err != nil {
			return nil, named("chord", err)
		}
		s.Home = homeOn(chord).Name()
	}
	p, err := read(s)
	if err != nil {
		return nil, err
	}
	home := p.spans[0].scales[0]
	if len(types) == 0 {
		types = []string{home.Type.Name}
	}
	if len(types) > maxOverTypes {
		return nil, &pitch.InputError{What: "scale", Value: strconv.Itoa(len(types)) + " types", Want: "at most " + strconv.Itoa(maxOverTypes)}
	}
	list := make([]Overlay, len(types))
	for i, name := range types {
		scale, err := pitch.ParseScale(home.Root.String() + " " + name)
		if err != nil {
			_, err = pitch.FindType(name) // whose error does not ask for a root
			return nil, named("scale", err)
		}
		if list[i], err = p.over(scale.Type); err != nil {
			return nil, err
		}
	}
	return list, nil
}

// homeOn returns the scale on the chord's root that a player would call home: of the
// likely types, the one with the fewest outside notes, then the fewest avoid notes;
// in a tie, the likeliest.
func homeOn(chord pitch.Chord) pitch.Scale {
	var best pitch.Scale
	var least [2]int
	for _, name := range homeTypes {
		t, err := pitch.FindType(name)
		if err != nil {
			continue
		}
		scale := pitch.NewScale(chord.Root, t)
		row := OverRow{Functions: functions(chord, scale, scale)}
		rank := [2]int{row.Count(pitch.Outside), row.Count(pitch.Avoid)}
		if best.Notes == nil || slices.Compare(rank[:], least[:]) < 0 {
			best, least = scale, rank
		}
	}
	return best
}

func functions(chord pitch.Chord, scale, home pitch.Scale) []pitch.Function {
	list := make([]pitch.Function, len(scale.Notes))
	for i, n := range scale.Notes {
		list[i] = chord.Function(n, home)
	}
	return list
}

// over returns one table.
func (p *plan) over(t pitch.Type) (Overlay, error) {
	chord, home := p.spans[0].chord, p.spans[0].scales[0]
	o := Overlay{Chord: chord, Home: home, Type: t, Naming: p.naming, Rows: make([]OverRow, len(overIntervals))}
	hearing := pitch.Hear(chord.Voicing())
	var rough [12]float64 // by pitch class
	for class := range rough {
		rough[class] = (hearing.Roughness(middleC+class) + hearing.Roughness(middleC+12+class)) / 2
	}
	for i, interval := range overIntervals {
		r, err := pitch.Relative(home, interval+" "+t.Name)
		if err != nil {
			return o, err
		}
		scale := r.Scale
		row := OverRow{
			Scale: scale, Interval: interval, FromChord: chord.Degree(scale.Root, scale),
			Functions: functions(chord, scale, home), Collection: pitch.Collect(home, scale), Near: p.nearest(home, scale),
		}
		for _, n := range scale.Notes {
			row.Degrees = append(row.Degrees, chord.Degree(n, scale))
			row.Roughness += rough[n.Class()] / float64(len(scale.Notes))
			if _, in := home.Named(n.Class()); in {
				row.Shared++
			}
		}
		o.Rows[i] = row
	}
	slices.SortStableFunc(o.Rows, func(a, b OverRow) int {
		return cmp.Or(a.Count(pitch.Outside)-b.Count(pitch.Outside), a.Count(pitch.Avoid)-b.Count(pitch.Avoid),
			cmp.Compare(a.Roughness, b.Roughness))
	})
	return o, nil
}

// middleC is the MIDI key of C4. Most lines lie in the two octaves above it.
const middleC = 60

// nearest returns the nearest placements of home and another scale, near the spec's
// fret if it has one.
func (p *plan) nearest(home, scale pitch.Scale) *neck.Pair {
	pairs := neck.Near(p.instrument, home, []pitch.Scale{scale}, p.spec.Reach)
	if len(pairs) == 0 {
		return nil
	}
	if p.spec.Fret != 0 {
		if pair, ok := neck.Choose(pairs, max(0, p.spec.Fret)); ok {
			return &pair
		}
	}
	return &pairs[0]
}
