package pitch

import (
	"fmt"
	"strconv"
)

// An InputError is input that can't be used: the field, the value typed, what is
// accepted and, if there is one, the nearest valid spelling. Its message is a
// single line.
type InputError struct {
	What    string // the field: "scale", "chord", "tuning"
	Value   string // as typed
	Want    string // what is accepted
	Nearest string // a valid spelling close to Value, or empty
}

// longestShown is how many characters of a value a message repeats, so that it
// stays readable.
const longestShown = 60

// Error returns the field, the value and what is accepted.
func (e *InputError) Error() string {
	value := e.Value
	if shown := []rune(value); len(shown) > longestShown {
		value = string(shown[:longestShown]) + "…"
	}
	s := fmt.Sprintf("%s %q: want %s", e.What, value, e.Want)
	if e.Nearest != "" {
		s += fmt.Sprintf("; did you mean %q?", e.Nearest)
	}
	return s
}

// Count writes a number of things, for errors and remarks: "1 note", "3 notes".
func Count(n int, thing string) string {
	if n != 1 {
		thing += "s"
	}
	return strconv.Itoa(n) + " " + thing
}
