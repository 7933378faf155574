package main

import (
	"errors"
	"fmt"
	"reflect"
	"regexp"
	"strings"

	"github.com/alecthomas/kong"

	"heddle/pitch"
)

// once refuses a second value for a flag that takes one: the parser would keep
// the last and drop the others silently.
type once struct {
	kong.Mapper
	given *bool
}

// Decode takes the value.
func (o once) Decode(line *kong.DecodeContext, target reflect.Value) error {
	if *o.given {
		return &pitch.InputError{What: line.Value.Name, Value: line.Scan.Peek().String(), Want: "one value, and it was given before"}
	}
	*o.given = true
	return o.Mapper.Decode(line, target)
}

// A usageError is a command line that the parser can't make sense of.
type usageError struct{ error }

// missingValue is what the parser says of a flag without its value, at the end
// of the line or before something that looks like a flag.
var missingValue = regexp.MustCompile(`^--([a-z-]+): expected .* value but got "(.*?)" \(`)

// plainly words the parser's errors like all the others, and says where to find
// what is accepted.
func plainly(err error, parser *kong.Kong) error {
	var input *pitch.InputError
	if errors.As(err, &input) {
		return input
	}
	text := err.Error()
	if m := missingValue.FindStringSubmatch(text); m != nil {
		if m[2] == "EOL" {
			m[2] = ""
		}
		return &pitch.InputError{What: m[1], Value: m[2], Want: fmt.Sprintf("a value after --%s (or --%s=VALUE, where it begins with -)", m[1], m[1])}
	}
	var parse *kong.ParseError
	if !errors.As(err, &parse) || strings.Contains(text, "did you mean") {
		return err
	}
	if node := parse.Context.Selected(); node != nil {
		if strings.HasPrefix(text, "unknown flag") || strings.HasPrefix(text, "unexpected") || strings.HasPrefix(text, "expected") {
			return fmt.Errorf("%s; see %s --help", text, node.FullPath())
		}
		return err
	}
	return fmt.Errorf("%s; want one of %s", text, strings.Join(commandNames(parser), ", "))
}

func commandNames(parser *kong.Kong) (names []string) {
	for _, node := range parser.Model.Children {
		if !node.Hidden {
			names = append(names, node.Name)
		}
	}
	return names
}
