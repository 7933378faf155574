package pitch

// A Collection is what the notes of several scales make together.
type Collection struct {
	Notes          []Name // in rising order from the first scale's root
	Forte          string // "10-5"
	PrimeForm      []int  // Forte's
	PrimeFormRahn  []int
	IntervalVector [6]int
	Transpositions int // distinct ones, 1 to 12
	Messiaen       int // which of the seven modes of limited transposition, or 0
	Names          []ScaleName
	Missing        []Name // what is missing from the twelve
}

// A ScaleName is a scale type on a root that fits a collection exactly.
type ScaleName struct {
	Root Name
	Name string
}
