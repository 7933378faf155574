package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"

	"heddle/audio"
	"heddle/exercise"
	"heddle/pitch"
	"heddle/sound"
)

// soundFlags say how an exercise sounds in a wav, flac or mp3 file.
type soundFlags struct {
	Vamp     string   `help:"What plays under the line: click, drone, funk, swing or ballad. Chosen by feel and tempo unless given." placeholder:"funk" group:"sound"`
	Click    string   `help:"Where the click falls: all, \"2 and 4\", or \"once a bar\"." placeholder:"\"2 and 4\"" group:"sound"`
	CountIn  string   `help:"Bars of click before the line. Unless given, 1." default:"1" placeholder:"2" group:"sound"`
	Loops    string   `help:"How often the line is played. Unless given, once, or as the ladder asks." placeholder:"4" group:"sound"`
	Response bool     `help:"After each line, as many bars without it, for you to answer." group:"sound"`
	Silent   bool     `help:"Every other loop silent but for the click." group:"sound"`
	Ladder   string   `help:"Raise the tempo as the loops go by." placeholder:"\"60-96 by 6 every 2\"" group:"sound"`
	Voice    bool     `help:"Speak the note names." group:"sound"`
	Mute     []string `help:"Leave a part out: line, chords, bass, drums, click or voice. May be given again." placeholder:"drums" group:"sound" sep:"none"`
	Level    []string `help:"Make a part louder or softer, in dB. May be given again." placeholder:"bass=-6" group:"sound" sep:"none"`
	Pan      []string `help:"Place a part between -1 (left) and 1 (right). May be given again." placeholder:"line=0.3" group:"sound" sep:"none"`
	Rate     string   `help:"Samples a second. Unless given, 48000." default:"48000" placeholder:"44100" group:"sound"`
	Bits     string   `help:"How a wav file holds samples: 16, 24 or 32f. Unless given, 24." default:"24" placeholder:"16" group:"sound"`
	Seed     uint64   `help:"Another seed gives the band another take." placeholder:"1" group:"sound"`
	Timeline string   `help:"Also write, as JSON, the sample at which each note sounds." placeholder:"FILE" group:"sound" type:"path"`
}

// options reads the flags.
func (f soundFlags) options() (sound.Options, error) {
	o := sound.DefaultOptions()
	o.CallAndResponse, o.SilentEveryOther, o.Voice, o.Seed = f.Response, f.Silent, f.Voice, f.Seed
	var err error
	if o.Vamp, err = optional(f.Vamp, sound.ParseVamp); err != nil {
		return o, err
	}
	if o.ClickOn, err = optional(f.Click, sound.ParseClickOn); err != nil {
		return o, err
	}
	if o.Ladder, err = sound.ParseLadder(f.Ladder); err != nil {
		return o, err
	}
	if o.CountIn, err = wholeFlag("count-in", f.CountIn); err != nil {
		return o, err
	}
	if o.Loops, err = wholeFlag("loops", f.Loops); err != nil {
		return o, err
	}
	if o.SampleRate, err = sound.ParseSampleRate(f.Rate); err != nil {
		return o, err
	}
	return o, f.mix(&o)
}

// optional parses a flag that was given.
func optional[T any](value string, parse func(string) (T, error)) (T, error) {
	if value == "" {
		var none T
		return none, nil
	}
	return parse(value)
}

func wholeFlag(name, value string) (int, error) {
	if value == "" {
		return 0, nil
	}
	n, err := strconv.Atoi(value)
	if err != nil || n < 0 {
		return 0, &pitch.InputError{What: name, Value: value, Want: "a whole number, 0 or more"}
	}
	return n, nil
}

// mix sets levels, places and mutes.
func (f soundFlags) mix(o *sound.Options) error {
	for _, name := range f.Mute {
		part, err := sound.ParsePart(name)
		if err != nil {
			return err
		}
		o.Mix[part].Mute = true
	}
	for _, set := range []struct {
		flag   string
		values []string
		at     func(*sound.Strip) *float64
	}{
		{"level", f.Level, func(s *sound.Strip) *float64 { return &s.LevelDB }},
		{"pan", f.Pan, func(s *sound.Strip) *float64 { return &s.Pan }},
	} {
		for _, value := range set.values {
			name, number, found := strings.Cut(value, "=")
			x, err := strconv.ParseFloat(number, 64)
			if !found || err != nil {
				return &pitch.InputError{What: set.flag, Value: value, Want: "a part, = and a number, such as bass=-6"}
			}
			part, err := sound.ParsePart(name)
			if err != nil {
				return err
			}
			*set.at(&o.Mix[part]) = x
		}
	}
	return nil
}

// sink makes the encoder that a file's ending names.
func (f soundFlags) sink(ending string, w io.Writer, tags audio.Tags) (audio.Sink, error) {
	switch ending {
	case "flac":
		return audio.NewFLAC(w, audio.Bits24, tags)
	case "mp3":
		return audio.NewMP3(context.Background(), w, tags)
	}
	depth, err := audio.ParseDepth(f.Bits)
	if err != nil {
		return nil, err
	}
	return audio.NewWAV(w, depth, tags)
}

// writeSound renders the exercise into w.
func (f outputFlags) writeSound(ctx context.Context, w io.Writer, ex *exercise.Exercise, ending string, remarks io.Writer) error {
	o, err := f.soundFlags.options()
	if err != nil {
		return err
	}
	title := f.Title
	if title == "" {
		title = ex.Sentence
	}
	sink, err := f.sink(ending, w, audio.Tags{Title: title, Tempo: ex.Tempo})
	if err != nil {
		return err
	}
	timeline, err := sound.Render(ctx, ex, o, &progress{Sink: sink, terminal: terminal(remarks)})
	if err != nil || f.Timeline == "" {
		return err
	}
	return writeFile(f.Timeline, func(w io.Writer) error { return json.NewEncoder(w).Encode(timeline) })
}

// A progress passes sound on and says on a terminal how far it is.
type progress struct {
	audio.Sink
	terminal io.Writer // nil for silence
	total    int64
	done     int64
	shown    int64
}

// Start notes how much is to come.
func (p *progress) Start(f audio.Format) error {
	p.total = f.Frames
	return p.Sink.Start(f)
}

// Write passes frames on and shows each new per cent.
func (p *progress) Write(frames []float32) error {
	p.done += int64(len(frames) / 2)
	if percent := 100 * p.done / max(1, p.total); p.terminal != nil && percent > p.shown {
		p.shown = percent
		fmt.Fprintf(p.terminal, "\r%3d %%", percent)
	}
	return p.Sink.Write(frames)
}

// Finish clears the line.
func (p *progress) Finish() error {
	if p.terminal != nil {
		fmt.Fprint(p.terminal, "\r     \r")
	}
	return p.Sink.Finish()
}

// terminal returns w if a person is watching it, else nil.
func terminal(w io.Writer) io.Writer {
	file, ok := w.(*os.File)
	if !ok {
		return nil
	}
	if stat, err := file.Stat(); err != nil || stat.Mode()&os.ModeCharDevice == 0 {
		return nil
	}
	return w
}
