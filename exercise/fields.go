package exercise

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"heddle/line"
	"heddle/pitch"
)

// A Key is a named value as flags, addresses, files of `key: value` lines and
// pages know it.
type Key struct {
	Name    string
	Label   string // of a control
	Meaning string // one line for help
	Example string
	Default string // when it is unset, in words; empty where it is required, or else absent
	Group   string // what it belongs to, such as "time"
	Repeats bool   // may be given more than once
	Switch  bool   // true or false; a flag without a value means true
	Choices []Choice
}

// A Choice is one value that a key may have, and how a sentence or a page says
// it; no words where the value speaks for itself.
type Choice struct{ Value, Words string }

// Values lists the values of the choices.
func (k Key) Values() []string {
	values := make([]string, len(k.Choices))
	for i, c := range k.Choices {
		values[i] = c.Value
	}
	return values
}

// words says a value as a sentence does.
func (k Key) words(value string) string {
	for _, c := range k.Choices {
		if c.Value == value && c.Words != "" {
			return c.Words
		}
	}
	return value
}

// Given refuses a second value of a key that takes one. Before is how many
// were given before this one.
func (k Key) Given(value string, before int) error {
	if before == 0 || k.Repeats {
		return nil
	}
	return &pitch.InputError{What: k.Name, Value: value, Want: "one value, and it was given before"}
}

// YesNo reads the value of a switch.
func (k Key) YesNo(value string) (bool, error) {
	switch value {
	case "true", "yes", "on":
		return true, nil
	case "false", "no", "off":
		return false, nil
	}
	return false, &pitch.InputError{What: k.Name, Value: value, Want: "true or false"}
}

// A Field is one field of a Spec as every form of it knows it.
type Field struct {
	Key
	Rare      bool    // a page keeps it behind "more" while it has its default
	Low, High float64 // bounds of a number; 0 and 0 for other fields
	zero      int     // how a written 0 is kept, where 0 in Go means unset

	at func(*Spec) any // a pointer to the field
}

// Fields lists the fields in canonical order.
func Fields() []Field { return slices.Clone(fields) }

// Whole reports whether the field is a whole number.
func (f Field) Whole() bool { return is[int](f) }

func is[T any](f Field) bool {
	_, ok := f.at(&Spec{}).(*T)
	return ok
}

// FieldNamed returns the field of a name.
func FieldNamed(name string) (Field, error) {
	names := make([]string, len(fields))
	for i, f := range fields {
		if f.Name == name {
			return f, nil
		}
		names[i] = f.Name
	}
	return Field{}, &pitch.InputError{What: "field", Value: name, Want: "one of " + strings.Join(names, ", "), Nearest: pitch.Nearest(name, names)}
}

// maxText bounds the length of one field's value in bytes.
const maxText = 2000

// Set gives the field of s the value, read as every text form writes it. A
// field that repeats gains the value.
func (f Field) Set(s *Spec, value string) (err error) {
	value = strings.TrimSpace(value)
	if value == "" || len(value) > maxText || strings.ContainsAny(value, "\n\r") {
		return &pitch.InputError{What: f.Name, Value: value, Want: f.Meaning + ", such as " + f.Example}
	}
	switch at := f.at(s).(type) {
	case *string:
		*at = strings.Join(strings.Fields(value), " ")
	case *[]string:
		*at = append(*at, value)
	case *[]int:
		var sizes []int
		if sizes, err = line.ParseGroups(value); err == nil {
			*at = sizes
		}
		err = named(f.Name, err)
	case *bool:
		*at, err = f.YesNo(value)
	case *int:
		var x float64
		x, err = f.number(value)
		if *at = int(x); *at == 0 {
			*at = f.zero
		}
	case *float64:
		*at, err = f.number(value)
	}
	return err
}

// number reads a number within the field's bounds.
func (f Field) number(value string) (float64, error) {
	x, err := strconv.ParseFloat(value, 64)
	kind := "a number"
	if f.Whole() {
		kind = "a whole number"
		var n int
		n, err = strconv.Atoi(value)
		x = float64(n)
	}
	if err != nil || math.IsNaN(x) || x < f.Low || x > f.High {
		return 0, &pitch.InputError{What: f.Name, Value: value, Want: kind + " " + f.Bounds() + ", " + f.Meaning}
	}
	return x, nil
}

// Bounds says the bounds of a number, "from 20 to 400"; empty for other fields.
func (f Field) Bounds() string {
	if f.High == 0 {
		return ""
	}
	return fmt.Sprintf("from %s to %s", number(f.Low), number(f.High))
}

// Get returns the field's values as text, none when it is unset.
func (f Field) Get(s Spec) []string {
	switch at := f.at(&s).(type) {
	case *string:
		return some(*at, *at != "")
	case *[]string:
		return *at
	case *[]int:
		return some(line.FormatGroups(*at), len(*at) > 0)
	case *bool:
		return some("true", *at)
	case *int:
		if *at == f.zero {
			return some("0", f.zero != 0)
		}
		return some(strconv.Itoa(*at), *at != 0)
	case *float64:
		return some(number(*at), *at != 0)
	}
	return nil
}

func some(value string, given bool) []string {
	if !given {
		return nil
	}
	return []string{value}
}

func number(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
