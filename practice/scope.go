package practice

import (
	"slices"

	"heddle/exercise"
	"heddle/pitch"
)

// A Scope says in which keys and placements an item is practised.
type Scope string

// The scopes.
const (
	One    Scope = "one"    // as it is
	Common Scope = "common" // the keys in common use, in this placement
	Keys   Scope = "keys"   // all twelve keys, in this placement
	Places Scope = "places" // all placements, in this key
	All    Scope = "all"    // all placements in all keys
)

// Scopes lists the scopes with what a page or a help says of them.
func Scopes() []exercise.Choice {
	return []exercise.Choice{
		{Value: string(One), Words: "this key in this place"},
		{Value: string(Common), Words: "the common keys in this place"},
		{Value: string(Keys), Words: "all twelve keys in this place"},
		{Value: string(Places), Words: "all places in this key"},
		{Value: string(All), Words: "all places in all keys"},
	}
}

// parseScope reads a scope.
func parseScope(s string) (Scope, error) {
	if slices.ContainsFunc(Scopes(), func(c exercise.Choice) bool { return c.Value == s }) {
		return Scope(s), nil
	}
	return "", &pitch.InputError{What: "scope", Value: s, Want: "one, common, keys, places or all"}
}

// commonKeys are the pitch classes of E, A, D, G and C, the keys of open
// strings and open chords (common practice).
var commonKeys = []int{4, 9, 2, 7, 0}

// Units lists what is practised of a spec in a scope. Its own key and placement
// come first, then the others by key, from there upwards, and by fret.
func Units(s exercise.Spec, scope Scope) ([]Unit, error) {
	ex, err := exercise.Build(s)
	if err != nil {
		return nil, err
	}
	own := Unit{Key: ex.Scales[0].Root.String(), Fret: max(0, ex.Spec.Fret)} // the open position is 0
	units := []Unit{own}
	if scope == One {
		return units, nil
	}
	keys, err := s.Keys()
	if err != nil {
		return nil, err
	}
	frets := []int{own.Fret}
	if scope == Places || scope == All {
		if frets, err = exercise.FretsOf(s); err != nil {
			return nil, err
		}
	}
	root := ex.Scales[0].Root.Class()
	for step := range 12 {
		class := (root + step) % 12
		if scope == Places && step > 0 || scope == Common && step > 0 && !slices.Contains(commonKeys, class) {
			continue
		}
		for _, fret := range frets {
			u := Unit{Key: keys[class].String(), Fret: along(fret, step, ex.Instrument.LastFret())}
			if u != own && playable(s, u) {
				units = append(units, u)
			}
		}
	}
	return units, nil
}

// along returns the fret of the same placement some semitones higher, or an
// octave lower where the hand would run off the neck.
func along(fret, semitones, last int) int {
	const hand = 5 // frets that a placement may need above its first finger
	to := fret + semitones
	for to > 12 && to-12 >= 1 && (to > 15 || to+hand > last) {
		to -= 12
	}
	return to
}

// playable reports whether the spec can be built as the unit asks.
func playable(s exercise.Spec, u Unit) bool {
	moved, err := u.Spec(s)
	if err == nil {
		_, err = exercise.Build(moved)
	}
	return err == nil
}
