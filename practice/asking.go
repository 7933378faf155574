package practice

import (
	"math/rand/v2"
	"slices"
	"time"

	"heddle/exercise"
	"heddle/neck"
)

// A Topic is what questions are scheduled by: a kind, the scales and a region
// of the neck.
type Topic struct {
	Kind   QuestionKind
	Pair   string
	Region string
	Memory
	Asked   int
	Right   int
	Known   int     // right within the time
	Seconds float64 // that all right answers took
}

// TopicOf returns the topic of a question.
func TopicOf(q Question) Topic { return Topic{Kind: q.Kind, Pair: q.Pair, Region: regionOf(q.At.Fret)} }

// Same reports whether two topics are one.
func (t Topic) Same(o Topic) bool {
	return t.Kind == o.Kind && t.Pair == o.Pair && t.Region == o.Region
}

// After returns the topic after an answer. A right answer within half the time
// is easy, one that takes too long is shaky.
func (t Topic) After(at time.Time, right bool, seconds, within float64) Topic {
	went := FellApart
	switch {
	case right && seconds <= within/2:
		went = Relaxed
	case right && seconds <= within:
		went = Clean
	case right:
		went = Shaky
	}
	t.Memory = t.Memory.After(at, went)
	t.Asked++
	if right {
		t.Right++
		t.Seconds += seconds
	}
	if went >= Clean {
		t.Known++
	}
	return t
}

// Ask makes questions about exercises. What is due, was answered wrongly or was
// never asked comes more often. The same input gives the same questions.
func Ask(exercises []*exercise.Exercise, topics []Topic, count int, now time.Time, seed uint64) []Question {
	dice := rand.New(rand.NewPCG(seed, 0x61736b))
	var open []openTopic
	for _, ex := range exercises {
		open = append(open, topicsIn(ex, topics, now)...)
	}
	var questions []Question
	for len(questions) < count && len(open) > 0 {
		i := drawn(open, dice)
		q := &quiz{open[i].exercise, dice}
		question, ok := q.question(open[i].Kind, open[i].Region)
		repeated := slices.ContainsFunc(questions[max(0, len(questions)-3):], func(b Question) bool { return b.Ask == question.Ask })
		if ok && !repeated {
			questions = append(questions, question)
		}
		open[i].misses++
		if ok && !repeated {
			open[i].misses = 0
			open[i].weight /= 2 // other topics first
		}
		if open[i].misses > mostMisses {
			open = slices.Delete(open, i, i+1)
		}
	}
	return questions
}

// mostMisses is how often a topic may fail to give a question that was not
// just asked.
const mostMisses = 8

// An openTopic may be asked about.
type openTopic struct {
	Topic
	exercise *exercise.Exercise
	weight   float64
	misses   int
}

// topicsIn lists what can be asked about an exercise, with weights.
func topicsIn(ex *exercise.Exercise, known []Topic, now time.Time) (list []openTopic) {
	var regions []string
	for _, s := range (&quiz{ex: ex}).spots() {
		if r := regionOf(s.Fret); !slices.Contains(regions, r) {
			regions = append(regions, r)
		}
	}
	for _, kind := range questionKinds() {
		for _, region := range regions {
			t := Topic{Kind: QuestionKind(kind.Value), Pair: pairOf(ex), Region: region}
			if i := slices.IndexFunc(known, t.Same); i >= 0 {
				t = known[i]
			}
			list = append(list, openTopic{Topic: t, exercise: ex, weight: weightOf(t, now)})
		}
	}
	return list
}

// weightOf says how much more often one topic is asked than another: by how
// likely it is to be forgotten and by how often it was answered wrongly. Our
// choice.
func weightOf(t Topic, now time.Time) float64 {
	if t.Asked == 0 {
		return 0.5
	}
	wrong := float64(t.Asked-t.Known) / float64(t.Asked)
	return 0.1 + (1 - t.Recall(now)) + wrong
}

// drawn draws a topic by weight.
func drawn(open []openTopic, dice *rand.Rand) int {
	sum := 0.0
	for _, t := range open {
		sum += t.weight
	}
	at := dice.Float64() * sum
	for i, t := range open {
		if at -= t.weight; at < 0 {
			return i
		}
	}
	return len(open) - 1
}

// A SpotTotal sums up the answers about one spot of the neck.
type SpotTotal struct {
	Kind    QuestionKind
	Spot    neck.Spot
	Asked   int
	Right   int
	Seconds float64 // that all right answers took
}

// A Choice of what to ask next: an exercise of a list, a kind and a region.
type Choice struct {
	Exercise int
	Kind     QuestionKind
	Region   string
}

// Choose draws what to ask next, as Ask does for a single question.
func Choose(exercises []*exercise.Exercise, topics []Topic, now time.Time, seed uint64) (Choice, bool) {
	for _, q := range Ask(exercises, topics, 1, now, seed) {
		for i, ex := range exercises {
			if pairOf(ex) == q.Pair && ex.Spec.Query() == q.Spec.Query() {
				return Choice{i, q.Kind, regionOf(q.At.Fret)}, true
			}
		}
	}
	return Choice{}, false
}

// Pose makes the question of a kind about a region that a seed gives: the same
// each time.
func Pose(ex *exercise.Exercise, kind QuestionKind, region string, seed uint64) (Question, bool) {
	return (&quiz{ex, rand.New(rand.NewPCG(seed, 0x706f7365))}).question(kind, region)
}
