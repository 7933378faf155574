package notefile

import "heddle/pitch"

// fifthsOrder lists the letters by rising fifths from F, which stands at −1.
var fifthsOrder = [7]pitch.Letter{pitch.F, pitch.C, pitch.G, pitch.D, pitch.A, pitch.E, pitch.B}

// nameAtFifth returns the name a number of fifths above C: 1 is G, −2 is B♭,
// 7 is C♯.
func nameAtFifth(fifth int) pitch.Name {
	place := ((fifth+1)%7 + 7) % 7
	return pitch.Name{Letter: fifthsOrder[place], Accidental: (fifth + 1 - place) / 7}
}

// The keys that have a name in a signature, in fifths above C major.
const (
	mostFlats  = -7
	mostSharps = 7
)

// spell names a MIDI key in a key signature of so many sharps (flats are
// negative). A note of the key has the key's name; another is taken from the
// twelve that reach from the third flat below the key's first name to the
// third sharp above its last: in C major E♭, B♭, F♯, C♯ and G♯ (the leading
// tones and blue notes of common practice).
func spell(key, fifths int) pitch.Pitch {
	const below = 3
	for f := fifths - below; f < fifths-below+12; f++ {
		if n := nameAtFifth(f); n.Class() == key%12 {
			return pitch.Named(n, key)
		}
	}
	panic("notefile: twelve fifths in a row hold every pitch class")
}

// bestKey returns the key signature to which most of the notes belong; among
// equals the one with the fewest signs, flats before sharps.
func bestKey(keys []int) int {
	var classes [12]int
	for _, k := range keys {
		classes[k%12]++
	}
	best, bestIn := 0, -1
	for _, fifths := range []int{0, -1, 1, -2, 2, -3, 3, -4, 4, -5, 5, -6, 6} {
		in := 0
		for f := fifths - 1; f <= fifths+5; f++ {
			in += classes[nameAtFifth(f).Class()]
		}
		if in > bestIn {
			best, bestIn = fifths, in
		}
	}
	return best
}

// longestName bounds a note name in any naming, in bytes.
const longestName = 12

// nameSaid returns the name that a lyric says, in any naming, of a note of a
// pitch class: a German B is a B♭ where B♭ sounds, an English one a B.
func nameSaid(lyric string, class int) (pitch.Name, bool) {
	if lyric == "" || len(lyric) > longestName {
		return pitch.Name{}, false
	}
	for letter := pitch.C; letter <= pitch.B; letter++ {
		for accidental := -3; accidental <= 3; accidental++ {
			n := pitch.Name{Letter: letter, Accidental: accidental}
			if n.Class() != class {
				continue
			}
			for _, naming := range []pitch.Naming{pitch.English, pitch.German, pitch.Solfege} {
				if lyric == naming.Plain(n) || lyric == naming.Name(n) {
					return n, true
				}
			}
		}
	}
	return pitch.Name{}, false
}
