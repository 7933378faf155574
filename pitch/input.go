package pitch

import "fmt"

// An InputError is one piece of input that can't be taken: what it was meant
// to be, what was typed, what would be accepted, and the nearest valid
// spelling where there is one. Its message is a single line.
type InputError struct {
	What    string // the field: "scale", "chord", "tuning"
	Value   string // as typed
	Want    string // what is accepted
	Nearest string // a valid spelling close to Value, or empty
}

// longestShown is how much of a value a message repeats, in characters, so
// that it stays a line a person can read.
const longestShown = 60

// Error says what, the value, and what is accepted.
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
