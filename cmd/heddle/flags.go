package main

import (
	"net/url"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"github.com/alecthomas/kong"

	"heddle/deliver"
	"heddle/exercise"
)

// Most flags come from two tables: the fields of a spec and what can be chosen
// for sound and picture. The parser knows them as it knows those that a
// command declares itself, and gathers their values by name.

// given holds the values of the flags from the tables.
type given url.Values

// flagGroups title the headings under which help lists flags.
var flagGroups = []kong.Group{
	{Key: "harmony", Title: "The scales and the chord:"},
	{Key: "pattern", Title: "The pattern:"},
	{Key: "time", Title: "Time:"},
	{Key: "phrase", Title: "A phrase (--form phrase):"},
	{Key: "landing", Title: "Coming home:"},
	{Key: "instrument", Title: "The instrument and the hands:"},
	{Key: "sound", Title: "How it sounds, in sound files:"},
	{Key: "output", Title: "Output:"},
}

// readFields are the fields that say how to read a line made elsewhere, and
// nearFields and overFields those that say where scales lie, besides the instrument's.
var (
	readFields = []string{"chord", "changes", "home", "superimpose", "fret", "meter", "tempo", "cut", "picking", "touch"}
	nearFields = []string{"home", "superimpose"}
	overFields = []string{"home", "fret"}
)

// keysOf lists what a command takes from the tables.
func keysOf(command string) (keys []exercise.Key) {
	for _, f := range exercise.Fields() {
		instrument := f.Group == "instrument" && f.Name != "picking" && f.Name != "touch"
		switch {
		case command == "line", command == "mark", command == "shelf keep", command == "ask",
			command == "read" && (instrument || slices.Contains(readFields, f.Name)),
			command == "near" && (instrument || slices.Contains(nearFields, f.Name)),
			command == "over" && (instrument && f.Name != "scale" || slices.Contains(overFields, f.Name)),
			command == "name" && f.Name == "names":
			f.Meaning = withBounds(f)
			keys = append(keys, f.Key)
		}
	}
	if command == "line" || command == "read" {
		keys = append(keys, deliver.Keys()...)
	}
	return keys
}

// withBounds adds the bounds of a number to what help says.
func withBounds(f exercise.Field) string {
	if bounds := f.Bounds(); bounds != "" && !strings.Contains(f.Meaning, ";") {
		return f.Meaning + ", " + bounds
	}
	return f.Meaning
}

// addTableFlags gives each command below a node its flags from the tables, and
// lets those that it declares itself be given once. Before is what is typed
// before the command's name.
func addTableFlags(node *kong.Node, before string, values given) {
	for _, command := range node.Children {
		addTableFlags(command, before+command.Name+" ", values)
		var flags []*kong.Flag
		for _, flag := range command.Flags {
			if !flag.IsCumulative() && !flag.IsBool() {
				flag.Mapper = once{flag.Mapper, new(bool)}
			}
		}
		for _, k := range keysOf(before + command.Name) {
			flags = append(flags, tableFlag(k, values))
		}
		command.Flags = append(flags, command.Flags...)
	}
}

func tableFlag(k exercise.Key, values given) *kong.Flag {
	help := strings.ToUpper(k.Meaning[:1]) + k.Meaning[1:] + "."
	if k.Default != "" && !k.Switch {
		help += " Default: " + k.Default + "."
	}
	if k.Repeats {
		help += " May be repeated."
	}
	flag := &kong.Flag{PlaceHolder: k.Example}
	if strings.ContainsAny(k.Example, " |") {
		flag.PlaceHolder = strconv.Quote(k.Example)
	}
	for i := range flagGroups {
		if flagGroups[i].Key == k.Group {
			flag.Group = &flagGroups[i]
		}
	}
	flag.Value = &kong.Value{Flag: flag, Name: k.Name, Help: help, OrigHelp: help, Tag: &kong.Tag{}, Mapper: gatherer{k, values}, Target: reflect.ValueOf(new(string)).Elem()}
	return flag
}

// A gatherer keeps the values of one flag.
type gatherer struct {
	exercise.Key
	values given
}

// IsBool tells the parser which flags need no value.
func (g gatherer) IsBool() bool { return g.Switch }

// Decode takes a value from the command line.
func (g gatherer) Decode(line *kong.DecodeContext, _ reflect.Value) error {
	value := "true"
	if !g.Switch || line.Scan.Peek().Type == kong.FlagValueToken {
		if err := line.Scan.PopValueInto("string", &value); err != nil {
			return err
		}
	}
	if err := g.Given(value, len(g.values[g.Name])); err != nil {
		return err
	}
	g.values[g.Name] = append(g.values[g.Name], value)
	return nil
}

// apply sets the fields whose flags were given. Superimposed scales on the
// command line take the place of those in a file.
func (g given) apply(spec *exercise.Spec) error {
	if len(g["superimpose"]) > 0 {
		spec.Superimpose = nil
	}
	for _, field := range exercise.Fields() {
		for _, value := range g[field.Name] {
			if err := field.Set(spec, value); err != nil {
				return err
			}
		}
	}
	return nil
}
