package bench

import (
	"html/template"
	"strconv"
	"strings"

	"heddle/exercise"
	"heddle/neck"
	"heddle/pitch"
)

// A place is one row of the places card.
type place struct {
	pair    neck.Pair
	Number  int // as the map has it
	Fret    int
	Why     string
	Frets   string
	Link    string
	Current bool
}

// mostPlaces bounds the places on the card: more than a pentatonic has on one
// neck.
const mostPlaces = 12

// places lists the best place at each fret, best first.
func (a asked) places() ([]place, error) {
	near, err := exercise.Near(a.Exercise.Spec)
	if err != nil {
		return nil, err
	}
	var list []place
	seen := map[int]bool{}
	home := a.Exercise.Scales[0].Placement.FirstFinger()
	for _, pair := range near.Pairs {
		fret := max(1, pair.Home.FirstFinger())
		if seen[fret] || !pair.Joined || len(list) == mostPlaces {
			continue
		}
		seen[fret] = true
		list = append(list, place{
			pair: pair, Number: len(list) + 1, Fret: fret, Why: pair.Why, Frets: pair.Frets(),
			Link: a.Link("fret", strconv.Itoa(fret)), Current: max(1, home) == fret,
		})
	}
	return list, nil
}

// An ending is one row of the endings card.
type ending struct {
	Number  int
	Notes   string
	Target  string
	Kind    string
	Beat    string // where it lands, if the first ending lands elsewhere
	Cost    string // in words, for a tooltip
	Link    string
	Current bool
}

func (a asked) endings() []ending {
	var list []ending
	ex := a.Exercise
	for i, e := range ex.Endings {
		names := make([]string, len(e.Notes))
		for k, n := range e.Notes {
			names[k] = ex.Naming.Name(n.Pitch.Name)
		}
		notes := strings.Join(names, " ")
		if a.View.Hides("names") || a.View.Hides("line") {
			notes = pitch.Count(len(names), "note")
		}
		beat := ""
		if e.At != ex.Endings[0].At {
			beat = ex.BarBeat(e.At)
		}
		list = append(list, ending{
			Number: i + 1, Beat: beat, Notes: notes, Target: pitch.Signs(e.Target), Kind: e.Kind, Cost: "cost " + strconv.FormatFloat(e.Cost, 'f', 1, 64) + "; the lower, the smoother",
			Link: a.Link("ending", strconv.Itoa(i+1)), Current: ex.Spec.Ending == i+1,
		})
	}
	return list
}

// A together is what the scales make with one another.
type together struct {
	Count          int
	Notes, Missing string
	Remarks        []string
	Forte, Prime   string
	Rahn           string // prime form as Rahn has it, where it differs
	Vector         string
	Transpositions int
	Messiaen       int
	Names          []string
}

func (a asked) together() together {
	c, naming := a.Exercise.Collection, a.Exercise.Naming
	t := together{
		Count: c.Cardinality(), Notes: naming.Names(c.Notes), Missing: naming.List(c.Missing), Remarks: a.Exercise.Remarks,
		Forte: c.Forte, Prime: pitch.Digits(c.PrimeForm), Transpositions: c.Transpositions, Messiaen: c.Messiaen, Names: c.KnownAs(naming),
		Vector: pitch.Digits(c.IntervalVector[:]),
	}
	if rahn := pitch.Digits(c.PrimeFormRahn); rahn != t.Prime {
		t.Rahn = rahn
	}
	return t
}

// noteRows writes the rows of the table that describes every note in words, for
// people who can't see the pictures. A template would take as long for it as for
// the rest of the page.
func (a asked) noteRows() template.HTML {
	ex := a.Exercise
	scales := make([]string, len(ex.Scales))
	for i, s := range ex.Scales {
		scales[i] = ex.Naming.Scale(s.Scale)
	}
	var rows strings.Builder
	group := -1
	for i, n := range ex.Notes {
		class, scale := "", "approach"
		if n.Group != group {
			class = ` class="first"`
		}
		group = n.Group
		if n.Scale >= 0 && n.Scale < len(scales) {
			scale = scales[n.Scale]
		}
		rows.WriteString("<tr" + class + `><th scope="row">` + strconv.Itoa(i+1) + "</th>")
		for _, cell := range [...]string{
			ex.Naming.Pitch(n.Pitch), scale, n.Degree.Symbol() + ", " + string(n.Function),
			strconv.Itoa(n.String), strconv.Itoa(n.Fret), strconv.Itoa(n.Finger), string(n.Stroke),
		} {
			rows.WriteString("<td>" + template.HTMLEscapeString(cell) + "</td>")
		}
		rows.WriteString("</tr>\n")
	}
	return template.HTML(rows.String())
}
