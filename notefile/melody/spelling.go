package melody

import (
	"strings"

	"heddle/pitch"
)

// fifthsOrder lists the letters by rising fifths from F, which is at −1.
var fifthsOrder = [7]pitch.Letter{pitch.F, pitch.C, pitch.G, pitch.D, pitch.A, pitch.E, pitch.B}

// nameAtFifth returns the name a number of fifths above C: 1 is G, −2 is B♭,
// 7 is C♯.
func nameAtFifth(fifth int) pitch.Name {
	place := ((fifth+1)%7 + 7) % 7
	return pitch.Name{Letter: fifthsOrder[place], Accidental: (fifth + 1 - place) / 7}
}

// Spell names a MIDI key in a key signature of so many sharps (negative for
// flats). A note of the key has the key's own name. Others get a name from the
// twelve fifths that begin three below the key's first: in C major E♭, B♭, F♯,
// C♯ and G♯ (the leading tones and blue notes of common practice).
func Spell(key, fifths int) pitch.Pitch {
	const below = 3
	for f := fifths - below; f < fifths-below+12; f++ {
		if n := nameAtFifth(f); n.Class() == key%12 {
			return pitch.Named(n, key)
		}
	}
	panic("notefile: twelve fifths in a row hold every pitch class")
}

// BestKey returns the key signature that most of the MIDI keys belong to. In a
// tie, the one with the fewest accidentals wins, flats before sharps.
func BestKey(keys []int) int {
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

// longestName is the length of the longest note name in any naming, in bytes.
const longestName = 12

// NameIn reads a lyric as the name, in any naming, of a note of a pitch class:
// B is a German B♭ if B♭ sounds, otherwise an English B.
func NameIn(lyric string, class int) (pitch.Name, bool) {
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

// ScaleIn reads the name of a scale in a naming and returns the scale; ok is false
// if it can't be read.
func ScaleIn(text string, naming pitch.Naming) (scale pitch.Scale, ok bool) {
	root, kind, _ := strings.Cut(text, " ")
	name, err := naming.Parse(root)
	if err == nil {
		scale, err = pitch.ParseScale(name.String() + " " + kind)
	}
	return scale, err == nil
}
