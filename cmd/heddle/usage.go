package main

import (
	"errors"
	"fmt"
	"regexp"
	"strings"

	"github.com/alecthomas/kong"

	"heddle/pitch"
)

// givenTwice is an error where a flag that takes one value was given again:
// the parser would keep the last and drop the others without a word.
func givenTwice(parsed *kong.Context) error {
	given := make(map[string]bool)
	for _, part := range parsed.Path {
		flag := part.Flag
		if flag == nil || flag.IsCumulative() || flag.IsBool() {
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

// missingValue is how the parser says that a flag stands without its value:
// at the end of the line, or before something that looks like a flag.
var missingValue = regexp.MustCompile(`^--([a-z-]+): expected .* value but got "(.*?)" \(`)

// plainly puts what the parser says of a bad command line in the words of the
// other errors, and says where the accepted ones are listed.
func plainly(err error, parser *kong.Kong) error {
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
