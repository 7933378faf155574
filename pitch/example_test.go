package pitch_test

import (
	"fmt"

	"heddle/pitch"
)

// Two minor pentatonics a semitone apart, over the chord of the lower one.
func Example() {
	home, err := pitch.ParseScale("G minor pentatonic")
	if err != nil {
		fmt.Println(err)
		return
	}
	relation, err := pitch.Relative(home, "semitone up")
	if err != nil {
		fmt.Println(err)
		return
	}
	out, chord := relation.Scale, home.Chord()
	fmt.Println(out.Symbol(), "over", chord.Name())
	for _, n := range out.Notes {
		fmt.Println(n.Symbol(), chord.Degree(n, out).Symbol(), chord.Function(n, home))
	}
	together := pitch.Collect(home, out)
	fmt.Println(together.Forte, together.PrimeForm, "without", together.Missing)
	// Output:
	// A♭ minor pentatonic over Gm7
	// A♭ ♭9 avoid
	// C♭ 3 outside
	// D♭ ♯11 blue
	// E♭ ♭13 avoid
	// G♭ 7 outside
	// 10-5 [0 1 2 3 4 5 7 8 9 10] without [A E]
}

func ExampleParseScale() {
	_, err := pitch.ParseScale("G minr pentatonic")
	fmt.Println(err)
	// Output:
	// scale "G minr pentatonic": want a root and a scale type, such as G minor pentatonic, or a root and 3 to 12 rising degrees from 1, such as F# 1 b3 4 #5 b7; did you mean "G minor pentatonic"?
}

func ExampleChord_Target() {
	third, err := pitch.ParseDegree("third")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, symbol := range []string{"Gm7", "C7"} {
		chord, err := pitch.ParseChord(symbol)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(symbol, chord.Target(third))
	}
	// Output:
	// Gm7 Bb
	// C7 E
}

func ExampleNaming() {
	n := pitch.Name{Letter: pitch.B, Accidental: -1}
	for _, naming := range []pitch.Naming{pitch.English, pitch.German, pitch.Solfege} {
		fmt.Println(naming, naming.Name(n), naming.Spoken(n))
	}
	// Output:
	// english B♭ B flat
	// german B Be
	// solfege Si♭ si bémol
}
