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
	Title string // above a page and in a sound file; empty for the exercise's own and the sentence
	Note  string // to the student, on a page
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

// A key is a named choice and where it is kept.
type key struct {
	exercise.Key
	at func(*Choices) any // a pointer
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
	row := func(group, name, usual, example, meaning string, at func(*Choices) any, values ...string) key {
		k := key{exercise.Key{Name: name, Group: group, Default: usual, Example: example, Meaning: meaning}, at}
		_, k.Switch = at(&Choices{}).(*bool)
		k.Repeats = slices.Contains([]string{"hide", "mute", "level", "pan"}, name)
		for _, value := range values {
			k.Choices = append(k.Choices, exercise.Choice{Value: value})
		}
		return k
	}
	mix := func(c *Choices) any { return &c.Sound.Mix }
	return []key{
		row("output", "title", "", "Thursday evening", "the title of a page", func(c *Choices) any { return &c.Title }),
		row("output", "note", "", "Accent the first note of each group.", "a note to the student, under the sentence of a page", func(c *Choices) any { return &c.Note }),
		row("output", "paper", "a4", "letter", "the paper of a pdf: a4 or letter", func(c *Choices) any { return &c.Paper }, "a4", "letter"),
		row("output", "label", "names", "degrees", "what is written on the neck: names, degrees or nothing", func(c *Choices) any { return &c.Label }, "names", "degrees", "nothing"),
		row("output", "neck", "hand", "whole", "how much of the neck is drawn: around the hand, or whole", func(c *Choices) any { return &c.Neck }, "hand", "whole"),
		row("output", "hide", "", "tab", "leave something out of the picture: names, tab or line, to play by heart, or courtesy, the naturals that only remind", func(c *Choices) any { return &c.Hide }, "names", "tab", "line", "courtesy"),
		row("sound", "vamp", "what suits the feel and tempo", "funk", "what plays under the line: click, drone, funk, sixteenth funk, half-time, swing, up-tempo swing, slow blues, bossa, ballad or straight ballad", func(c *Choices) any { return &c.Sound.Vamp }, words(sound.Vamps())...),
		row("sound", "tone", "what suits the instrument", "nylon", "what the line is played on: electric clean, electric driven, steel acoustic, nylon, bass guitar, ukulele or mandolin", func(c *Choices) any { return &c.Sound.Tone }, words(sound.Tones())...),
		row("sound", "articulation", "ringing", "staccato", "how the line's notes ring: ringing, staccato or palm-muted", func(c *Choices) any { return &c.Sound.Articulation }, words(sound.Articulations())...),
		row("sound", "click", "", "2 and 4", `where the click falls: all, "2 and 4", or "once a bar"`, func(c *Choices) any { return &c.Sound.ClickOn }, words([]sound.ClickOn{sound.EveryBeat, sound.TwoFour, sound.OnceABar})...),
		row("sound", "count-in", "1", "2", "bars of click before the line; captions wait for it too", func(c *Choices) any { return &c.Sound.CountIn }),
		row("sound", "loops", "once, or as the ladder asks", "4", "how often the line is played", func(c *Choices) any { return &c.Sound.Loops }),
		row("sound", "response", "false", "", "after each line, as many bars without it, for you to answer", func(c *Choices) any { return &c.Sound.CallAndResponse }),
		row("sound", "silent", "false", "", "only the click in every second loop", func(c *Choices) any { return &c.Sound.SilentEveryOther }),
		row("sound", "ladder", "", "60-96 by 6 every 2", "raise the tempo as the loops go by", func(c *Choices) any { return &c.Sound.Ladder }),
		row("sound", "voice", "false", "", "speak the note names", func(c *Choices) any { return &c.Sound.Voice }),
		row("sound", "mute", "", "drums", "leave a part out: line, chords, bass, drums, click or voice", mix, partNames()...),
		row("sound", "level", "", "bass=-6", "make a part louder or softer, in dB", mix),
		row("sound", "pan", "", "line=0.3", "place a part between -1 (left) and 1 (right)", mix),
		row("sound", "rate", "48000", "44100", "samples a second", func(c *Choices) any { return &c.Sound.SampleRate }),
		row("sound", "bits", "24", "16", "how a wav file holds samples: 16, 24 or 32f", func(c *Choices) any { return &c.Bits }, "16", "24", "32f"),
		row("sound", "seed", "0", "1", "another number gives another performance by the band", func(c *Choices) any { return &c.Sound.Seed }),
	}
}

func words[S ~string](values []S) (list []string) {
	for _, v := range values {
		list = append(list, string(v))
	}
	return list
}

func partNames() (list []string) {
	for _, part := range sound.Parts() {
		list = append(list, part.String())
	}
	return list
}

func (k key) set(c *Choices, value string) (err error) {
	switch at := k.at(c).(type) {
	case *string:
		*at, err = k.oneOf(value)
	case *[]string:
		value, err = k.oneOf(value)
		*at = append(*at, value)
	case *bool:
		*at, err = k.YesNo(value)
	case *sound.Vamp:
		*at, err = sound.ParseVamp(value)
	case *sound.Tone:
		*at, err = sound.ParseTone(value)
	case *sound.Articulation:
		*at, err = sound.ParseArticulation(value)
	case *sound.ClickOn:
		*at, err = sound.ParseClickOn(value)
	case *sound.Ladder:
		*at, err = sound.ParseLadder(value)
	case *audio.Depth:
		*at, err = audio.ParseDepth(value)
	case *uint64:
		*at, err = k.count(value, 64)
	case *int:
		if k.Name == "rate" {
			*at, err = sound.ParseSampleRate(value)
			break
		}
		var n uint64
		n, err = k.count(value, 31)
		*at = int(n)
	default:
		err = k.mix(c, value)
	}
	return err
}

// oneOf accepts any text, or one of the choices where there are some.
func (k key) oneOf(value string) (string, error) {
	if words := k.Values(); len(words) > 0 && !slices.Contains(words, value) {
		return value, &pitch.InputError{What: k.Name, Value: value, Want: "one of " + strings.Join(words, ", "), Nearest: pitch.Nearest(value, words)}
	}
	return value, nil
}

func (k key) count(value string, bits int) (uint64, error) {
	n, err := strconv.ParseUint(value, 10, bits)
	if err != nil {
		return 0, &pitch.InputError{What: k.Name, Value: value, Want: "a whole number, 0 or more"}
	}
	return n, nil
}

// mix mutes a part, "drums", or sets its level or place, "bass=-6".
func (k key) mix(c *Choices, value string) error {
	word, number, found := strings.Cut(value, "=")
	x, err := strconv.ParseFloat(number, 64)
	if mute := k.Name == "mute"; !mute && (!found || err != nil) {
		return &pitch.InputError{What: k.Name, Value: value, Want: "a part, = and a number, such as " + k.Example}
	} else if mute {
		word = value
	}
	part, err := sound.ParsePart(word)
	if err != nil {
		return err
	}
	switch strip := &c.Sound.Mix[part]; k.Name {
	case "mute":
		strip.Mute = true
	case "level":
		strip.LevelDB = x
	case "pan":
		strip.Pan = x
	}
	return nil
}
