package practice

import (
	"strconv"

	"heddle/exercise"
	"heddle/pitch"
)

// A Unit is an item in one key at one placement.
type Unit struct {
	Item int64
	Key  string // the home scale's root, "Ab"
	Fret int    // of the first finger; 0 for the open position
}

// Spec returns the item's spec as the unit is played.
func (u Unit) Spec(s exercise.Spec) (exercise.Spec, error) {
	key, err := pitch.ParseName(u.Key)
	if err != nil {
		return s, err
	}
	fret := u.Fret
	if fret == 0 {
		fret = exercise.OpenPosition
	}
	root, err := s.Root()
	if err != nil || root == key && s.Fret == fret {
		return s, err // as it was kept, with its first note
	}
	return s.Moved(key, fret)
}

// Words names key and place: "A♭, fret 4" or "E, open position".
func (u Unit) Words() string {
	key, err := pitch.ParseName(u.Key)
	if err != nil {
		return u.Key
	}
	if u.Fret == 0 {
		return key.Symbol() + ", open position"
	}
	return key.Symbol() + ", fret " + strconv.Itoa(u.Fret)
}

// class returns the pitch class of the key.
func (u Unit) class() int {
	key, _ := pitch.ParseName(u.Key)
	return key.Class()
}

// relative returns where the placement lies from the root: the same for the
// same placement in every key.
func (u Unit) relative() int { return (u.Fret - u.class() + 24) % 12 }

// neighbours reports whether two units of one item help each other: the same
// placement a semitone away, or the next placements in the same key (at most
// four frets away). Our assumption: a semitone away the fingers do the same one
// fret along.
func (u Unit) neighbours(v Unit) bool {
	if u.Item != v.Item || u == v {
		return false
	}
	apart := (u.class() - v.class() + 12) % 12
	if apart == 0 {
		return max(u.Fret-v.Fret, v.Fret-u.Fret) <= 4
	}
	return (apart == 1 || apart == 11) && u.relative() == v.relative()
}
