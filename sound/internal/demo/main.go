// Command demo writes a demo sound of each groove and each tone, and prints
// how loud every part is in it and how its energy lies over the bands.
//
//	go run ./sound/internal/demo -o DIR
package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"log"
	"os"
	"path/filepath"
	"strings"

	"heddle/audio"
	"heddle/exercise"
	"heddle/sound"
)

func main() {
	log.SetFlags(0)
	dir := flag.String("o", "", "the `folder` to write flac files to; without it only the table is printed")
	only := flag.String("only", "", "make only demos whose name holds this `text`")
	flag.Parse()
	if err := run(context.Background(), *dir, *only); err != nil {
		log.Fatal("demo: ", err)
	}
}

// A demo is one sound: the workshop's scenario in a groove or on a tone.
type demo struct {
	name string
	spec exercise.Spec
	vamp sound.Vamp
	tone sound.Tone
	how  sound.Articulation
}

// The workshop's exercises (invented): its funk vamp in G minor, and its blues in A.
var (
	gMinor = exercise.Spec{Chord: "Gm7", Home: "G minor pentatonic", Superimpose: []string{"semitone up"}, Groups: []int{3, 3}, Fret: 10, Tempo: 84, Bars: 8, Land: "third"}
	blues  = exercise.Spec{Changes: "A7 | D7 | A7 | A7 | D7 | D7 | A7 | F#7 | Bm7 | E7 | E7", Home: "A minor pentatonic", Superimpose: []string{"tritone"}, Groups: []int{2, 2}, Fret: 5, Tempo: 120, Direction: "down-up", Feel: "swing 2:1"}
	turn   = exercise.Spec{Changes: "Dm7 | G7 | Cmaj7 | A7", Home: "D dorian", Groups: []int{4}, Fret: 5, Tempo: 120, Direction: "down-up"}
)

// demos lists every groove, then the metres, then every tone.
func demos() []demo {
	at := func(s exercise.Spec, tempo float64, meter string) exercise.Spec {
		s.Tempo, s.Meter = tempo, meter
		return s
	}
	list := []demo{
		{"click", gMinor, sound.ClickVamp, "", ""},
		{"drone", gMinor, sound.DroneVamp, "", ""},
		{"funk", gMinor, sound.FunkVamp, "", ""},
		{"sixteenth funk", at(gMinor, 100, ""), sound.SixteenthFunkVamp, "", ""},
		{"half-time", at(gMinor, 140, ""), sound.HalfTimeVamp, "", ""},
		{"swing", blues, sound.SwingVamp, "", ""},
		{"up-tempo swing", at(blues, 220, ""), sound.FastSwingVamp, "", ""},
		{"slow blues", at(blues, 60, ""), sound.SlowBluesVamp, "", ""},
		{"bossa", turn, sound.BossaVamp, "", ""},
		{"ballad", at(turn, 62, ""), sound.BalladVamp, "", ""},
		{"straight ballad", at(turn, 66, ""), sound.StraightBalladVamp, "", ""},
	}
	for _, meter := range []string{"5/4", "7/8", "6/8"} {
		for _, vamp := range []sound.Vamp{sound.FunkVamp, sound.SwingVamp, sound.BossaVamp} {
			list = append(list, demo{string(vamp) + " in " + meter, at(gMinor, 110, meter), vamp, "", ""})
		}
	}
	for _, tone := range sound.Tones() {
		spec := gMinor
		switch tone {
		case sound.BassGuitar:
			spec.Instrument, spec.Fret = "bass", 3
		case sound.Ukulele, sound.Mandolin:
			spec.Instrument, spec.Fret = string(tone), 3
		}
		list = append(list, demo{"tone " + string(tone), spec, sound.FunkVamp, tone, ""})
	}
	for _, how := range sound.Articulations()[1:] {
		list = append(list, demo{"articulation " + string(how), gMinor, sound.FunkVamp, "", how})
	}
	return list
}

func run(ctx context.Context, dir, only string) error {
	if dir != "" {
		if err := os.MkdirAll(dir, 0o755); err != nil {
			return err
		}
	}
	fmt.Println("| demo | LUFS | dBTP | line, chords, bass, drums, LUFS | chords 1–3 kHz | bands: 40 120 300 1k 2k 5k–12k Hz, dB | sides |\n| --- | --- | --- | --- | --- | --- | --- |")
	for _, d := range demos() {
		if !strings.Contains(d.name, only) {
			continue
		}
		if err := d.make(ctx, dir); err != nil {
			return fmt.Errorf("%s: %w", d.name, err)
		}
	}
	return nil
}

// make renders a demo, writes it, and prints its row.
func (d demo) make(ctx context.Context, dir string) error {
	ex, err := exercise.Build(d.spec)
	if err != nil {
		return err
	}
	o := sound.DefaultOptions()
	o.Vamp, o.Tone, o.Articulation, o.Loops = d.vamp, d.tone, d.how, 2
	mix := &heard{}
	if _, err := sound.Render(ctx, ex, o, mix); err != nil {
		return err
	}
	if dir != "" {
		if err := mix.write(filepath.Join(dir, strings.ReplaceAll(d.name, "/", "-")+".flac"), d.name, ex.Tempo); err != nil {
			return err
		}
	}
	if o.Gain, err = sound.Gain(ctx, ex, o); err != nil {
		return err
	}
	var parts []string
	var chords heard
	for _, p := range []sound.Part{sound.Line, sound.Chords, sound.Bass, sound.Drums} {
		part := heard{}
		if _, err := sound.RenderPart(ctx, ex, o, p, &part); err != nil {
			return err
		}
		parts = append(parts, fmt.Sprintf("%.1f", part.meter.Loudness()))
		if p == sound.Chords {
			chords = part
		}
	}
	presence := 0.0
	if len(chords.left) > 0 {
		presence = chords.bands()[3] - mix.bands()[3]
	}
	fmt.Printf("| %s | %.1f | %.1f | %s | %.0f | %s | %.2f |\n", d.name, mix.meter.Loudness(), mix.meter.TruePeak(), strings.Join(parts, " "), presence, mix.bandText(), mix.sides())
	return nil
}

// A heard sink keeps a sound and measures its loudness.
type heard struct {
	rate        int
	left, right []float32
	meter       *audio.Meter
}

func (h *heard) Start(f audio.Format) error {
	h.rate, h.meter = f.SampleRate, audio.NewMeter(f.SampleRate)
	return nil
}

func (h *heard) Write(frames []float32) error {
	from := len(h.left)
	for i := 0; i < len(frames); i += 2 {
		h.left, h.right = append(h.left, frames[i]), append(h.right, frames[i+1])
	}
	h.meter.Write(h.left[from:], h.right[from:])
	return nil
}

func (h *heard) Finish() error { return nil }

// write writes the sound as a FLAC file.
func (h *heard) write(path, title string, tempo float64) error {
	var file bytes.Buffer
	w, err := audio.NewFLAC(&file, audio.Bits16, audio.Tags{Title: title, Tempo: tempo})
	if err != nil {
		return err
	}
	if err := w.Start(audio.Format{SampleRate: h.rate, Frames: int64(len(h.left))}); err != nil {
		return err
	}
	frames := make([]float32, 2*len(h.left))
	for i := range h.left {
		frames[2*i], frames[2*i+1] = h.left[i], h.right[i]
	}
	if err := w.Write(frames); err != nil {
		return err
	}
	if err := w.Finish(); err != nil {
		return err
	}
	return os.WriteFile(path, file.Bytes(), 0o644)
}
