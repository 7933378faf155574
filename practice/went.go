package practice

import (
	"slices"

	"heddle/exercise"
	"heddle/pitch"
)

// Went says how a run went.
type Went int

// How a run went, worst first. The zero Went is unset.
const (
	FellApart Went = iota + 1
	Shaky
	Clean
	Relaxed
)

var wentWords = []string{"fell apart", "shaky", "clean", "relaxed"}

// WentWords lists the four words, worst first.
func WentWords() []string { return slices.Clone(wentWords) }

// String returns the word.
func (w Went) String() string {
	if w < FellApart || w > Relaxed {
		return ""
	}
	return wentWords[w-1]
}

// ParseWent reads one of the four words; "fell-apart" is read too.
func ParseWent(s string) (Went, error) {
	for i, word := range wentWords {
		if s == word || i == 0 && s == "fell-apart" {
			return Went(i + 1), nil
		}
	}
	return 0, &pitch.InputError{What: "went", Value: s, Want: "fell apart, shaky, clean or relaxed", Nearest: pitch.Nearest(s, wentWords)}
}

// MarshalText writes the word.
func (w Went) MarshalText() ([]byte, error) { return []byte(w.String()), nil }

// UnmarshalText reads the word.
func (w *Went) UnmarshalText(text []byte) (err error) {
	*w, err = ParseWent(string(text))
	return err
}

// gradeTable is how marks become a word: the first row whose conditions both
// hold. Share is of right notes among those written and those played beside
// them; spread is the timing spread as a share of the note value. Our choice:
// a spread of 0.15 is 22 ms in eighths at 200 and 56 ms at 80.
var gradeTable = []struct {
	share, spread float64
	went          Went
}{
	{0.97, 0.09, Relaxed},
	{0.90, 0.16, Clean},
	{0.70, 0.30, Shaky},
	{0, 1e9, FellApart},
}

// grade says how a marked run went. The note value lasts 60/tempo × its length
// in quarter notes.
func grade(m Marks, noteMS float64) Went {
	total := m.Right + m.Wrong + m.Missed + m.Extra
	if total == 0 || noteMS <= 0 {
		return FellApart
	}
	share, spread := float64(m.Right)/float64(total), m.SpreadMS/noteMS
	for _, row := range gradeTable {
		if share >= row.share && spread <= row.spread {
			return row.went
		}
	}
	return FellApart
}

// noteMS returns how long one note of the exercise lasts at a tempo.
func noteMS(ex *exercise.Exercise, tempo float64) float64 {
	return 60_000 / tempo * ex.Rhythm.Value.Length().Quarters()
}
