package exercise

import (
	"maps"
	"net/url"
	"slices"
	"strings"

	"heddle/pitch"
)

// Text writes the fields that are set as `key: value` lines in canonical
// order; ParseText reads them back.
func (s Spec) Text() string {
	var b strings.Builder
	for _, f := range fields {
		for _, v := range f.Get(s) {
			b.WriteString(f.Name + ": " + v + "\n")
		}
	}
	return b.String()
}

// ParseText reads `key: value` lines. Blank lines are passed over; anything
// else that is not a field, and a field given twice, is an error.
func ParseText(text string) (Spec, error) {
	var r reader
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		if line == "" {
			continue
		}
		name, value, ok := strings.Cut(line, ":")
		if !ok {
			return Spec{}, &pitch.InputError{What: "line", Value: line, Want: "a field, a colon and its value, such as home: G minor pentatonic"}
		}
		if err := r.set(strings.TrimSpace(name), value); err != nil {
			return Spec{}, err
		}
	}
	return r.spec, nil
}

// Query writes the fields that are set as a URL query in canonical order,
// escaped; ParseQuery reads it back.
func (s Spec) Query() string {
	var parts []string
	for _, f := range fields {
		for _, v := range f.Get(s) {
			parts = append(parts, f.Name+"="+url.QueryEscape(v))
		}
	}
	return strings.Join(parts, "&")
}

// ParseQuery reads a URL query. Empty values count as unset, so that a form
// may send all its fields.
func ParseQuery(query string) (Spec, error) {
	values, err := url.ParseQuery(query)
	if err != nil {
		return Spec{}, &pitch.InputError{What: "query", Value: query, Want: "field=value pairs joined by &, escaped as in a URL"}
	}
	return FromValues(values)
}

// FromValues reads the values of a URL query or a submitted form.
func FromValues(values url.Values) (Spec, error) {
	var r reader
	for _, f := range fields {
		for _, v := range values[f.Name] {
			if strings.TrimSpace(v) == "" {
				continue
			}
			if err := r.set(f.Name, v); err != nil {
				return Spec{}, err
			}
		}
	}
	for _, name := range slices.Sorted(maps.Keys(values)) {
		if _, err := FieldNamed(name); err != nil {
			return Spec{}, err
		}
	}
	return r.spec, nil
}

// A reader gathers fields and refuses those given twice.
type reader struct {
	spec  Spec
	given map[string]int
}

func (r *reader) set(name, value string) error {
	f, err := FieldNamed(name)
	if err != nil {
		return err
	}
	if err := f.Given(strings.TrimSpace(value), r.given[name]); err != nil {
		return err
	}
	if r.given == nil {
		r.given = make(map[string]int)
	}
	r.given[name]++
	return f.Set(&r.spec, value)
}
