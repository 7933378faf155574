package main

import (
	"errors"
	"fmt"
	"regexp"
	"strings"

	"github.com/alecthomas/kong"

	"heddle/pitch"
)

// givenTwice refuses a flag that takes one value and was given again: the
// parser would keep the last and drop the others silently.
func givenTwice(parsed *kong.Context) error {
	given := make(map[string]bool)
	for _, part := range parsed.Path {
		flag := part.Flag
		if flag == nil || flag.IsCumulative() || flag.IsBool() {
			continue
		}
		if _, checked := flag.Mapper.(gatherer); checked {
			continue
		}
		if given[flag.Name] {
			return &pitch.InputError{What: flag.Name, Value: lastValue(parsed, flag), Want: "one value, and it was given before"}
		}
		given[flag.Name] = true
	}
	return nil
}

func lastValue(parsed *kong.Context, flag *kong.Flag) string {
	switch value := parsed.FlagValue(flag).(type) {
	case *string:
		return *value
	default:
		return fmt.Sprint(value)
	}
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
			return fmt.Errorf("%s; see heddle %s --help", text, node.Name)
		}
		return err
	}
	return fmt.Errorf("%s; want one of %s", text, strings.Join(commandNames(parser), ", "))
}

func commandNames(parser *kong.Kong) (names []string) {
	for _, node := range parser.Model.Leaves(true) {
		names = append(names, node.Name)
	}
	return names
}
