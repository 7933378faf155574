package sound_test

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"heddle/audio"
	"heddle/exercise"
	"heddle/line"
	"heddle/notefile"
	"heddle/sound"
)

// bench holds what is rendered for the budget: the workshop's line over its
// funk vamp, and the blues over its swing, each for about a minute, every part
// sounding, names spoken.
var bench = []struct {
	name string
	spec exercise.Spec
	vamp sound.Vamp
}{
	{"funk", exercise.Spec{Chord: "Gm7", Home: "G minor pentatonic", Superimpose: []string{"semitone up"}, Groups: []int{3, 3}, Fret: 10, Tempo: 84, Bars: 4, Land: "third"}, sound.FunkVamp},
	{"swing", exercise.Spec{Changes: "A7 | D7 | A7 | A7", Home: "A minor pentatonic", Superimpose: []string{"tritone"}, Groups: []int{2, 2}, Fret: 5, Tempo: 120, Direction: "down-up", Feel: "swing 2:1"}, sound.SwingVamp},
	{"ballad", exercise.Spec{Chord: "Am7", Home: "A minor pentatonic", Groups: []int{4}, Fret: 5, Tempo: 60, Direction: "down-up", Picking: "legato"}, sound.BalladVamp},
	{"drone", exercise.Spec{Chord: "Em7", Home: "E minor pentatonic", Groups: []int{3}, Fret: 12, Tempo: 100, Direction: "down-up"}, sound.DroneVamp},
}

// minuteOf returns options that make the exercise last a minute or a little
// more.
func minuteOf(b *testing.B, ex *exercise.Exercise, vamp sound.Vamp) sound.Options {
	b.Helper()
	o := sound.DefaultOptions()
	o.Vamp, o.Voice, o.ClickOn, o.Loops = vamp, true, sound.TwoFour, 1
	line, err := sound.Plan(ex, o)
	if err != nil {
		b.Fatal(err)
	}
	once := line.LoopEnd - line.LoopStart
	o.Loops = int((60*int64(line.SampleRate) + once - 1) / once)
	return o
}

// A nowhere is a sink that keeps nothing but the count.
type nowhere struct{ frames int }

func (n *nowhere) Start(audio.Format) error     { return nil }
func (n *nowhere) Write(frames []float32) error { n.frames += len(frames) / 2; return nil }
func (n *nowhere) Finish() error                { return nil }

// processor returns the processor time that a process has had, user and
// system: on a machine shared with others the clock on the wall says little.
func processor(who int) time.Duration {
	var r syscall.Rusage
	if syscall.Getrusage(who, &r) != nil {
		return 0
	}
	return time.Duration(r.Utime.Nano() + r.Stime.Nano())
}

// The budget: one minute of the full mix at 48 kHz in 150 ms on one core, 400
// times as fast as it sounds. ms/minute is by processor time.
func BenchmarkMinuteOfMix(b *testing.B) {
	for _, c := range bench {
		b.Run(c.name, func(b *testing.B) {
			ex, err := exercise.Build(c.spec)
			if err != nil {
				b.Fatal(err)
			}
			o := minuteOf(b, ex, c.vamp)
			sink := &nowhere{}
			before := processor(syscall.RUSAGE_SELF)
			for b.Loop() {
				if _, err := sound.Render(b.Context(), ex, o, sink); err != nil {
					b.Fatal(err)
				}
			}
			report(b, processor(syscall.RUSAGE_SELF)-before, float64(sink.frames)/48000)
		})
	}
}

// report gives speed by what was rendered and the time it took.
func report(b *testing.B, took time.Duration, seconds float64) {
	b.ReportMetric(took.Seconds()*1e3/seconds*60, "ms/minute")
	b.ReportMetric(seconds/took.Seconds(), "x-real-time")
}

// soundFont is where Debian's fluid-soundfont-gm puts its General MIDI bank.
const soundFont = "/usr/share/sounds/sf2/FluidR3_GM.sf2"

// repeated returns an exercise whose line goes round several times.
func repeated(ex *exercise.Exercise, times int) *exercise.Exercise {
	long := *ex
	bar := ex.Rhythm.Meter.Bar()
	once := (ex.Length + bar - 1) / bar * bar
	for i := 1; i < times; i++ {
		shift := line.Beat(i) * once
		for _, n := range ex.Notes {
			n.Start += shift
			n.Index = len(long.Notes)
			long.Notes = append(long.Notes, n)
		}
		for _, c := range ex.Chords {
			c.Start, c.End = c.Start+shift, c.End+shift
			long.Chords = append(long.Chords, c)
		}
	}
	long.Length = line.Beat(times) * once
	return &long
}

// The same exercises' MIDI files, which hold the line and its chords, as
// fluidsynth renders them to a file of 16 bits, starting up and loading the
// bank included. Compare ms/minute with that of BenchmarkMinuteOfMix.
func BenchmarkFluidsynthMinute(b *testing.B) {
	path, err := exec.LookPath("fluidsynth")
	if err != nil {
		b.Skip("fluidsynth is missing: nothing to compare with")
	}
	if _, err := os.Stat(soundFont); err != nil {
		b.Skip("the General MIDI bank is missing: ", err)
	}
	for _, c := range bench {
		b.Run(c.name, func(b *testing.B) {
			ex, err := exercise.Build(c.spec)
			if err != nil {
				b.Fatal(err)
			}
			var midi bytes.Buffer
			if err := notefile.WriteMIDI(&midi, repeated(ex, minuteOf(b, ex, c.vamp).Loops)); err != nil {
				b.Fatal(err)
			}
			dir := b.TempDir()
			in, out := filepath.Join(dir, "in.mid"), filepath.Join(dir, "out.wav")
			if err := os.WriteFile(in, midi.Bytes(), 0o600); err != nil {
				b.Fatal(err)
			}
			before := processor(syscall.RUSAGE_CHILDREN)
			seconds := 0.0
			for b.Loop() {
				cmd := exec.CommandContext(b.Context(), path, "-ni", "-q", "-r", "48000", "-F", out, soundFont, in)
				if said, err := cmd.CombinedOutput(); err != nil {
					b.Fatalf("%v: %s", err, said)
				}
				file, err := os.Stat(out)
				if err != nil {
					b.Fatal(err)
				}
				seconds += float64(file.Size()) / 4 / 48000
			}
			report(b, processor(syscall.RUSAGE_CHILDREN)-before, seconds)
		})
	}
}
