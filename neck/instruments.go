package neck

import (
	"slices"
	"strings"

	"heddle/pitch"
)

// A model is an instrument as it is usually sold.
type model struct {
	name    string
	also    []string // other names, as words returns them
	tuning  string
	frets   int
	scaleMM float64
}

// models lists the instruments known by name. Tunings are the standard ones,
// frets and scale lengths the usual ones (common practice). A mandolin's double
// courses count as one string each.
var models = []model{
	{"guitar", []string{"six guitar", "electric guitar", "acoustic guitar", "standard guitar"}, "E2 A2 D3 G3 B3 E4", 22, 648},
	{"seven-string guitar", []string{"seven"}, "B1 E2 A2 D3 G3 B3 E4", 24, 648},
	{"eight-string guitar", []string{"eight"}, "F#1 B1 E2 A2 D3 G3 B3 E4", 24, 686},
	{"baritone guitar", []string{"baritone"}, "B1 E2 A2 D3 F#3 B3", 22, 686},
	{"bass", []string{"four bass", "bass guitar", "electric bass", "four bass guitar"}, "E1 A1 D2 G2", 20, 864},
	{"five-string bass", []string{"five bass guitar", "five"}, "B0 E1 A1 D2 G2", 22, 864},
	{"six-string bass", []string{"six bass guitar"}, "B0 E1 A1 D2 G2 C3", 24, 864},
	{"ukulele", []string{"uke", "concert ukulele", "four ukulele"}, "G4 C4 E4 A4", 18, 381},
	{"baritone ukulele", []string{"baritone uke"}, "D3 G3 B3 E4", 18, 510},
	{"mandolin", []string{"eight mandolin"}, "G3 D4 A4 E5", 20, 352},
}

// counts turns numbers of strings into words.
var counts = strings.NewReplacer("4", " four ", "5", " five ", "6", " six ", "7", " seven ", "8", " eight ",
	"strings", " ", "string", " ", "-", " ", "_", " ")

// Guitar returns a six-string guitar in standard tuning with 22 frets and a
// scale length of 648 mm.
func Guitar() Instrument { return models[0].instrument() }

// Instruments returns the names of the instruments that Named knows.
func Instruments() []string {
	names := make([]string, len(models))
	for i, m := range models {
		names[i] = m.name
	}
	return names
}

// Named returns the instrument with that name in its standard tuning. Case,
// hyphens and the spelling of the number of strings do not matter: "seven-string
// guitar", "7 string guitar", "7-string".
func Named(name string) (Instrument, error) {
	key := words(name)
	for _, m := range models {
		if key == words(m.name) || slices.Contains(m.also, key) {
			return m.instrument(), nil
		}
	}
	return Instrument{}, &pitch.InputError{
		What: "instrument", Value: name,
		Want:    "one of " + strings.Join(Instruments(), ", "),
		Nearest: nearestInstrument(key),
	}
}

// words returns the one spelling of an instrument's name for look-ups.
func words(name string) string {
	return strings.Join(strings.Fields(counts.Replace(strings.ToLower(name))), " ")
}

// instrument returns the model for a right-handed player without a capo.
func (m model) instrument() Instrument {
	return Instrument{Name: m.name, Open: mustTune(m.tuning), Frets: m.frets, ScaleMM: m.scaleMM}
}

// nearestInstrument returns the instrument that was most likely meant, or "".
func nearestInstrument(key string) string {
	var valid, names []string
	for _, m := range models {
		for _, word := range append([]string{words(m.name)}, m.also...) {
			valid, names = append(valid, word), append(names, m.name)
		}
	}
	if at := slices.Index(valid, pitch.Nearest(key, valid)); at >= 0 {
		return names[at]
	}
	return ""
}
