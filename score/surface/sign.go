package surface

// A Sign is a music glyph: its SMuFL code point.
type Sign rune

// The signs that the score draws (SMuFL 1.4, glyph tables). fonts/glyphs.txt
// holds the same list for the script that cuts the font's metadata down, and
// a test holds the two together.
const (
	TrebleClef       Sign = 0xE050
	TrebleClefOctave Sign = 0xE052 // with the 8 below: sounds an octave lower
	BassClef         Sign = 0xE062
	BassClefOctave   Sign = 0xE064

	TimeDigit Sign = 0xE080 // 0; the digits follow one another

	NoteheadWhole Sign = 0xE0A2
	NoteheadHalf  Sign = 0xE0A3
	NoteheadBlack Sign = 0xE0A4

	AugmentationDot Sign = 0xE1E7
	RepeatDots      Sign = 0xE043

	MetronomeHalf    Sign = 0xECA3
	MetronomeQuarter Sign = 0xECA5
	MetronomeEighth  Sign = 0xECA7
	MetronomeDot     Sign = 0xECB7

	FlagEighthUp Sign = 0xE240 // down follows, then shorter ones in pairs

	Flat         Sign = 0xE260
	Natural      Sign = 0xE261
	Sharp        Sign = 0xE262
	DoubleSharp  Sign = 0xE263
	DoubleFlat   Sign = 0xE264
	TripleSharp  Sign = 0xE265
	TripleFlat   Sign = 0xE266
	OctaveHigher Sign = 0xE511 // 8va
	RestWhole    Sign = 0xE4E3 // shorter rests follow one another
	DownStroke   Sign = 0xE610
	UpStroke     Sign = 0xE612
	TupletDigit  Sign = 0xE880 // 0; the digits follow one another
)

// Accidental returns the sign for an accidental of −3 to 3 semitones.
func Accidental(semitones int) Sign {
	signs := [...]Sign{TripleFlat, DoubleFlat, Flat, Natural, Sharp, DoubleSharp, TripleSharp}
	return signs[max(-3, min(3, semitones))+3]
}

// Digits returns the signs of a number counted from a zero digit.
func Digits(zero Sign, number int) []Sign {
	if number < 10 {
		return []Sign{zero + Sign(max(0, number))}
	}
	return append(Digits(zero, number/10), zero+Sign(number%10))
}
