package pitch

// A typeRow is one row of the table of scale types: how common it is, its usual name,
// other names, and the degrees it is known by.
type typeRow struct {
	// rank is 0 for what every player knows, 1 for what is common, 2 for what students of
	// modes know (and for triads and arpeggios, which are better known as chords), 3 for
	// the rest.
	rank    int
	name    string
	aliases []string
	degrees string
}

// typeRows lists every scale type that has a name, by number of notes. Names,
// degrees and ranks are common practice. Where traditions differ, names follow the
// dictionary in testdata, which also checks the notes of every row.
var typeRows = []typeRow{
	{2, "major triad", []string{"triad", "major arpeggio"}, "1 3 5"},
	{2, "minor triad", []string{"minor arpeggio"}, "1 b3 5"},
	{2, "diminished triad", nil, "1 b3 b5"},
	{2, "augmented triad", []string{"augmented arpeggio"}, "1 3 #5"},
	{2, "suspended fourth triad", []string{"sus4", "sus4 triad", "sus4 arpeggio"}, "1 4 5"},
	{2, "suspended second triad", []string{"sus2", "sus2 triad", "sus2 arpeggio"}, "1 2 5"},

	{2, "major seventh arpeggio", []string{"maj7", "maj7 arpeggio", "major seventh"}, "1 3 5 7"},
	{2, "dominant seventh arpeggio", []string{"7", "7 arpeggio", "dominant seventh", "dominant arpeggio"}, "1 3 5 b7"},
	{2, "minor seventh arpeggio", []string{"m7", "m7 arpeggio", "min7", "min7 arpeggio", "minor seventh"}, "1 b3 5 b7"},
	{2, "half-diminished arpeggio", []string{"m7b5", "m7b5 arpeggio", "half-diminished", "half-diminished seventh arpeggio", "minor seventh flat five arpeggio"}, "1 b3 b5 b7"},
	{2, "diminished seventh arpeggio", []string{"dim7", "dim7 arpeggio", "diminished seventh", "diminished arpeggio"}, "1 b3 b5 bb7"},
	{2, "minor major seventh arpeggio", []string{"m(maj7)", "m(maj7) arpeggio", "minor major seventh"}, "1 b3 5 7"},
	{2, "augmented major seventh arpeggio", []string{"maj7#5", "maj7#5 arpeggio", "augmented major seventh"}, "1 3 #5 7"},
	{2, "augmented seventh arpeggio", []string{"7#5", "7#5 arpeggio", "augmented seventh"}, "1 3 #5 b7"},
	{2, "dominant seventh flat five arpeggio", []string{"7b5", "7b5 arpeggio"}, "1 3 b5 b7"},
	{2, "suspended seventh arpeggio", []string{"7sus4", "7sus4 arpeggio"}, "1 4 5 b7"},
	{2, "sixth arpeggio", []string{"6 arpeggio", "major sixth arpeggio"}, "1 3 5 6"},
	{2, "minor sixth arpeggio", []string{"m6", "m6 arpeggio"}, "1 b3 5 6"},

	// The five modes of 5-35.
	{0, "major pentatonic", []string{"pentatonic"}, "1 2 3 5 6"},
	{2, "suspended pentatonic", []string{"egyptian", "egyptian pentatonic"}, "1 2 4 5 b7"},
	{3, "man gong", []string{"malkos raga", "blues minor pentatonic"}, "1 b3 4 b6 b7"},
	{3, "ritusen", []string{"scottish pentatonic", "blues major pentatonic"}, "1 2 4 5 6"},
	{0, "minor pentatonic", nil, "1 b3 4 5 b7"},

	// Altered pentatonics.
	{3, "dominant pentatonic", []string{"major flat seven pentatonic"}, "1 2 3 5 b7"},
	{3, "mixolydian pentatonic", nil, "1 3 4 5 b7"},
	{3, "ionian pentatonic", nil, "1 3 4 5 7"},
	{3, "lydian pentatonic", nil, "1 3 #4 5 7"},
	{3, "lydian dominant pentatonic", nil, "1 3 #4 5 b7"},
	{3, "major flat six pentatonic", []string{"flat six pentatonic"}, "1 2 3 5 b6"},
	{3, "major flat two pentatonic", []string{"scriabin"}, "1 b2 3 5 6"},
	{3, "minor six pentatonic", []string{"minor sixth pentatonic"}, "1 b3 4 5 6"},
	{3, "minor flat six pentatonic", nil, "1 b3 4 5 b6"},
	{3, "minor major seven pentatonic", []string{"minor major pentatonic"}, "1 b3 4 5 7"},
	{3, "minor pentatonic flat five", []string{"minor flat five pentatonic", "locrian pentatonic", "half-diminished pentatonic"}, "1 b3 4 b5 b7"},
	{3, "altered pentatonic", []string{"super locrian pentatonic", "1 b3 b4 b5 b7"}, "1 #2 3 b5 b7"},
	{3, "whole tone pentatonic", nil, "1 3 b5 b6 b7"},
	{2, "kumoi", []string{"flat three pentatonic", "dorian pentatonic"}, "1 2 b3 5 6"},
	{2, "hirajoshi", nil, "1 2 b3 5 b6"},
	{3, "in-sen", []string{"insen"}, "1 b2 4 5 b7"},
	{3, "in", []string{"kumoijoshi", "in scale"}, "1 b2 4 5 b6"},
	{3, "iwato", nil, "1 b2 4 b5 b7"},
	{3, "pelog", nil, "1 b2 b3 5 b6"},

	{0, "minor blues", []string{"blues", "blues hexatonic"}, "1 b3 4 b5 5 b7"},
	{1, "major blues", nil, "1 2 b3 3 5 6"},
	{2, "minor hexatonic", nil, "1 2 b3 4 5 b7"},
	{2, "major hexatonic", []string{"major and minor triad pair a whole tone apart"}, "1 2 3 4 5 6"},
	{1, "whole tone", []string{"augmented triad pair a whole tone apart"}, "1 2 3 #4 #5 b7"},
	{2, "augmented", []string{"augmented hexatonic", "augmented triad pair a minor third apart"}, "1 #2 3 5 #5 7"},
	{3, "inverted augmented", []string{"augmented triad pair a semitone apart"}, "1 b2 3 4 #5 6"},
	{3, "prometheus", nil, "1 2 3 #4 6 b7"},
	{3, "major triad pair a semitone apart", nil, "1 b2 3 4 5 b6"},
	{2, "major triad pair a whole tone apart", nil, "1 2 3 #4 5 6"},
	{3, "major triad pair a tritone apart", nil, "1 b2 3 #4 5 b7"},
	{3, "minor triad pair a semitone apart", nil, "1 b2 b3 b4 5 b6"},
	{2, "minor triad pair a whole tone apart", nil, "1 2 b3 4 5 6"},
	{3, "minor triad pair a tritone apart", nil, "1 b2 b3 #4 5 6"},

	// The modes of major.
	{0, "major", []string{"ionian"}, "1 2 3 4 5 6 7"},
	{0, "dorian", nil, "1 2 b3 4 5 6 b7"},
	{1, "phrygian", nil, "1 b2 b3 4 5 b6 b7"},
	{1, "lydian", nil, "1 2 3 #4 5 6 7"},
	{0, "mixolydian", []string{"dominant"}, "1 2 3 4 5 6 b7"},
	{0, "natural minor", []string{"minor", "aeolian"}, "1 2 b3 4 5 b6 b7"},
	{1, "locrian", nil, "1 b2 b3 4 b5 b6 b7"},

	// The modes of melodic minor (rising).
	{1, "melodic minor", []string{"jazz minor"}, "1 2 b3 4 5 6 7"},
	{2, "dorian b2", []string{"phrygian #6", "phrygian natural 6"}, "1 b2 b3 4 5 6 b7"},
	{2, "lydian augmented", []string{"lydian #5"}, "1 2 3 #4 #5 6 7"},
	{1, "lydian dominant", []string{"lydian b7", "overtone", "acoustic"}, "1 2 3 #4 5 6 b7"},
	{2, "mixolydian b6", []string{"melodic major", "aeolian dominant"}, "1 2 3 4 5 b6 b7"},
	{2, "locrian #2", []string{"locrian natural 2", "aeolian b5", "half-diminished scale"}, "1 2 b3 4 b5 b6 b7"},
	{1, "altered", []string{"super locrian", "altered dominant", "1 b2 b3 b4 b5 b6 b7"}, "1 b2 #2 3 b5 #5 b7"}, // as played over 7alt

	// The modes of harmonic minor.
	{1, "harmonic minor", nil, "1 2 b3 4 5 b6 7"},
	{2, "locrian #6", []string{"locrian 6", "locrian natural 6"}, "1 b2 b3 4 b5 6 b7"},
	{2, "ionian #5", []string{"ionian augmented", "major augmented"}, "1 2 3 4 #5 6 7"},
	{2, "dorian #4", []string{"romanian minor", "ukrainian dorian"}, "1 2 b3 #4 5 6 b7"},
	{1, "phrygian dominant", []string{"phrygian major", "spanish"}, "1 b2 3 4 5 b6 b7"},
	{2, "lydian #2", []string{"lydian #9"}, "1 #2 3 #4 5 6 7"},
	{2, "ultralocrian", []string{"super locrian bb7", "altered bb7"}, "1 b2 b3 b4 b5 b6 bb7"},

	// The modes of harmonic major.
	{2, "harmonic major", nil, "1 2 3 4 5 b6 7"},
	{3, "dorian b5", []string{"locrian #2 #6"}, "1 2 b3 4 b5 6 b7"},
	{3, "phrygian b4", []string{"altered natural 5"}, "1 b2 b3 b4 5 b6 b7"},
	{3, "lydian b3", []string{"melodic minor #4", "lydian diminished"}, "1 2 b3 #4 5 6 7"},
	{3, "mixolydian b2", []string{"dominant b2"}, "1 b2 3 4 5 6 b7"},
	{3, "lydian augmented #2", nil, "1 #2 3 #4 #5 6 7"},
	{3, "locrian bb7", nil, "1 b2 b3 4 b5 b6 bb7"},

	// Other scales of seven.
	{2, "double harmonic", []string{"double harmonic major", "byzantine"}, "1 b2 3 4 5 b6 7"},
	{2, "hungarian minor", []string{"double harmonic minor"}, "1 2 b3 #4 5 b6 7"},
	{3, "hungarian major", nil, "1 #2 3 #4 5 6 b7"},
	{3, "neapolitan minor", nil, "1 b2 b3 4 5 b6 7"},
	{3, "neapolitan major", nil, "1 b2 b3 4 5 6 7"},
	{3, "persian", nil, "1 b2 3 4 b5 b6 7"},

	{1, "octatonic half-whole", []string{"half-whole", "half-whole diminished", "dominant diminished", "octatonic"}, "1 b2 b3 3 #4 5 6 b7"},
	{1, "octatonic whole-half", []string{"whole-half", "whole-half diminished", "diminished"}, "1 2 b3 4 b5 b6 6 7"},
	{2, "bebop dominant", []string{"bebop", "dominant bebop", "bebop mixolydian"}, "1 2 3 4 5 6 b7 7"},
	{2, "bebop major", []string{"major bebop"}, "1 2 3 4 5 #5 6 7"},
	{2, "bebop dorian", []string{"bebop minor"}, "1 2 b3 3 4 5 6 b7"},
	{3, "bebop melodic minor", nil, "1 2 b3 4 5 b6 6 7"},
	{3, "bebop harmonic minor", []string{"bebop natural minor"}, "1 2 b3 4 5 b6 b7 7"},
	{3, "bebop locrian", []string{"bebop half-diminished"}, "1 b2 b3 4 b5 5 b6 b7"},
	{2, "composite blues", []string{"combined blues", "mixed blues"}, "1 2 b3 3 4 b5 5 6 b7"},

	// Messiaen 1944; modes 1 and 2 are the whole tone and octatonic scales.
	{3, "Messiaen mode 3", nil, "1 2 b3 3 #4 5 b6 b7 7"},
	{3, "Messiaen mode 4", nil, "1 b2 2 4 #4 5 b6 7"},
	{3, "Messiaen mode 5", nil, "1 b2 4 #4 5 7"},
	{3, "Messiaen mode 6", nil, "1 2 3 4 #4 #5 #6 7"},
	{3, "Messiaen mode 7", nil, "1 b2 2 b3 4 #4 5 b6 6 7"},
	{1, "chromatic", nil, "1 b2 2 b3 3 4 #4 5 b6 6 b7 7"},
}
