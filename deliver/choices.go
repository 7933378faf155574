package deliver

import (
	"net/url"
	"slices"
	"strconv"
	"strings"

	"heddle/audio"
	"heddle/exercise"
	"heddle/pitch"
	"heddle/sound"
)

// Choices say how an exercise looks and sounds. [Choose] makes them; without
// any values it gives the defaults.
type Choices struct {
	Title string // above the first page and in a sound file; empty for none and the sentence
	Paper string // a4 or letter
	Label string // what is written on the neck's spots
	Neck  string // how much of the neck is seen
	Hide  []string

	Sound sound.Options
	Bits  audio.Depth // of a wav file

	given string // the query of what differs from the defaults
}

// Choose reads choices from named values, such as flags or the query of an
// address. It passes over names that are not in [Keys], and over empty values,
// so that a form may send all it has.
func Choose(values map[string][]string) (Choices, error) {
	c := Choices{Paper: "a4", Label: "names", Neck: "hand", Sound: sound.DefaultOptions(), Bits: audio.Bits24}
	for _, k := range keys() {
		var given []string
		for _, value := range values[k.Name] {
			if value = strings.TrimSpace(value); value == "" || k.Repeats && slices.Contains(given, value) {
				continue
			}
			if err := k.Given(value, len(given)); err != nil {
				return c, err
			}
			if err := k.set(&c, value); err != nil {
				return c, err
			}
			given = append(given, value)
		}
		for _, value := range given {
			if value != k.Default {
				c.given += "&" + k.Name + "=" + url.QueryEscape(value)
			}
		}
	}
	slices.Sort(c.Hide)
	return c, nil
}

// Query writes what differs from the defaults as a query to be added to a
// spec's: it is empty, or begins with &.
func (c Choices) Query() string { return c.given }

// A key is a named choice and how it is set.
type key struct {
	exercise.Key
	set func(*Choices, string) error
}

// Keys lists what can be chosen.
func Keys() []exercise.Key {
	var list []exercise.Key
	for _, k := range keys() {
		list = append(list, k.Key)
	}
	return list
}

func keys() []key {
	return []key{
		word("title", "output", "a title above the first page", "Thursday evening", func(c *Choices) *string { return &c.Title }),
		word("paper", "output", "the paper of a pdf: a4 or letter", "letter", func(c *Choices) *string { return &c.Paper }, "a4", "letter"),
		word("label", "output", "what is written on the neck: names, degrees or nothing", "degrees", func(c *Choices) *string { return &c.Label }, "names", "degrees", "nothing"),
		word("neck", "output", "how much of the neck is drawn: around the hand, or whole", "whole", func(c *Choices) *string { return &c.Neck }, "hand", "whole"),
		hide(),
		parsed("vamp", "what plays under the line: click, drone, funk, swing or ballad", "funk", "what suits the feel and tempo", sound.ParseVamp,
			func(c *Choices) *sound.Vamp { return &c.Sound.Vamp }, choicesOf(sound.Vamps())...),
		parsed("click", `where the click falls: all, "2 and 4", or "once a bar"`, "2 and 4", "", sound.ParseClickOn,
			func(c *Choices) *sound.ClickOn { return &c.Sound.ClickOn }, choicesOf([]sound.ClickOn{sound.EveryBeat, sound.TwoFour, sound.OnceABar})...),
		count("count-in", "bars of click before the line", "2", "1", func(c *Choices) *int { return &c.Sound.CountIn }),
		count("loops", "how often the line is played", "4", "once, or as the ladder asks", func(c *Choices) *int { return &c.Sound.Loops }),
		yesNo("response", "after each line, as many bars without it, for you to answer", func(c *Choices) *bool { return &c.Sound.CallAndResponse }),
		yesNo("silent", "only the click in every second loop", func(c *Choices) *bool { return &c.Sound.SilentEveryOther }),
		parsed("ladder", "raise the tempo as the loops go by", "60-96 by 6 every 2", "", sound.ParseLadder, func(c *Choices) *sound.Ladder { return &c.Sound.Ladder }),
		yesNo("voice", "speak the note names", func(c *Choices) *bool { return &c.Sound.Voice }),
		mute(),
		strip("level", "make a part louder or softer, in dB", "bass=-6", func(s *sound.Strip) *float64 { return &s.LevelDB }),
		strip("pan", "place a part between -1 (left) and 1 (right)", "line=0.3", func(s *sound.Strip) *float64 { return &s.Pan }),
		parsed("rate", "samples a second", "44100", "48000", sound.ParseSampleRate, func(c *Choices) *int { return &c.Sound.SampleRate }),
		parsed("bits", "how a wav file holds samples: 16, 24 or 32f", "16", "24", audio.ParseDepth, func(c *Choices) *audio.Depth { return &c.Bits }, choicesOf([]string{"16", "24", "32f"})...),
		parsed("seed", "another number gives another performance by the band", "1", "0", parseSeed, func(c *Choices) *uint64 { return &c.Sound.Seed }),
	}
}

func choicesOf[S ~string](values []S) []exercise.Choice {
	list := make([]exercise.Choice, len(values))
	for i, v := range values {
		list[i].Value = string(v)
	}
	return list
}

// word is any text, or one of some words, the first of them the default.
func word(name, group, meaning, example string, at func(*Choices) *string, words ...string) key {
	k := key{Key: exercise.Key{Name: name, Group: group, Meaning: meaning, Example: example, Choices: choicesOf(words)}}
	if len(words) > 0 {
		k.Default = words[0]
	}
	k.set = func(c *Choices, value string) error {
		*at(c) = value
		return oneOf(name, value, words)
	}
	return k
}

func oneOf(name, value string, words []string) error {
	if len(words) == 0 || slices.Contains(words, value) {
		return nil
	}
	return &pitch.InputError{What: name, Value: value, Want: "one of " + strings.Join(words, ", "), Nearest: pitch.Nearest(value, words)}
}

// parsed is a choice of the sound that has a parser of its own.
func parsed[T any](name, meaning, example, usual string, parse func(string) (T, error), at func(*Choices) *T, choices ...exercise.Choice) key {
	return key{exercise.Key{Name: name, Group: "sound", Meaning: meaning, Example: example, Default: usual, Choices: choices}, func(c *Choices, value string) (err error) {
		*at(c), err = parse(value)
		return err
	}}
}

func count(name, meaning, example, usual string, at func(*Choices) *int) key {
	return parsed(name, meaning, example, usual, func(value string) (int, error) {
		n, err := strconv.Atoi(value)
		if err != nil || n < 0 {
			return 0, &pitch.InputError{What: name, Value: value, Want: "a whole number, 0 or more"}
		}
		return n, nil
	}, at)
}

func yesNo(name, meaning string, at func(*Choices) *bool) key {
	k := exercise.Key{Name: name, Group: "sound", Meaning: meaning, Default: "false", Switch: true}
	return key{k, func(c *Choices, value string) (err error) {
		*at(c), err = k.YesNo(value)
		return err
	}}
}

func parseSeed(value string) (uint64, error) {
	n, err := strconv.ParseUint(value, 10, 64)
	if err != nil {
		return 0, &pitch.InputError{What: "seed", Value: value, Want: "a whole number, 0 or more"}
	}
	return n, nil
}

func hide() key {
	words := []string{"names", "tab", "line"}
	return key{exercise.Key{Name: "hide", Group: "output", Meaning: "leave something out of the picture, to play it by heart: names, tab or line", Example: "tab", Repeats: true, Choices: choicesOf(words)},
		func(c *Choices, value string) error {
			c.Hide = append(c.Hide, value)
			return oneOf("hide", value, words)
		}}
}

func mute() key {
	var parts []string
	for _, part := range sound.Parts() {
		parts = append(parts, part.String())
	}
	return key{exercise.Key{Name: "mute", Group: "sound", Meaning: "leave a part out: line, chords, bass, drums, click or voice", Example: "drums", Repeats: true, Choices: choicesOf(parts)},
		func(c *Choices, value string) error {
			part, err := sound.ParsePart(value)
			if err == nil {
				c.Sound.Mix[part].Mute = true
			}
			return err
		}}
}

// strip sets a part's place in the mix, "bass=-6".
func strip(name, meaning, example string, at func(*sound.Strip) *float64) key {
	return key{exercise.Key{Name: name, Group: "sound", Meaning: meaning, Example: example, Repeats: true}, func(c *Choices, value string) error {
		word, number, found := strings.Cut(value, "=")
		x, err := strconv.ParseFloat(number, 64)
		if !found || err != nil {
			return &pitch.InputError{What: name, Value: value, Want: "a part, = and a number, such as " + example}
		}
		part, err := sound.ParsePart(word)
		if err == nil {
			*at(&c.Sound.Mix[part]) = x
		}
		return err
	}}
}
