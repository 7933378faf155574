package exercise

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"

	"heddle/line"
	"heddle/pitch"
)

// maxSpecJSON bounds a spec's JSON in bytes.
const maxSpecJSON = 64 << 10

// MarshalJSON writes the fields in canonical order: numbers as numbers,
// superimpose and groups as arrays (a run as a string), all else as strings. An unset field is
// written as its zero where that means unset, and left out where it does not;
// a canonical spec has every field.
func (s Spec) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for _, f := range fields {
		if len(f.Get(s)) == 0 && f.High > 0 && !f.zeroUnsets() {
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

// zeroUnsets reports whether a number 0 is the same as none.
func (f Field) zeroUnsets() bool { return f.High > 0 && f.Low == 0 && f.zero == 0 }

func (f Field) json(s Spec) ([]byte, error) {
	switch at := f.at(&s).(type) {
	case *int:
		if *at == f.zero {
			return []byte("0"), nil
		}
		return json.Marshal(at)
	case *[]string:
		return json.Marshal(append([]string{}, *at...))
	case *[]int:
		if line.IsRun(*at) {
			return json.Marshal(line.FormatGroups(*at))
		}
		return json.Marshal(append([]int{}, *at...))
	default:
		return json.Marshal(at)
	}
}

// UnmarshalJSON reads an object of fields. A number may be written as a string
// and a list as one string, as in the other forms; 0, "" and [] leave a field
// unset where that is its default. Unknown fields, and fields given twice, are
// errors.
func (s *Spec) UnmarshalJSON(data []byte) error {
	d := json.NewDecoder(bytes.NewReader(data))
	d.UseNumber()
	start, err := d.Token()
	if err != nil || start != json.Delim('{') || len(data) > maxSpecJSON {
		return &pitch.InputError{What: "spec", Value: string(data), Want: "a JSON object of fields, of at most 64 KiB"}
	}
	var spec Spec
	given := make(map[string]bool)
	for d.More() {
		token, err := d.Token()
		if err != nil {
			return err
		}
		var value any
		if err := d.Decode(&value); err != nil {
			return err
		}
		name, _ := token.(string)
		f, err := FieldNamed(name)
		if err != nil {
			return err
		}
		values, ok := f.texts(value)
		switch {
		case !ok:
			return &pitch.InputError{What: name, Value: fmt.Sprint(value), Want: f.Meaning + ", such as " + f.Example}
		case given[name]: // encoding/json would keep the last silently
			return &pitch.InputError{What: name, Value: strings.Join(values, ", "), Want: "one value, and it was given before"}
		}
		given[name] = true
		for _, v := range values {
			if err := f.Set(&spec, v); err != nil {
				return err
			}
		}
	}
	*s = spec
	return nil
}

// texts turns a JSON value into the texts that Set takes.
func (f Field) texts(value any) (values []string, ok bool) {
	switch v := value.(type) {
	case string, json.Number, bool:
		text := fmt.Sprint(v)
		if text == "" || text == "0" && f.zeroUnsets() {
			return nil, true
		}
		return []string{text}, true
	case []any:
		for _, item := range v {
			if _, nested := item.([]any); nested {
				return nil, false
			}
			text, ok := f.texts(item)
			if !ok {
				return nil, false
			}
			values = append(values, text...)
		}
		if is[[]int](f) && len(values) > 0 {
			values = []string{strings.Join(values, ",")}
		}
		return values, is[[]string](f) || is[[]int](f)
	}
	return nil, false
}
