package bench

import (
	"cmp"
	"errors"
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

// An asked is a request for an exercise: the words as typed, the spec they make,
// and what is wrong with them.
type asked struct {
	typed url.Values    // the spec's fields, none of them empty
	spec  exercise.Spec // as asked, defaults not filled in
	view  deliver.Choices

	// exercise is built from the spec. Where a word is wrong, it is built without
	// it, only for the shape of the sentence.
	exercise *exercise.Exercise
	built    map[string][]string // the values of its fields
	errs     []wordError
}

// A wordError is what is wrong with one word of the sentence.
type wordError struct {
	field string // empty where it belongs to no field
	index int    // which value of a field that has several
	err   *pitch.InputError
}

// saidKey is where a form says which note names it has, in place of the spec's
// English ones.
const saidKey = "said"

// said is the value of saidKey for a naming: nothing for English.
func said(g pitch.Naming) string {
	if g == pitch.English {
		return ""
	}
	return g.String()
}

// demo is the exercise that the page opens on.
const demo = "chord=Gm7&home=G+minor+pentatonic&superimpose=semitone+up&groups=3%2C3&fret=10&tempo=84&land=third"

// mostQuery bounds an address's query in bytes. The longest honest one holds
// 64 bars of changes with scales for each.
const mostQuery = 8 << 10

// readAsked reads a request's query. It fails if the query is not one; words
// that can't be read are in asked.errs.
func readAsked(r *http.Request) (*asked, error) {
	if len(r.URL.RawQuery) > mostQuery {
		return nil, &pitch.InputError{What: "address", Value: strconv.Itoa(len(r.URL.RawQuery)) + " bytes", Want: "a query of at most 8 KiB"}
	}
	query, err := url.ParseQuery(r.URL.RawQuery)
	if err != nil {
		return nil, &pitch.InputError{What: "address", Value: r.URL.RawQuery, Want: "field=value pairs joined by &, escaped as in a URL"}
	}
	a := &asked{}
	if a.view, err = deliver.Choose(query); err != nil {
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
	a.typed = tidied(query)
	for _, f := range exercise.Fields() {
		for i, value := range a.typed[f.Name] {
			a.typed[f.Name][i] = f.Rename(value, said, pitch.English)
		}
	}
	if len(a.typed) == 0 {
		a.typed, _ = url.ParseQuery(demo)
	}
	a.build()
	a.built = a.canonical()
	return a, nil
}

// readRight reads a query as readAsked does, and takes a wrong word for an error.
func readRight(r *http.Request) (*asked, error) {
	a, err := readAsked(r)
	if err == nil && len(a.errs) > 0 {
		err = a.errs[0].err
	}
	return a, err
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
		typed.Set("groups", strings.Join(sizes[:scales], ","))
	}
	return typed
}

// mostFaults bounds how many wrong words are reported at once.
const mostFaults = 8

// build builds the exercise. It finds every wrong word on the way: it notes the
// word, leaves it out, and tries again with the rest.
func (a *asked) build() {
	tried := make(url.Values, len(a.typed))
	for key, values := range a.typed {
		tried[key] = slices.Clone(values)
	}
	for range mostFaults {
		spec, err := exercise.FromValues(tried)
		if err == nil {
			a.exercise, err = exercise.Build(spec)
		}
		if err == nil {
			a.spec = spec
			return
		}
		fault := a.fault(err)
		if !replaced(tried, fault) {
			break
		}
	}
	if a.exercise == nil {
		a.spec, _ = exercise.ParseQuery(demo)
		a.exercise, _ = exercise.Build(a.spec)
	}
}

// fault notes an error with the word it belongs to.
func (a *asked) fault(err error) wordError {
	w := wordError{err: &pitch.InputError{What: "exercise", Want: err.Error()}}
	var input *pitch.InputError
	if errors.As(err, &input) {
		w.err, w.field = input, input.What
	}
	if values := a.typed[w.field]; len(values) > 1 {
		w.index = max(0, slices.Index(values, w.err.Value))
	}
	a.errs = append(a.errs, w)
	return w
}

// replaced leaves a wrong word out of the query, or replaces it with a plain one
// where the sentence needs one. It reports whether that can help.
func replaced(query url.Values, w wordError) bool {
	values, ok := query[w.field]
	demoHome := "G minor pentatonic"
	switch {
	case w.field == "home":
		if ok && values[0] == demoHome {
			return false
		}
		query.Set("home", demoHome)
	case !ok:
		return false
	case w.field == "superimpose" && values[min(w.index, len(values)-1)] != "semitone up":
		values[min(w.index, len(values)-1)] = "semitone up"
	default:
		query.Del(w.field)
	}
	return true
}

// query returns the address's query for the spec as asked with the view.
func (a *asked) query() string { return a.spec.Query() + a.view.Query() }

// groupSizes returns the sizes as asked, one for each scale.
func (a *asked) groupSizes() []string {
	sizes := make([]string, 0, len(a.exercise.Spec.Groups))
	for _, n := range a.exercise.Spec.Groups {
		sizes = append(sizes, strconv.Itoa(n))
	}
	if typed := a.typed.Get("groups"); typed != "" {
		if parsed, err := line.ParseGroups(typed); err == nil && len(parsed) == len(sizes) {
			for i, n := range parsed {
				sizes[i] = strconv.Itoa(n)
			}
		}
	}
	return sizes
}
