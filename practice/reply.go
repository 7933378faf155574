package practice

import (
	"fmt"
	"slices"
	"strings"

	"heddle/neck"
	"heddle/pitch"
)

// A Reply says whether an answer was right, and why.
type Reply struct {
	Right bool   `json:"right"`
	Text  string `json:"text"`
}

// Check judges a typed answer: names, a spot as string and fret ("2 10"), or a
// scale and a degree, as the kind of question asks for.
func (q Question) Check(typed string) (Reply, error) {
	words := strings.FieldsFunc(typed, func(r rune) bool { return r == ' ' || r == ',' || r == '.' || r == '/' })
	if len(words) == 0 {
		return Reply{}, &pitch.InputError{What: "answer", Value: typed, Want: q.Want()}
	}
	switch q.Kind {
	case FindNote, Nearest:
		spot, err := parseSpot(words)
		if err != nil {
			return Reply{}, &pitch.InputError{What: "answer", Value: typed, Want: q.Want()}
		}
		return q.checkSpot(spot), nil
	case ToChord:
		d, err := pitch.ParseDegree(plainSigns(words[0]))
		if err != nil {
			return Reply{}, &pitch.InputError{What: "answer", Value: typed, Want: q.Want()}
		}
		return q.reply(sameDegree(d, q.Answer.Degree)), nil
	case WhichOf:
		return q.checkScale(typed, words)
	}
	return q.checkNames(typed, words)
}

// Want says what an answer to the question looks like.
func (q Question) Want() string {
	switch q.Kind {
	case FindNote, Nearest:
		return "a string and a fret, such as 2 10"
	case ToChord:
		return "a degree, such as b7 or 9"
	case WhichOf:
		return "a scale's root and a degree, such as Ab b3"
	case GroupOf, LineOn:
		if len(q.Answer.Names) > 1 {
			return fmt.Sprintf("%d note names, such as Db Cb", len(q.Answer.Names))
		}
	}
	return "a note name, such as Cb"
}

// rightText says the right answer.
func (q Question) rightText() string {
	switch q.Kind {
	case FindNote, Nearest:
		spots := make([]string, len(q.Answer.Spots))
		for i, s := range q.Answer.Spots {
			spots[i] = fmt.Sprintf("string %d, fret %d", s.String, s.Fret)
		}
		return strings.Join(spots, " or ")
	case ToChord:
		return signs(q.Answer.Degree)
	case WhichOf:
		return q.Answer.Scale + ", the " + signs(q.Answer.Degree)
	}
	names := make([]string, len(q.Answer.Names))
	for i, n := range q.Answer.Names {
		names[i] = q.naming.Name(n)
	}
	return strings.Join(names, " ")
}

// checkSpot judges a spot that was clicked.
func (q Question) checkSpot(at neck.Spot) Reply { return q.reply(slices.Contains(q.Answer.Spots, at)) }

func (q Question) reply(right bool) Reply {
	if right {
		return Reply{Right: true, Text: "Right. " + q.Why}
	}
	return Reply{Text: "No: " + q.rightText() + ". " + q.Why}
}

// checkNames tells enharmonic names apart: the sound may be right and the name
// another one's.
func (q Question) checkNames(typed string, words []string) (Reply, error) {
	names := make([]pitch.Name, len(words))
	for i, w := range words {
		n, err := q.naming.Parse(w)
		if err != nil {
			return Reply{}, &pitch.InputError{What: "answer", Value: typed, Want: q.Want()}
		}
		names[i] = n
	}
	if slices.Equal(names, q.Answer.Names) {
		return q.reply(true), nil
	}
	sameSound := slices.EqualFunc(names, q.Answer.Names, func(a, b pitch.Name) bool { return a.Class() == b.Class() })
	if !sameSound {
		return q.reply(false), nil
	}
	for i, n := range names {
		if want := q.Answer.Names[i]; n != want {
			scale, err := pitch.ParseScale(q.Answer.Scale)
			if err != nil {
				return q.reply(false), nil
			}
			degree := degreeIn(scale, want)
			return Reply{Text: fmt.Sprintf("%s sounds the same, but here it is %s: the %s of %s is spelled with the letter %s.",
				q.naming.Name(n), q.naming.Name(want), degree.Symbol(), q.Answer.Scale, want.Letter)}, nil
		}
	}
	return q.reply(true), nil
}

// checkScale reads the root of a scale and a degree.
func (q Question) checkScale(typed string, words []string) (Reply, error) {
	root, err := q.naming.Parse(words[0])
	degree, degreeErr := pitch.ParseDegree(plainSigns(words[len(words)-1]))
	if err != nil || degreeErr != nil || len(words) < 2 {
		return Reply{}, &pitch.InputError{What: "answer", Value: typed, Want: q.Want()}
	}
	scale, err := pitch.ParseScale(q.Answer.Scale)
	return q.reply(err == nil && root == scale.Root && sameDegree(degree, q.Answer.Degree)), nil
}

// sameDegree compares degrees within the octave: 9 and 2 are one note.
func sameDegree(d pitch.Degree, want string) bool {
	w, err := pitch.ParseDegree(want)
	return err == nil && d.Class() == w.Class()
}

func parseSpot(words []string) (s neck.Spot, err error) {
	text := strings.Join(words, " ")
	text = strings.NewReplacer("string", "", "fret", "").Replace(text)
	_, err = fmt.Sscan(text, &s.String, &s.Fret)
	return s, err
}

// plainSigns turns music signs into letters.
func plainSigns(s string) string { return strings.NewReplacer("♭", "b", "♯", "#").Replace(s) }

// signs turns letters into music signs, for a degree.
func signs(s string) string { return strings.NewReplacer("b", "♭", "#", "♯").Replace(s) }
