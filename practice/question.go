package practice

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"

	"heddle/exercise"
	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
)

// A Question is one question about the neck as an exercise uses it.
type Question struct {
	Kind   QuestionKind
	Ask    string
	Answer answer
	Why    string
	Spec   exercise.Spec
	Pair   string    // the scales, home first
	At     neck.Spot // the spot that it is about
	Within float64   // seconds within which a right answer counts as known

	naming pitch.Naming
}

// An answer is what is right. What a kind of question does not ask for is
// there all the same, to be shown.
type answer struct {
	Pitch  pitch.Pitch
	Spots  []neck.Spot // any of them
	Names  []pitch.Name
	Scale  string
	Degree string
}

// A QuestionKind says what is asked.
type QuestionKind string

// The kinds of questions.
const (
	NameSpot QuestionKind = "name"    // name this spot
	FindNote QuestionKind = "find"    // find this note on this string, under this hand
	WhichOf  QuestionKind = "scale"   // which scale holds this note, and as which degree
	ToChord  QuestionKind = "chord"   // what this note is to the chord
	NextNote QuestionKind = "next"    // the next group's first note
	GroupOf  QuestionKind = "group"   // the group's other notes
	Nearest  QuestionKind = "nearest" // the nearest place of the other scale on the string
	LineOn   QuestionKind = "line"    // the next four names of the line, in tempo
)

// questionKinds lists the kinds with what is trained.
func questionKinds() []exercise.Choice {
	return []exercise.Choice{
		{Value: string(NameSpot), Words: "name a spot"},
		{Value: string(FindNote), Words: "find a note"},
		{Value: string(WhichOf), Words: "which scale holds a note"},
		{Value: string(ToChord), Words: "what a note is to the chord"},
		{Value: string(NextNote), Words: "where the next group starts"},
		{Value: string(GroupOf), Words: "the other notes of a group"},
		{Value: string(Nearest), Words: "the nearest place of the other scale"},
		{Value: string(LineOn), Words: "the next four names of the line"},
	}
}

// knownWithin is the usual time in seconds for an answer that is known; each
// further name of an answer has as long again as a note of the line lasts.
const knownWithin = 2

// A quiz asks about one exercise.
type quiz struct {
	ex   *exercise.Exercise
	dice *rand.Rand
}

// spotOf is a spot of a placement with the scale that holds it.
type spotOf struct {
	neck.Place
	scale int
}

// spots lists the spots of all placements.
func (q *quiz) spots() (list []spotOf) {
	for i, s := range q.ex.Scales {
		for _, p := range s.Placement.Places {
			list = append(list, spotOf{p, i})
		}
	}
	return list
}

func pairOf(ex *exercise.Exercise) string {
	names := make([]string, len(ex.Scales))
	for i, s := range ex.Scales {
		names[i] = s.Name()
	}
	return strings.Join(names, ", ")
}

// question makes a question of a kind about a region of the neck, if the
// exercise has one.
func (q *quiz) question(kind QuestionKind, region string) (Question, bool) {
	made := Question{Kind: kind, Spec: q.ex.Spec, Pair: pairOf(q.ex), Within: knownWithin, naming: q.ex.Naming}
	var ok bool
	switch kind {
	case NextNote, GroupOf, LineOn:
		ok = q.ofLine(&made, region)
	default:
		ok = q.ofSpot(&made, region)
	}
	return made, ok
}

// ofSpot asks about one spot of a placement.
func (q *quiz) ofSpot(made *Question, region string) bool {
	spots := slices.DeleteFunc(q.spots(), func(s spotOf) bool { return regionOf(s.Fret) != region })
	q.dice.Shuffle(len(spots), func(i, j int) { spots[i], spots[j] = spots[j], spots[i] })
	for _, s := range spots {
		if q.fill(made, s) {
			return true
		}
	}
	return false
}

func (q *quiz) fill(made *Question, s spotOf) bool {
	scale := q.ex.Scales[s.scale]
	name, of := q.ex.Naming.Name(s.Pitch.Name), q.scaleName(s.scale)
	degree := degreeIn(scale.Scale, s.Pitch.Name)
	made.At = s.Spot
	made.Answer = answer{Pitch: s.Pitch, Spots: []neck.Spot{s.Spot}, Names: []pitch.Name{s.Pitch.Name}, Scale: scale.Name(), Degree: degree.String()}
	made.Why = fmt.Sprintf("String %d, fret %d is %s, the %s of %s.", s.String, s.Fret, name, degree.Symbol(), of)
	switch made.Kind {
	case NameSpot:
		made.Ask = fmt.Sprintf("What does %s call the note on string %d at fret %d?", of, s.String, s.Fret)
	case FindNote:
		made.Ask = fmt.Sprintf("Where is %s on string %d, under this hand?", name, s.String)
	case WhichOf:
		for i, other := range q.ex.Scales {
			if _, shared := other.Named(s.Pitch.Name.Class()); i != s.scale && shared {
				return false
			}
		}
		if len(q.ex.Scales) == 1 {
			return false
		}
		made.Ask = fmt.Sprintf("Which scale holds %s, and as which degree?", name)
	case ToChord:
		chord := q.ex.Chords[0]
		at := chord.Degree(s.Pitch.Name, scale.Scale)
		made.Answer.Degree = at.String()
		made.Ask = fmt.Sprintf("What is %s to %s?", name, chord.Display(q.ex.Naming))
		made.Why = fmt.Sprintf("%s is the %s of %s: %s.", name, at.Symbol(), chord.Display(q.ex.Naming), withArticle(string(chord.Function(s.Pitch.Name, q.ex.Scales[0].Scale))))
	case Nearest:
		return q.nearest(made, s)
	}
	return true
}

// withArticle says what a note is to a chord.
func withArticle(function string) string {
	switch pitch.Function(function) {
	case pitch.Outside:
		return "outside"
	case pitch.Avoid:
		return "an avoid note"
	}
	return "a " + function
}

// nearest asks for the place of another scale on the same string.
func (q *quiz) nearest(made *Question, s spotOf) bool {
	if len(q.ex.Scales) == 1 {
		return false
	}
	other := (s.scale + 1 + q.dice.IntN(len(q.ex.Scales)-1)) % len(q.ex.Scales)
	apart := func(fret int) int { return max(fret-s.Fret, s.Fret-fret) }
	best := -1
	made.Answer.Spots = nil
	for _, p := range q.ex.Scales[other].Placement.Places {
		if p.String != s.String {
			continue
		}
		switch {
		case best < 0 || apart(p.Fret) < apart(best):
			best = p.Fret
			made.Answer.Spots, made.Answer.Pitch, made.Answer.Names = []neck.Spot{p.Spot}, p.Pitch, []pitch.Name{p.Pitch.Name}
		case apart(p.Fret) == apart(best):
			made.Answer.Spots = append(made.Answer.Spots, p.Spot)
			made.Answer.Names = append(made.Answer.Names, p.Pitch.Name)
		}
	}
	if best < 0 {
		return false
	}
	scale := q.ex.Scales[other]
	made.Answer.Scale = scale.Name()
	made.Answer.Degree = degreeIn(scale.Scale, made.Answer.Pitch.Name).String()
	made.Ask = fmt.Sprintf("From string %d, fret %d: where on this string is the nearest note of %s?", s.String, s.Fret, q.scaleName(other))
	made.Why = fmt.Sprintf("%s lies at fret %d, %s.", q.ex.Naming.Name(made.Answer.Pitch.Name), best, fretsAway(apart(best)))
	return true
}

func fretsAway(n int) string {
	switch n {
	case 0:
		return "the same spot: both scales hold it"
	case 1:
		return "one fret away"
	}
	return strconv.Itoa(n) + " frets away"
}

func (q *quiz) scaleName(i int) string {
	return q.ex.Naming.Name(q.ex.Scales[i].Root) + " " + q.ex.Scales[i].Type.Name
}

// degreeIn returns the degree that a scale's own note is.
func degreeIn(s pitch.Scale, name pitch.Name) pitch.Degree {
	for i, n := range s.Notes {
		if n.Class() == name.Class() && i < len(s.Type.Degrees) {
			return s.Type.Degrees[i]
		}
	}
	return pitch.Degree{Number: 1}
}

// ofLine asks about what comes next in the line.
func (q *quiz) ofLine(made *Question, region string) bool {
	notes := q.ex.Notes[:q.ex.Pattern]
	if made.Kind != LineOn && q.ex.Spec.Form == "phrase" {
		return false // its groups do not follow one another by a rule
	}
	var at []int
	for i, n := range notes {
		starts := i > 0 && notes[i-1].Group != n.Group
		whole := made.Kind == LineOn && i > 0 && i+4 <= len(notes) || made.Kind != LineOn && starts
		if whole && n.Scale != line.Chromatic && regionOf(n.Fret) == region {
			at = append(at, i)
		}
	}
	if len(at) == 0 {
		return false
	}
	i := at[q.dice.IntN(len(at))]
	n := notes[i]
	made.At = n.Spot
	made.Answer = answer{Pitch: n.Pitch, Spots: []neck.Spot{n.Spot}, Scale: q.ex.Scales[n.Scale].Name(), Degree: degreeIn(q.ex.Scales[n.Scale].Scale, n.Pitch.Name).String()}
	switch made.Kind {
	case NextNote:
		q.askNext(made, notes, i)
	case GroupOf:
		return q.askGroup(made, notes, i)
	case LineOn:
		made.Answer.Names = namesOf(notes[i : i+4])
		made.Ask = fmt.Sprintf("Say the next four names of the line after %s on string %d, at %s.", q.ex.Naming.Name(notes[i-1].Pitch.Name), notes[i-1].String, strconv.FormatFloat(q.ex.Tempo, 'f', -1, 64))
		made.Why = "The line goes on " + q.named(made.Answer.Names) + "."
		made.Within += 3 * noteMS(q.ex, q.ex.Tempo) / 1000
	}
	return true
}

func (q *quiz) askNext(made *Question, notes []exercise.Note, i int) {
	start := i - 1
	for start > 0 && notes[start-1].Group == notes[i-1].Group {
		start--
	}
	made.Answer.Names = []pitch.Name{notes[i].Pitch.Name}
	made.Ask = fmt.Sprintf("After %s, and each group starting beside the %s note of the one before: which note of %s comes next?",
		q.named(namesOf(notes[start:i])), q.ex.Spec.Follow, q.scaleName(notes[i].Scale))
	made.Why = fmt.Sprintf("%s is the nearest note of %s in the line's direction.", q.ex.Naming.Name(notes[i].Pitch.Name), q.scaleName(notes[i].Scale))
}

func (q *quiz) askGroup(made *Question, notes []exercise.Note, i int) bool {
	end := i + 1
	for end < len(notes) && notes[end].Group == notes[i].Group {
		end++
	}
	if end == i+1 {
		return false
	}
	made.Answer.Names = namesOf(notes[i+1 : end])
	made.Ask = fmt.Sprintf("A group of %s starts on %s. Which notes follow?", q.scaleName(notes[i].Scale), q.ex.Naming.Name(notes[i].Pitch.Name))
	made.Why = "The group is " + q.named(namesOf(notes[i:end])) + "."
	made.Within += float64(end-i-2) * noteMS(q.ex, q.ex.Tempo) / 1000
	return true
}

func namesOf(notes []exercise.Note) []pitch.Name {
	names := make([]pitch.Name, len(notes))
	for i, n := range notes {
		names[i] = n.Pitch.Name
	}
	return names
}

func (q *quiz) named(names []pitch.Name) string {
	words := make([]string, len(names))
	for i, n := range names {
		words[i] = q.ex.Naming.Name(n)
	}
	return strings.Join(words, " ")
}

// MarshalJSON writes a question as `heddle ask --json` prints it.
func (q Question) MarshalJSON() ([]byte, error) {
	type spot struct {
		String int `json:"string"`
		Fret   int `json:"fret"`
	}
	type answer struct {
		Name   pitch.Name   `json:"name"`
		Octave int          `json:"octave"`
		MIDI   int          `json:"midi"`
		Spots  []spot       `json:"spots"`
		Names  []pitch.Name `json:"names"`
		Scale  string       `json:"scale"`
		Degree string       `json:"degree"`
	}
	a := answer{q.Answer.Pitch.Name, q.Answer.Pitch.Octave, q.Answer.Pitch.MIDI(), []spot{}, q.Answer.Names, q.Answer.Scale, q.Answer.Degree}
	for _, s := range q.Answer.Spots {
		a.Spots = append(a.Spots, spot(s))
	}
	return json.Marshal(struct {
		Kind   QuestionKind  `json:"kind"`
		Ask    string        `json:"ask"`
		Spec   exercise.Spec `json:"spec"`
		Answer answer        `json:"answer"`
		Why    string        `json:"why"`
		Within float64       `json:"within_s"`
	}{q.Kind, q.Ask, q.Spec, a, q.Why, q.Within})
}
