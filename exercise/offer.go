package exercise

import (
	"strconv"
	"strings"

	"heddle/pitch"
)

// An Offer is a value that can be chosen for a field of an exercise.
type Offer struct {
	Value string      // as the field takes it, with English note names
	Title string      // in words, in the exercise's naming
	Notes []OfferNote // of a scale or a chord
	Says  string      // what it does, in a few words
}

// An OfferNote is a note of an offer and what it is to the chord.
type OfferNote struct {
	Name     pitch.Name
	Degree   pitch.Degree
	Function pitch.Function
}

// An OfferGroup is a number of offers under a heading.
type OfferGroup struct {
	Heading string
	Offers  []Offer
}

// Offers lists what can be chosen for a field, the most used first: scales with
// what their notes are to the first chord, chords with their notes, and other
// values in words. Scales and chords are on a root, an empty one for the
// exercise's own. Superimposed scales are of a type, an empty one for home's, on
// every root from inside to outside (see [Over]).
func (ex *Exercise) Offers(field, root, kind string) ([]OfferGroup, error) {
	f, err := FieldNamed(field)
	if err != nil {
		return nil, err
	}
	on := ex.Scales[0].Root
	if field == "chord" {
		on = ex.Chords[0].Root
	}
	if root != "" {
		if on, err = pitch.ParseName(root); err != nil {
			return nil, err
		}
	}
	switch field {
	case "home":
		return ex.homeOffers(on), nil
	case "chord":
		return ex.chordOffers(on)
	case "superimpose":
		return ex.overOffers(kind)
	}
	group := OfferGroup{Heading: f.Label}
	for _, c := range f.Choices {
		group.Offers = append(group.Offers, Offer{Value: c.Value, Title: c.words()})
	}
	return []OfferGroup{group}, nil
}

// words returns what a choice is called.
func (c Choice) words() string {
	if c.Words != "" {
		return c.Words
	}
	return c.Value
}

// homeOffers are the named scales on a root, by family.
func (ex *Exercise) homeOffers(on pitch.Name) []OfferGroup {
	var groups []OfferGroup
	for _, family := range pitch.Families() {
		g := OfferGroup{Heading: family.Name}
		for _, t := range family.Types {
			s := pitch.NewScale(on, t)
			notes := ex.offerNotes(s, s)
			g.Offers = append(g.Offers, Offer{Value: s.Name(), Title: ex.Naming.Scale(s), Notes: notes, Says: CountFunctions(functionsOf(notes))})
		}
		groups = append(groups, g)
	}
	return groups
}

// offerNotes says what the notes of a scale are to the first chord, with a home.
func (ex *Exercise) offerNotes(s, home pitch.Scale) []OfferNote {
	chord := ex.Chords[0].Chord
	notes := make([]OfferNote, len(s.Notes))
	for i, n := range s.Notes {
		notes[i] = OfferNote{n, chord.Degree(n, s), chord.Function(n, home)}
	}
	return notes
}

func functionsOf(notes []OfferNote) []pitch.Function {
	list := make([]pitch.Function, len(notes))
	for i, n := range notes {
		list[i] = n.Function
	}
	return list
}

// chordFamilies are the chords offered on a root, the most used first (common
// practice).
var chordFamilies = []struct{ name, kinds string }{
	{"Minor", "m7 m m6 m9 m11 m(maj7)"}, {"Dominant", "7 9 13 7sus4 7b9 7#9 7alt 7#5 7#11"}, {"Major", "maj7 _ 6 maj9 6/9 maj7#11"},
	{"Diminished, augmented, without a third", "m7b5 dim7 aug sus2 sus4 5"},
}

// majorKind stands for the empty kind of a major triad among words.
const majorKind = "_"

// chordOffers are the usual chords on a root.
func (ex *Exercise) chordOffers(on pitch.Name) ([]OfferGroup, error) {
	var groups []OfferGroup
	for _, family := range chordFamilies {
		g := OfferGroup{Heading: family.name}
		for _, kind := range strings.Fields(family.kinds) {
			symbol := on.String() + strings.TrimPrefix(kind, majorKind)
			c, err := pitch.ParseChord(symbol)
			if err != nil {
				return nil, err
			}
			o := Offer{Value: symbol, Title: c.Display(ex.Naming)}
			for _, d := range c.Degrees {
				o.Notes = append(o.Notes, OfferNote{d.Above(on), d, pitch.ChordTone})
			}
			g.Offers = append(g.Offers, o)
		}
		groups = append(groups, g)
	}
	return groups, nil
}

// overOffers are a type of scale on every root, from inside to outside.
func (ex *Exercise) overOffers(kind string) ([]OfferGroup, error) {
	var types []string
	if kind != "" {
		types = []string{kind}
	}
	s := ex.Spec
	s.Chord, s.Home = ex.Chords[0].Name(), ex.Scales[0].Name()
	overlays, err := Over(s, types)
	if err != nil {
		return nil, err
	}
	home, over := ex.Scales[0].Scale, overlays[0]
	g := OfferGroup{Heading: over.Type.Name + ", from inside to outside over " + over.Chord.Display(ex.Naming)}
	for _, row := range over.Rows {
		if row.Scale.Root == home.Root && over.Type.Name == home.Type.Name {
			continue // home itself
		}
		o := Offer{Value: row.Interval, Title: row.Interval, Notes: ex.offerNotes(row.Scale, home), Says: addsText(ex.Naming, home, row)}
		if over.Type.Name != home.Type.Name {
			o.Value += " " + over.Type.Name
		}
		g.Offers = append(g.Offers, o)
	}
	return []OfferGroup{{"", []Offer{{Value: "", Title: "no other scale", Says: "home alone"}}}, g}, nil
}

// addsText says what a superimposed scale adds to home and how far out it is.
func addsText(naming pitch.Naming, home pitch.Scale, row OverRow) string {
	var adds []string
	for _, n := range row.Scale.Notes {
		if _, in := home.Named(n.Class()); !in {
			adds = append(adds, naming.Name(n))
		}
	}
	text := "adds nothing"
	switch {
	case len(adds) > 3:
		text = "adds " + countWord(len(adds))
	case len(adds) > 0:
		text = "adds " + strings.Join(adds, " ")
	}
	if outside := row.Count(pitch.Outside); outside > 0 {
		text += ", " + countWord(outside) + " outside"
	}
	return text
}

// CountFunctions counts notes by their function, the innermost first: "1 tension,
// 1 avoid, 3 outside".
func CountFunctions(list []pitch.Function) string {
	count := map[pitch.Function]int{}
	for _, f := range list {
		count[f]++
	}
	var parts []string
	for _, f := range []pitch.Function{pitch.ChordTone, pitch.Tension, pitch.Blue, pitch.Avoid, pitch.Outside} {
		switch n := count[f]; {
		case n == 0:
		case f == pitch.ChordTone || f == pitch.Tension:
			parts = append(parts, pitch.Count(n, string(f)))
		default:
			parts = append(parts, strconv.Itoa(n)+" "+string(f))
		}
	}
	return strings.Join(parts, ", ")
}
