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

// Error says what, the value, and what is accepted.
func (e *InputError) Error() string {
	s := fmt.Sprintf("%s %q: want %s", e.What, e.Value, e.Want)
	if e.Nearest != "" {
		s += fmt.Sprintf("; did you mean %q?", e.Nearest)
	}
	return s
}
