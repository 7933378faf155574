package main

import (
	"bytes"
	"encoding/json"
	"io"
	"maps"
	"os"
	"strings"

	"github.com/alecthomas/kong"

	"heddle/exercise"
	"heddle/pitch"
)

// flagGroups gather a command's flags under headings in the order of the
// sentence.
var flagGroups = []kong.Group{
	{Key: "harmony", Title: "The scales and the chord:"},
	{Key: "pattern", Title: "The pattern:"},
	{Key: "time", Title: "Time:"},
	{Key: "home", Title: "Coming home:"},
	{Key: "instrument", Title: "The instrument and the hands:"},
	{Key: "sound", Title: "How it sounds, in wav, flac and mp3 files:"},
	{Key: "output", Title: "What comes out:"},
}

// scaleFlags are the fields that say which scales.
type scaleFlags struct {
	Home        *string  `help:"${help_home}" placeholder:"\"${example_home}\"" group:"harmony"`
	Superimpose []string `help:"${help_superimpose}" placeholder:"\"${example_superimpose}\"" group:"harmony" sep:"none"`
}

// neckFlags are the fields that say on what, and for which hand.
type neckFlags struct {
	Instrument *string `help:"${help_instrument}" placeholder:"${example_instrument}" group:"instrument"`
	Tuning     *string `help:"${help_tuning}" placeholder:"\"${example_tuning}\"" group:"instrument"`
	Frets      *string `help:"${help_frets}" placeholder:"${example_frets}" group:"instrument"`
	Scale      *string `help:"${help_scale}" placeholder:"${example_scale}" group:"instrument"`
	Reach      *string `help:"${help_reach}" placeholder:"${example_reach}" group:"instrument"`
	Capo       *string `help:"${help_capo}" placeholder:"${example_capo}" group:"instrument"`
	Left       bool    `help:"${help_left}" group:"instrument"`
	Names      *string `help:"${help_names}" placeholder:"${example_names}" group:"instrument"`
}

// specFlags are the fields of a spec as flags. A nil flag was not given.
type specFlags struct {
	scaleFlags `embed:""`
	Chord      *string `help:"${help_chord}" placeholder:"${example_chord}" group:"harmony"`
	Changes    *string `help:"${help_changes}" placeholder:"\"${example_changes}\"" group:"harmony"`

	Groups    *string `help:"${help_groups}" placeholder:"${example_groups}" group:"pattern"`
	Order     *string `help:"${help_order}" placeholder:"\"${example_order}\"" group:"pattern"`
	Follow    *string `help:"${help_follow}" placeholder:"${example_follow}" group:"pattern"`
	Direction *string `help:"${help_direction}" placeholder:"${example_direction}" group:"pattern"`
	Fret      *string `help:"${help_fret}" placeholder:"${example_fret}" group:"pattern"`
	Start     *string `help:"${help_start}" placeholder:"${example_start}" group:"pattern"`

	Value  *string `help:"${help_value}" placeholder:"${example_value}" group:"time"`
	Meter  *string `help:"${help_meter}" placeholder:"${example_meter}" group:"time"`
	Pickup *string `help:"${help_pickup}" placeholder:"${example_pickup}" group:"time"`
	Feel   *string `help:"${help_feel}" placeholder:"\"${example_feel}\"" group:"time"`
	Gap    *string `help:"${help_gap}" placeholder:"${example_gap}" group:"time"`
	Tempo  *string `help:"${help_tempo}" placeholder:"${example_tempo}" group:"time"`
	Bars   *string `help:"${help_bars}" placeholder:"${example_bars}" group:"time"`

	Land     *string `help:"${help_land}" placeholder:"${example_land}" group:"home"`
	LandBeat *string `help:"${help_land_beat}" placeholder:"${example_land_beat}" group:"home"`
	Ending   *string `help:"${help_ending}" placeholder:"${example_ending}" group:"home"`

	Picking   *string `help:"${help_picking}" placeholder:"${example_picking}" group:"instrument"`
	neckFlags `embed:""`

	Spec *string `help:"Read the fields from a file of 'field: value' lines or JSON; - reads standard input. Flags win over it." placeholder:"FILE" group:"output"`
}

// read gathers the spec from the file, if one is named, and the flags.
func (f *specFlags) read(in io.Reader) (exercise.Spec, error) {
	var spec exercise.Spec
	if f.Spec != nil {
		var err error
		if spec, err = readSpec(*f.Spec, in); err != nil {
			return spec, err
		}
	}
	return spec, setFlags(&spec, f.Superimpose, f.flags())
}

// setFlags sets the fields whose flags were given. Superimposed scales on the
// command line take the place of those in a file.
func setFlags(spec *exercise.Spec, superimpose []string, flags map[string]*string) error {
	if len(superimpose) > 0 {
		spec.Superimpose = nil
	}
	for _, text := range superimpose {
		if err := spec.Set("superimpose", text); err != nil {
			return err
		}
	}
	for _, field := range exercise.Fields() {
		if value := flags[field.Name]; value != nil {
			if err := field.Set(spec, *value); err != nil {
				return err
			}
		}
	}
	return nil
}

// flags maps each field but superimpose to its flag. A test holds it to the
// spec's fields.
func (f *specFlags) flags() map[string]*string {
	flags := f.neckFlags.flags()
	maps.Copy(flags, map[string]*string{
		"home": f.Home, "chord": f.Chord, "changes": f.Changes,
		"groups": f.Groups, "order": f.Order, "follow": f.Follow, "direction": f.Direction, "fret": f.Fret, "start": f.Start,
		"value": f.Value, "meter": f.Meter, "pickup": f.Pickup, "feel": f.Feel, "gap": f.Gap, "tempo": f.Tempo, "bars": f.Bars,
		"land": f.Land, "land-beat": f.LandBeat, "ending": f.Ending, "picking": f.Picking,
	})
	return flags
}

func (f *neckFlags) flags() map[string]*string {
	return map[string]*string{
		"instrument": f.Instrument, "tuning": f.Tuning, "frets": f.Frets, "scale": f.Scale, "reach": f.Reach,
		"capo": f.Capo, "left": f.leftFlag(), "names": f.Names,
	}
}

func (f *neckFlags) leftFlag() *string {
	if !f.Left {
		return nil
	}
	yes := "true"
	return &yes
}

// byteOrderMark is what some editors put before a text file.
const byteOrderMark = "\ufeff"

// maxSpecFile bounds a spec file in bytes.
const maxSpecFile = 64 << 10

func readSpec(name string, in io.Reader) (exercise.Spec, error) {
	if name != "-" {
		file, err := os.Open(name)
		if err != nil {
			return exercise.Spec{}, &pitch.InputError{What: "spec", Value: name, Want: "a file that can be read"}
		}
		defer file.Close()
		in = file
	}
	text, err := io.ReadAll(io.LimitReader(in, maxSpecFile+1))
	if err != nil {
		return exercise.Spec{}, err
	}
	if len(text) > maxSpecFile {
		return exercise.Spec{}, &pitch.InputError{What: "spec", Value: name, Want: "a file of at most 64 KiB"}
	}
	text = bytes.TrimPrefix(text, []byte(byteOrderMark))
	if trimmed := strings.TrimSpace(string(text)); strings.HasPrefix(trimmed, "{") {
		var spec exercise.Spec
		if !json.Valid(text) {
			return spec, &pitch.InputError{What: "spec", Value: name, Want: "valid JSON or lines of 'field: value'"}
		}
		return spec, json.Unmarshal(text, &spec)
	}
	return exercise.ParseText(string(text))
}
