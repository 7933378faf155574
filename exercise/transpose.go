package exercise

import (
	"slices"

	"heddle/neck"
	"heddle/pitch"
)

// Root returns the root of the home scale, of the first one if home changes.
func (s Spec) Root() (pitch.Name, error) {
	scale, err := pitch.ParseScale(splitBars(s.Home)[0])
	return scale.Root, named("home", err)
}

// Moved returns the spec in another key and at another fret; fret 0 leaves the
// placement to its default. Scales and chords given by name move with the home
// scale's root. The first note is unset, because it belongs to the placement
// that was left.
func (s Spec) Moved(key pitch.Name, fret int) (Spec, error) {
	root, err := s.Root()
	if err != nil {
		return s, err
	}
	move := func(name string) string {
		n, err := pitch.ParseName(name)
		if err != nil {
			return ""
		}
		up := pitch.Between(root, key).From(n)
		if up.Accidental < -1 || up.Accidental > 1 {
			up = pitch.PlainName(up.Class(), up.Accidental < 0)
		}
		return up.String()
	}
	if root != key {
		s.Home = scaleRoots(s.Home, move)
		s.Chord, s.Changes = chordRoots(s.Chord, move), changesRoots(s.Changes, move)
		s.Superimpose = slices.Clone(s.Superimpose)
		for i, scale := range s.Superimpose {
			s.Superimpose[i] = scaleRoots(scale, move)
		}
	}
	s.Fret, s.Start = fret, ""
	return s, nil
}

// Keys lists the twelve roots of a scale type from C up, each by the name that
// needs the fewest accidentals, or flats where two need as many. Roots that the
// spec names itself keep their names.
func (s Spec) Keys() ([]pitch.Name, error) {
	home, err := pitch.ParseScale(splitBars(s.Home)[0])
	if err != nil {
		return nil, named("home", err)
	}
	keys := make([]pitch.Name, 12)
	for class := range keys {
		flat, sharp := pitch.PlainName(class, true), pitch.PlainName(class, false)
		keys[class] = flat
		if accidentals(pitch.NewScale(sharp, home.Type)) < accidentals(pitch.NewScale(flat, home.Type)) {
			keys[class] = sharp
		}
	}
	keys[home.Root.Class()] = home.Root
	return keys, nil
}

func accidentals(s pitch.Scale) (n int) {
	for _, name := range s.Notes {
		n += max(name.Accidental, -name.Accidental)
	}
	return n
}

// FretsOf lists, from the nut up, the frets that give the spec's home scale a
// different placement each, with all scales within the hand's reach: one octave
// of the neck, with the placement at fret 12 for the one on open strings where
// the neck has room for it.
func FretsOf(s Spec) ([]int, error) {
	places, err := Near(s)
	if err != nil {
		return nil, err
	}
	const octave, handAbove = 12, 15
	last := places.Instrument.LastFret()
	var frets, lows []int
	for fret := 1; fret <= min(octave, last); fret++ {
		pair, ok := neck.Choose(places.Pairs, fret)
		first, low := pair.Home.FirstFinger(), pair.Home.Window.Low
		if !ok || !pair.Fits || first > octave || low == 0 && last >= handAbove || slices.Contains(lows, low) {
			continue
		}
		lows, frets = append(lows, low), append(frets, max(1, first))
	}
	return frets, nil
}
