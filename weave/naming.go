package weave

import (
	"fmt"
	"slices"

	"heddle/pitch"
)

// homeTypes are the scales that a home is called, the likeliest first (common practice).
var homeTypes = []string{
	"minor pentatonic", "major pentatonic", "minor blues", "major blues", "dorian", "mixolydian", "major", "natural minor",
	"harmonic minor", "melodic minor",
}

// reading writes a solution with names.
func (s *search) reading(found solution) Reading {
	home := found.home
	names := map[int]pitch.Scale{home: s.nameHome(home)}
	r := Reading{Home: names[home], Cost: found.cost, Pattern: found.pattern}
	if r.Pattern == nil && !slices.ContainsFunc(found.scales, func(c int) bool { return c != found.scales[0] }) {
		r.Pattern = s.patternInOne(found.scales[0])
	}
	for i := 0; i < len(found.scales); {
		end := i + 1
		for end < len(found.scales) && found.scales[end] == found.scales[i] {
			end++
		}
		c := found.scales[i]
		if _, named := names[c]; !named {
			names[c] = s.nameBeside(c, r.Home)
		}
		r.Segments = append(r.Segments, s.segment(i, end, c, home, names[c]))
		i = end
	}
	return r
}

// segment describes notes i to end−1.
func (s *search) segment(i, end, c, home int, name pitch.Scale) Segment {
	segment := Segment{From: i + 1, To: end, Scale: name}
	var heard classes
	out := 0
	for _, class := range s.classes[i:end] {
		heard |= 1 << class
		if !s.candidates[c].has(class) {
			out++
		}
		segment.Outside = segment.Outside || !s.candidates[home].has(class)
	}
	own := s.candidates[c].classes
	segment.Why = fmt.Sprintf("%d of its %d notes", (heard & own).size(), own.size())
	if out > 0 {
		segment.Why += fmt.Sprintf(", and %d outside it", out)
	}
	if c != home {
		segment.Why += fmt.Sprintf("; %d of them not in home", (heard &^ s.candidates[home].classes).size())
	}
	return segment
}

// nameHome names home: as it was given, or with the root of the first chord, the last
// note or the first note if that is the root of a likely home, or otherwise as the
// likeliest type that has its notes.
func (s *search) nameHome(c int) pitch.Scale {
	if s.known {
		return s.Scales[0]
	}
	var roots []pitch.Name
	for _, chord := range s.Chords[:min(1, len(s.Chords))] {
		roots = append(roots, chord.Root)
	}
	roots = append(roots, s.Notes[len(s.Notes)-1].Pitch.Name, s.Notes[0].Pitch.Name)
	for _, root := range roots {
		if scale, ok := s.likely(root, c); ok {
			return scale
		}
	}
	return s.anyName(c)
}

// likely returns the likeliest home type on a root that has the candidate's notes.
func (s *search) likely(root pitch.Name, c int) (pitch.Scale, bool) {
	for _, typeName := range homeTypes {
		if scale, ok := typeOn(root, typeName); ok && classesOf(scale.Notes) == s.candidates[c].classes {
			return scale, true
		}
	}
	return pitch.Scale{}, false
}

func typeOn(root pitch.Name, name string) (pitch.Scale, bool) {
	t, err := pitch.FindType(name)
	if err != nil {
		return pitch.Scale{}, false
	}
	return pitch.NewScale(root, t), true
}

// nameBeside names a scale beside home: as it was given, as home's type on another root,
// as a likely home on the root of the chord, or otherwise as its usual name.
func (s *search) nameBeside(c int, home pitch.Scale) pitch.Scale {
	for _, given := range s.Scales {
		if classesOf(given.Notes) == s.candidates[c].classes {
			return given
		}
	}
	for _, away := range distances {
		relation, err := pitch.Relative(home, away)
		if err == nil && classesOf(relation.Scale.Notes) == s.candidates[c].classes {
			return relation.Scale
		}
	}
	for _, chord := range s.Chords {
		if scale, ok := s.likely(chord.Root, c); ok {
			return scale
		}
	}
	return s.anyName(c)
}

// distances are the ways from home to the other eleven keys.
var distances = []string{
	"semitone up", "semitone down", "whole tone up", "whole tone down", "minor third up", "minor third down",
	"major third up", "major third down", "fourth up", "fourth down", "tritone",
}

// anyName returns a candidate as the likeliest home that has its notes, or by the name
// that is listed first for them.
func (s *search) anyName(c int) pitch.Scale {
	names := s.namesIn(c)
	for _, typeName := range homeTypes {
		for _, root := range names {
			if scale, ok := typeOn(root, typeName); ok && classesOf(scale.Notes) == s.candidates[c].classes {
				return scale
			}
		}
	}
	for _, n := range pitch.CollectNames(names).Names {
		if scale, err := pitch.ParseScale(n.Root.String() + " " + n.Name); err == nil {
			return scale
		}
	}
	return pitch.Scale{Root: names[0], Notes: names}
}

// namesIn returns the names of a candidate's notes, from C up: the line's own where it
// plays them, otherwise plain ones.
func (s *search) namesIn(c int) []pitch.Name {
	var names []pitch.Name
	for class := range 12 {
		if !s.candidates[c].has(class) {
			continue
		}
		name := pitch.PlainName(class, true)
		if at := slices.Index(s.classes, class); at >= 0 {
			name = s.Notes[at].Pitch.Name
		}
		names = append(names, name)
	}
	return names
}
