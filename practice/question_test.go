package practice

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"heddle/exercise"
	"heddle/neck"
	"heddle/pitch"
)

func demo(t testing.TB) *exercise.Exercise {
	t.Helper()
	ex, err := exercise.Build(exercise.Spec{Home: "G minor pentatonic", Superimpose: []string{"semitone up"}, Groups: []int{3, 3}, Fret: 10})
	if err != nil {
		t.Fatal(err)
	}
	return ex
}

// Every right answer is right when it is typed, clicked or played, for any
// exercise, and every question belongs to a topic that was open.
func TestTheAnswerOfAQuestionIsRight(t *testing.T) {
	seen := map[QuestionKind]int{}
	rapid.Check(t, func(t *rapid.T) {
		spec := exercise.Spec{
			Home:   rapid.SampledFrom([]string{"G minor pentatonic", "A blues", "C major", "F# dorian"}).Draw(t, "home"),
			Groups: []int{rapid.IntRange(1, 4).Draw(t, "group")}, Fret: rapid.IntRange(1, 12).Draw(t, "fret"),
			Names: rapid.SampledFrom([]string{"english", "german", "solfege"}).Draw(t, "names"),
		}
		if rapid.Bool().Draw(t, "two") {
			spec.Superimpose = []string{rapid.SampledFrom([]string{"semitone up", "tritone", "minor third up"}).Draw(t, "superimpose")}
		}
		ex, err := exercise.Build(spec)
		if err != nil {
			t.Skip(err)
		}
		questions := Ask([]*exercise.Exercise{ex}, nil, 12, thursday, rapid.Uint64().Draw(t, "seed"))
		if len(questions) == 0 {
			t.Fatal("nothing to ask")
		}
		for _, q := range questions {
			seen[q.Kind]++
			typed := q.rightText()
			switch q.Kind {
			case WhichOf:
				root, _, _ := strings.Cut(q.Answer.Scale, " ")
				n, _ := pitch.ParseName(root)
				typed = ex.Naming.Plain(n) + " " + q.Answer.Degree
			case FindNote, Nearest:
				typed = fmt.Sprintf("%d.%d", q.Answer.Spots[0].String, q.Answer.Spots[0].Fret)
			}
			if got, err := q.Check(typed); err != nil || !got.Right {
				t.Fatalf("%s %q: %+v, %v", q.Ask, typed, got, err)
			}
			if in := ex.Instrument; len(q.Answer.Spots) == 0 || in.MIDI(q.Answer.Spots[0]) != q.Answer.Pitch.MIDI() {
				t.Fatalf("%s: %v at %v", q.Ask, q.Answer.Pitch, q.Answer.Spots)
			}
			if q.Why == "" || q.Within < 2 || q.Ask == "" {
				t.Fatalf("%+v", q)
			}
		}
	})
	for _, k := range questionKinds() {
		if seen[QuestionKind(k.Value)] == 0 {
			t.Errorf("no question of kind %q", k.Value)
		}
	}
}

// B for C♭ is answered with both names and why this scale says C♭.
func TestEnharmonicNamesAreToldApart(t *testing.T) {
	q := Question{Kind: NameSpot, Answer: answer{Names: []pitch.Name{{Letter: pitch.C, Accidental: -1}}, Scale: "Ab minor pentatonic"}}
	got, err := q.Check("B")
	if err != nil || got.Right || got.Text != "B sounds the same, but here it is C♭: the ♭3 of Ab minor pentatonic is spelled with the letter C." {
		t.Errorf("%+v, %v", got, err)
	}
	for typed, right := range map[string]bool{"Cb": true, "C♭": true, "C": false} {
		if got, err := q.Check(typed); err != nil || got.Right != right {
			t.Errorf("%s: %+v, %v", typed, got, err)
		}
	}
	var input *pitch.InputError
	if _, err := q.Check("H7?"); !errors.As(err, &input) {
		t.Errorf("%v", err)
	}
}

func TestTheStringCountsWhenASpotIsClicked(t *testing.T) {
	q := Question{Kind: FindNote, Answer: answer{Spots: []neck.Spot{{String: 2, Fret: 8}}}}
	if !q.checkSpot(neck.Spot{String: 2, Fret: 8}).Right || q.checkSpot(neck.Spot{String: 1, Fret: 3}).Right {
		t.Error("another string was taken for right")
	}
}

// What was answered wrongly is asked more often than what is known.
func TestWeakTopicsAreAskedMore(t *testing.T) {
	ex := demo(t)
	var topics []Topic
	for _, o := range topicsIn(ex, nil, thursday) {
		topic := o.Topic
		for range 5 {
			topic = topic.After(thursday.Add(-time.Hour), topic.Kind != NameSpot, 1, 2)
		}
		topics = append(topics, topic)
	}
	count := map[QuestionKind]int{}
	for seed := range uint64(200) {
		for _, q := range Ask([]*exercise.Exercise{ex}, topics, 2, thursday, seed) {
			count[q.Kind]++
		}
	}
	for _, k := range questionKinds() {
		if kind := QuestionKind(k.Value); kind != NameSpot && count[NameSpot] < 2*count[kind] {
			t.Errorf("asked %d times for names and %d times for %s", count[NameSpot], count[kind], kind)
		}
	}
}

func TestQuestionsAreTheSameAgain(t *testing.T) {
	ex := demo(t)
	one, _ := json.Marshal(Ask([]*exercise.Exercise{ex}, nil, 20, thursday, 5))
	two, _ := json.Marshal(Ask([]*exercise.Exercise{ex}, nil, 20, thursday, 5))
	other, _ := json.Marshal(Ask([]*exercise.Exercise{ex}, nil, 20, thursday, 6))
	if !slices.Equal(one, two) || slices.Equal(one, other) {
		t.Error("the seed does not decide")
	}
}
