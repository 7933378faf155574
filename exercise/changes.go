package exercise

import (
	"strconv"
	"strings"

	"heddle/line"
	"heddle/pitch"
)

// Changes are bars with one or more chords each, as in "A7 F#7 | Bm7 E7":
//
//   - The chords of a bar share it equally. "/" holds the chord for another share, and
//     "%" in place of a bar repeats the one before.
//   - Commas separate bars where there are no bar lines, otherwise chords.
//   - Spaces alone could mean either, so a player is asked, with the bars spelled out.
//     One bar of several chords has a bar line at either end.
//   - A form is its name and key: "blues in A", see forms.

const (
	barLine = "|"
	repeat  = "%"
	hold    = "/"

	// maxShares is the most chords in a bar: one on each eighth of 4/4.
	maxShares = 8
)

// A bar is the chords that share it, each a symbol or hold.
type bar []string

// readChanges reads the bars of changes.
func readChanges(text string) ([]bar, error) {
	if bars, ok, err := readForm(text); ok || err != nil {
		return bars, err
	}
	texts, err := barTexts(text)
	if err != nil {
		return nil, err
	}
	if len(texts) > maxBars {
		return nil, changesError(strconv.Itoa(len(texts))+" bars", "at most "+strconv.Itoa(maxBars)+" bars")
	}
	bars := make([]bar, len(texts))
	for i, one := range texts {
		switch shares := chordsOf(one); {
		case i > 0 && len(shares) == 1 && shares[0] == repeat:
			bars[i] = bars[i-1]
		case len(shares) == 0 || shares[0] == repeat || shares[0] == hold:
			return nil, changesError(text, "a chord or % (the same again) in each bar, such as Gm7 | C7 | Fmaj7 | %")
		case len(shares) > maxShares:
			return nil, changesError(strings.Join(shares, " "), "at most "+strconv.Itoa(maxShares)+" chords in a bar")
		default:
			bars[i] = shares.reduced()
		}
	}
	return bars, nil
}

// barTexts splits changes into bars.
func barTexts(text string) ([]string, error) {
	if strings.Contains(text, barLine) {
		return splitBars(text), nil
	}
	if texts := splitOutside(text, ','); len(texts) > 1 {
		return texts, nil
	}
	shares := chordsOf(text)
	var chords []string
	for _, share := range shares {
		if share != hold {
			chords = append(chords, share)
		}
	}
	if len(chords) < 2 {
		return []string{text}, nil
	}
	for _, chord := range chords {
		if _, err := pitch.ParseChord(chord); err != nil && chord != repeat {
			return nil, named("changes", err)
		}
	}
	each := strings.Join(chords, " | ")
	return nil, &pitch.InputError{What: "changes", Value: text, Nearest: each,
		Want: "bar lines: " + each + " for a bar each, or | " + strings.Join(shares, " ") + " | for one bar"}
}

// splitOutside splits at a mark that is not within brackets, as that of G7(b9,#11) is.
func splitOutside(text string, mark rune) []string {
	depth := 0
	parts := []string{""}
	for _, r := range text {
		switch r {
		case '(':
			depth++
		case ')':
			depth--
		}
		if r == mark && depth <= 0 {
			parts = append(parts, "")
			continue
		}
		parts[len(parts)-1] += string(r)
	}
	return parts
}

// chordsOf splits a bar into chords. A symbol with spaces in it is one chord.
func chordsOf(text string) bar {
	if _, err := pitch.ParseChord(text); err == nil && !strings.Contains(text, " "+hold) {
		return bar{strings.TrimSpace(text)}
	}
	var chords bar
	for _, part := range splitOutside(text, ',') {
		chords = append(chords, strings.Fields(part)...)
	}
	return chords
}

// reduced returns the bar with as few shares as show it: A7 / F#7 / is A7 F#7.
func (b bar) reduced() bar {
	common := line.Beat(len(b))
	for i, share := range b {
		if share != hold {
			common = line.GCD(common, line.Beat(i))
		}
	}
	var shares bar
	for i := 0; i < len(b); i += int(common) {
		shares = append(shares, b[i])
	}
	return shares
}

// String writes the bar as it is read.
func (b bar) String() string { return strings.Join(b, " ") }

// writeChanges writes bars as readChanges reads them.
func writeChanges(bars []bar) string {
	if len(bars) == 1 && len(bars[0]) > 1 {
		return barLine + " " + bars[0].String() + " " + barLine
	}
	texts := make([]string, len(bars))
	for i, b := range bars {
		texts[i] = b.String()
	}
	return joinBars(texts)
}

func changesError(value, want string) error {
	return &pitch.InputError{What: "changes", Value: value, Want: want}
}
