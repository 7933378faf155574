package practising

import (
	"html/template"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"time"

	"heddle/bench/site"
	"heddle/exercise"
	"heddle/neck"
	"heddle/pitch"
	"heddle/practice"
	"heddle/practice/store"
)

// A posed question is one that is on the page: all that is needed to make it
// again when the answer comes, in the fields of the form.
type posed struct {
	Spec   string // query of the exercise
	Kind   practice.QuestionKind
	Region string
	Seed   uint64
	Asked  int64 // when, in ms since 1970
	Right  int   // answers so far in this sitting
	Item   string
}

// mostAsked is how many exercises the questions are about at most.
const mostAsked = 8

// aRow is how many right answers fill the line.
const aRow = 20

// serveAsk asks a question.
func (ps *Pages) serveAsk(w http.ResponseWriter, r *http.Request, mine store.Store) error {
	values := r.URL.Query()
	right, _ := strconv.Atoi(values.Get("right"))
	item := values.Get("item")
	values.Del("right")
	values.Del("item")
	record, err := mine.Record(r.Context())
	if err != nil {
		return err
	}
	number, _ := strconv.ParseInt(item, 10, 64)
	exercises, err := record.Exercises(number, mostAsked)
	if err != nil {
		return err
	}
	if len(values) > 0 || len(exercises) == 0 {
		asked := site.Read(values) // the demo where the shelf is empty
		if err := asked.Err(); err != nil {
			return err
		}
		exercises = []*exercise.Exercise{asked.Exercise}
	}
	now := ps.now()
	seed := uint64(now.UnixNano())
	choice, ok := practice.Choose(exercises, record.Topics, now, seed)
	if !ok {
		return store.ErrNone
	}
	p := posed{exercises[choice.Exercise].Spec.Query(), choice.Kind, choice.Region, seed, now.UnixMilli(), max(0, right), item}
	return ps.showQuestion(w, r, p, nil, "")
}

// A cell is one fret of one string, to be pressed.
type cell struct {
	Value, Label, Mark string
}

// showQuestion writes the page with a question, and with the reply once there is
// one.
func (ps *Pages) showQuestion(w http.ResponseWriter, r *http.Request, at posed, reply *practice.Reply, given string) error {
	q, ex, err := at.question()
	if err != nil {
		return err
	}
	p := struct {
		page
		posed
		Question practice.Question
		Wants    string
		Reply    *practice.Reply
		Given    string
		Names    []answer // to press
		Frets    []int
		Neck     [][]cell
		Again    template.URL
		Of       int
		Kinds    string
	}{page: ps.page("Ask", "ask"), posed: at, Question: q, Wants: q.Want(), Reply: reply, Given: given, Names: answersTo(q, ex), Of: aRow}
	p.Frets, p.Neck = neckOf(q, ex)
	again := url.Values{"right": {strconv.Itoa(at.Right)}}
	if at.Item != "" {
		again.Set("item", at.Item)
	}
	p.Again = query(again.Encode())
	ps.site.Write(w, r, "ask.html", http.StatusOK, p)
	return nil
}

// question makes the question again.
func (at posed) question() (practice.Question, *exercise.Exercise, error) {
	spec, err := exercise.ParseQuery(at.Spec)
	if err != nil {
		return practice.Question{}, nil, err
	}
	ex, err := exercise.Build(spec)
	if err != nil {
		return practice.Question{}, nil, err
	}
	q, ok := practice.Pose(ex, at.Kind, at.Region, at.Seed)
	if !ok {
		err = &pitch.InputError{What: "question", Value: string(at.Kind), Want: "one that the exercise has"}
	}
	return q, ex, err
}

// neckOf is the neck under the hand with a button for each spot. For a question
// about one spot, that spot is marked.
func neckOf(q practice.Question, ex *exercise.Exercise) (frets []int, rows [][]cell) {
	low, high := ex.Instrument.LastFret(), 0
	for _, s := range ex.Scales {
		low, high = min(low, s.Placement.Window.Low), max(high, s.Placement.Window.High)
	}
	low, high = max(0, low-1), min(ex.Instrument.LastFret(), high+1)
	for f := low; f <= high; f++ {
		frets = append(frets, f)
	}
	asksSpot := q.Kind == practice.FindNote || q.Kind == practice.Nearest
	for s := 1; s <= ex.Instrument.Strings(); s++ {
		var row []cell
		for _, f := range frets {
			c := cell{Label: "string " + strconv.Itoa(s) + ", fret " + strconv.Itoa(f)}
			if asksSpot {
				c.Value = strconv.Itoa(s) + " " + strconv.Itoa(f)
			}
			if (q.At == neck.Spot{String: s, Fret: f}) && q.Kind != practice.FindNote && q.Kind != practice.NextNote && q.Kind != practice.LineOn {
				c.Mark = "●"
			}
			row = append(row, c)
		}
		rows = append(rows, row)
	}
	return frets, rows
}

// degreesOver are the degrees that a note may be to a chord.
var degreesOver = []string{"1", "b9", "9", "b3", "3", "11", "#11", "5", "b13", "13", "b7", "7"}

// An answer is one to press: what is sent, and what is read.
type answer struct{ Value, Text string }

// answersTo lists answers to press: the names of the scales and the other names
// of the same keys, degrees, or a scale's root with a degree.
func answersTo(q practice.Question, ex *exercise.Exercise) (list []answer) {
	switch q.Kind {
	case practice.ToChord:
		for _, d := range degreesOver {
			list = append(list, answer{d, pitch.Signs(d)})
		}
		return list
	case practice.WhichOf:
		for _, s := range ex.Scales {
			for _, d := range s.Type.Degrees {
				list = append(list, answer{ex.Naming.Plain(s.Root) + " " + d.String(), ex.Naming.Name(s.Root) + " " + d.Symbol()})
			}
		}
		return list
	case practice.NameSpot, practice.NextNote:
	default:
		return nil
	}
	var names []pitch.Name
	add := func(n pitch.Name) {
		if !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	for _, s := range ex.Scales {
		for _, n := range s.Notes {
			add(n)
			add(pitch.PlainName(n.Class(), n.Accidental >= 0))
		}
	}
	slices.SortFunc(names, func(a, b pitch.Name) int {
		if d := int(a.Letter) - int(b.Letter); d != 0 {
			return d
		}
		return a.Accidental - b.Accidental
	})
	for _, n := range names {
		list = append(list, answer{ex.Naming.Plain(n), ex.Naming.Name(n)})
	}
	return list
}

// serveAnswer judges an answer, keeps it and shows why.
func (ps *Pages) serveAnswer(w http.ResponseWriter, r *http.Request, mine store.Store) error {
	values, err := form(r)
	if err != nil {
		return err
	}
	at := posed{Spec: values.Get("spec"), Kind: practice.QuestionKind(values.Get("kind")), Region: values.Get("region"), Item: values.Get("item")}
	at.Seed, _ = strconv.ParseUint(values.Get("seed"), 10, 64)
	at.Asked, _ = strconv.ParseInt(values.Get("asked"), 10, 64)
	at.Right, _ = strconv.Atoi(values.Get("right"))
	q, _, err := at.question()
	if err != nil {
		return err
	}
	given := values.Get("typed")
	if pressed := values.Get("answer"); pressed != "" {
		given = pressed
	}
	reply, err := q.Check(given)
	if err != nil {
		return ps.showQuestion(w, r, at, &practice.Reply{Text: err.Error()}, "")
	}
	now := ps.now()
	seconds := now.Sub(time.UnixMilli(at.Asked)).Seconds()
	if ms, err := strconv.ParseFloat(values.Get("took"), 64); err == nil && ms > 0 && ms/1000 < seconds {
		seconds = ms / 1000 // as the page measured it
	}
	seconds = max(0, min(seconds, longestAnswer))
	if err := mine.Answer(r.Context(), store.Answer{Topic: practice.TopicOf(q), Spot: q.At, At: now, Right: reply.Right, Seconds: seconds, Within: q.Within}); err != nil {
		return err
	}
	if reply.Right {
		at.Right++
	}
	return ps.showQuestion(w, r, at, &reply, given)
}

// longestAnswer is the longest time to an answer that counts, in seconds:
// whoever takes longer has done something else.
const longestAnswer = 60
