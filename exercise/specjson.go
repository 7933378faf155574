package exercise

import (
	"bytes"
	"encoding/json"
	"maps"
	"slices"
	"strings"

	"heddle/pitch"
)

// maxSpecJSON bounds a spec's JSON in bytes.
const maxSpecJSON = 64 << 10

// MarshalJSON writes the fields in canonical order: numbers as numbers,
// superimpose and groups as arrays, all else as strings. An unset field is
// written as its zero where that means unset, and left out where it does not;
// a canonical spec has every field.
func (s Spec) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for _, f := range fields {
		if len(f.Get(s)) == 0 && f.High > 0 && f.Low > 0 {
			continue
		}
		if b.Len() > 1 {
			b.WriteByte(',')
		}
		value, err := f.json(s)
		if err != nil {
			return nil, err
		}
		b.WriteString(`"` + f.Name + `":`)
		b.Write(value)
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

func (f Field) json(s Spec) ([]byte, error) {
	switch at := f.at(&s).(type) {
	case *[]string:
		return json.Marshal(append([]string{}, *at...))
	case *[]int:
		return json.Marshal(append([]int{}, *at...))
	default:
		return json.Marshal(at)
	}
}

// UnmarshalJSON reads an object of fields. A number may stand as a string and
// a list as one string, as in the other forms; 0, "" and [] leave a field
// unset where that is its default. Unknown fields are an error.
func (s *Spec) UnmarshalJSON(data []byte) error {
	if len(data) > maxSpecJSON {
		return &pitch.InputError{What: "spec", Value: string(data), Want: "JSON of at most 64 KiB"}
	}
	var object map[string]json.RawMessage
	if err := json.Unmarshal(data, &object); err != nil || object == nil {
		return &pitch.InputError{What: "spec", Value: string(data), Want: "a JSON object of fields"}
	}
	if err := refuseTwice(data); err != nil {
		return err
	}
	var r reader
	for _, f := range fields {
		raw, ok := object[f.Name]
		if !ok {
			continue
		}
		values, ok := f.fromJSON(raw)
		if !ok {
			return &pitch.InputError{What: f.Name, Value: string(raw), Want: f.Meaning + ", such as " + f.Example}
		}
		for _, v := range values {
			if err := r.set(f.Name, v); err != nil {
				return err
			}
		}
	}
	for _, name := range slices.Sorted(maps.Keys(object)) {
		if _, err := fieldNamed(name); err != nil {
			return err
		}
	}
	*s = r.spec
	return nil
}

// refuseTwice refuses an object that has a field twice; encoding/json would
// keep the last without a word. The data is a valid object.
func refuseTwice(data []byte) error {
	given := make(map[string]bool)
	d := json.NewDecoder(bytes.NewReader(data))
	if _, err := d.Token(); err != nil {
		return err
	}
	for d.More() {
		name, err := d.Token()
		if err != nil {
			return err
		}
		var value json.RawMessage
		if err := d.Decode(&value); err != nil {
			return err
		}
		field, _ := name.(string)
		if given[field] {
			shown, ok := scalar(value)
			if !ok {
				shown = string(value)
			}
			return &pitch.InputError{What: field, Value: shown, Want: "one value, and it was given before"}
		}
		given[field] = true
	}
	return nil
}

// fromJSON turns a JSON value into the texts that Set takes.
func (f Field) fromJSON(raw json.RawMessage) (values []string, ok bool) {
	var list []json.RawMessage
	if json.Unmarshal(raw, &list) == nil && list != nil {
		if !is[[]string](f) && !is[[]int](f) {
			return nil, false
		}
		for _, item := range list {
			v, ok := scalar(item)
			if !ok {
				return nil, false
			}
			values = append(values, v)
		}
		if is[[]int](f) && len(values) > 0 {
			values = []string{strings.Join(values, ",")}
		}
		return values, true
	}
	v, ok := scalar(raw)
	if !ok {
		return nil, false
	}
	if v == "" || v == "0" && f.High > 0 && f.Low == 0 {
		return nil, true
	}
	return []string{v}, true
}

func scalar(raw json.RawMessage) (string, bool) {
	var s string
	if json.Unmarshal(raw, &s) == nil && len(raw) > 0 && raw[0] == '"' {
		return s, true
	}
	text := string(bytes.TrimSpace(raw))
	if text == "" || text == "null" || text[0] == '{' || text[0] == '[' {
		return "", false
	}
	return text, true
}
