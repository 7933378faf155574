package site

import (
	"cmp"
	"errors"
	"maps"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"heddle/deliver"
	"heddle/exercise"
	"heddle/line"
	"heddle/pitch"
)

// An Asked is a request for an exercise: the words as typed, the spec they make,
// and what is wrong with them.
type Asked struct {
	Typed url.Values    // the spec's fields, none of them empty
	Spec  exercise.Spec // as asked, defaults not filled in
	View  deliver.Choices

	// Exercise is built from the spec. Where a word is wrong, it is built without
	// it, only for the shape of the sentence.
	Exercise *exercise.Exercise
	Errors   []WordError
}

// A WordError is what is wrong with one word of the sentence.
type WordError struct {
	Field string // empty where it belongs to no field
	Index int    // which value of a field that has several
	Err   *pitch.InputError
}

// saidKey is the key that names the naming of the form's notes, where it is not
// the spec's English one.
const saidKey = "said"

// demo is the exercise that the page opens on.
const demo = "chord=Gm7&home=G+minor+pentatonic&superimpose=semitone+up&groups=3%2C3&fret=10&tempo=84&land=third"

// mostQuery bounds an address's query in bytes. The longest honest one holds
// 64 bars of changes with scales for each.
const mostQuery = 8 << 10

// Query reads the query of a request's address.
func Query(r *http.Request) (url.Values, error) {
	if len(r.URL.RawQuery) > mostQuery {
		return nil, &pitch.InputError{What: "address", Value: strconv.Itoa(len(r.URL.RawQuery)) + " bytes", Want: "a query of at most 8 KiB"}
	}
	query, err := url.ParseQuery(r.URL.RawQuery)
	if err != nil {
		return nil, &pitch.InputError{What: "address", Value: r.URL.RawQuery, Want: "field=value pairs joined by &, escaped as in a URL"}
	}
	return query, nil
}

// Read reads which exercise a query asks for: the demo where it says nothing.
// Words that can't be read are in Errors.
func Read(query url.Values) *Asked {
	query = maps.Clone(query)
	a := &Asked{}
	var err error
	if a.View, err = deliver.Choose(query); err != nil {
		a.fault(err)
	}
	for _, key := range deliver.Keys() {
		delete(query, key.Name)
	}
	said, err := pitch.ParseNaming(cmp.Or(query.Get(saidKey), pitch.English.String()))
	if err != nil {
		a.fault(err)
	}
	delete(query, saidKey)
	a.Typed = tidied(query)
	for _, f := range exercise.Fields() {
		for i, value := range a.Typed[f.Name] {
			a.Typed[f.Name][i] = f.Rename(value, said, pitch.English)
		}
	}
	if len(a.Typed) == 0 {
		a.Typed, _ = url.ParseQuery(demo)
	}
	a.build()
	return a
}

// Valid reads a request as Query and Read do, and returns the first wrong word
// as an error.
func Valid(r *http.Request) (*Asked, error) {
	query, err := Query(r)
	if err != nil {
		return nil, err
	}
	a := Read(query)
	return a, a.Err()
}

// Err returns the first wrong word, if there is one.
func (a *Asked) Err() error {
	if len(a.Errors) == 0 {
		return nil
	}
	return a.Errors[0].Err
}

// tidied drops empty values, joins what the form sends in several controls, and
// leaves out a chord that changes override.
func tidied(query url.Values) url.Values {
	typed := make(url.Values, len(query))
	for key, values := range query {
		for _, v := range values {
			if v = strings.TrimSpace(v); v != "" {
				typed[key] = append(typed[key], v)
			}
		}
	}
	if typed.Has("changes") {
		typed.Del("chord")
	}
	if sizes := typed["groups"]; len(sizes) > 1 {
		// A control for each scale: one that lost its scale goes, one that a new
		// scale lacks is like the last.
		scales := 1 + len(typed["superimpose"])
		for len(sizes) < scales {
			sizes = append(sizes, sizes[len(sizes)-1])
		}
		joined := strings.Join(sizes[:scales], ",")
		if run := line.FormatGroups([]int{line.Run}); slices.Contains(sizes, run) {
			joined = run // is for all of them
		}
		typed.Set("groups", joined)
	}
	return typed
}

// mostFaults bounds how many wrong words are reported at once.
const mostFaults = 8

// build builds the exercise. It finds every wrong word on the way: it notes the
// word, leaves it out, and tries again with the rest.
func (a *Asked) build() {
	tried := make(url.Values, len(a.Typed))
	for key, values := range a.Typed {
		tried[key] = slices.Clone(values)
	}
	for range mostFaults {
		spec, err := exercise.FromValues(tried)
		if err == nil {
			a.Exercise, err = exercise.Build(spec)
		}
		if err == nil {
			a.Spec = spec
			return
		}
		fault := a.fault(err)
		if !replaced(tried, fault) {
			break
		}
	}
	if a.Exercise == nil {
		a.Spec, _ = exercise.ParseQuery(demo)
		a.Exercise, _ = exercise.Build(a.Spec)
	}
}

// fault notes an error with the word it belongs to.
func (a *Asked) fault(err error) WordError {
	w := WordError{Err: &pitch.InputError{What: "exercise", Want: err.Error()}}
	var input *pitch.InputError
	if errors.As(err, &input) {
		w.Err, w.Field = input, input.What
	}
	if values := a.Typed[w.Field]; len(values) > 1 {
		w.Index = max(0, slices.Index(values, w.Err.Value))
	}
	a.Errors = append(a.Errors, w)
	return w
}

// replaced leaves a wrong word out of the query, or replaces it with a plain one
// where the sentence needs one. It reports whether that can help.
func replaced(query url.Values, w WordError) bool {
	values, ok := query[w.Field]
	demoHome := "G minor pentatonic"
	switch {
	case w.Field == "home":
		if ok && values[0] == demoHome {
			return false
		}
		query.Set("home", demoHome)
	case !ok:
		return false
	case w.Field == "superimpose" && values[min(w.Index, len(values)-1)] != "semitone up":
		values[min(w.Index, len(values)-1)] = "semitone up"
	default:
		query.Del(w.Field)
	}
	return true
}

// Query returns the address's query for the spec as asked with the view.
func (a *Asked) Query() string { return a.Spec.Query() + a.View.Query() }

// Said returns the naming of the form's notes, where it is not the spec's.
func (a *Asked) Said() string {
	if a.Exercise.Naming == pitch.English {
		return ""
	}
	return a.Exercise.Naming.String()
}

// TypedQuery returns the query for the words as typed, wrong ones too.
func (a *Asked) TypedQuery() string { return encoded(a.Typed) + a.View.Query() }

// Link returns the address of the exercise as asked with one field changed.
func (a *Asked) Link(field string, value ...string) string {
	values := maps.Clone(a.Typed)
	values[field] = value
	if field == "fret" {
		delete(values, "start") // a first note belongs to the place it was chosen in
	}
	return "/?" + encoded(values) + a.View.Query()
}

// encoded writes a query in the order of the spec's fields.
func encoded(values url.Values) string {
	var s exercise.Spec
	var loose []string
	for _, f := range exercise.Fields() {
		for _, v := range values[f.Name] {
			if f.Set(&s, v) != nil {
				loose = append(loose, f.Name+"="+url.QueryEscape(v))
			}
		}
	}
	return strings.Join(append([]string{s.Query()}, loose...), "&")
}
