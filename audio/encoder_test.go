package audio

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"heddle/internal/need"
)

// music is two seconds that are hard on encoders: tones, noise, silence, full
// scale.
func music(rate int) []float32 {
	r := rand.New(rand.NewPCG(7, 1))
	s := make([]float32, 2*2*rate)
	for i := range len(s) / 2 {
		x := float64(i) / float64(rate)
		env := math.Exp(-2 * x)
		s[2*i] = float32(0.6*env*math.Sin(2*math.Pi*440*x) + 0.2*env*math.Sin(2*math.Pi*1730*x))
		s[2*i+1] = s[2*i]*0.7 + 0.02*float32(2*r.Float64()-1)
		if i > rate*9/10 && i < rate {
			s[2*i], s[2*i+1] = 0, 0
		}
		if i == rate*3/2 {
			s[2*i], s[2*i+1] = 1, -1
		}
	}
	return s
}

// write puts frames through a sink in uneven pieces.
func write(t testing.TB, s Sink, f Format, frames []float32) {
	t.Helper()
	must(t, s.Start(f))
	n := f.channels()
	for size := n; len(frames) > 0; size = min(2*size+3*n, 2500*n) {
		size := min(size, len(frames))
		must(t, s.Write(frames[:size]))
		frames = frames[size:]
	}
	must(t, s.Finish())
	if c, ok := s.(io.Closer); ok {
		must(t, c.Close())
	}
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// ffmpeg runs ffmpeg and returns what it wrote and what it said.
func ffmpeg(t testing.TB, in []byte, args ...string) (out []byte, said string) {
	t.Helper()
	program := need.Program(t, "no second program to compare with", "ffmpeg")
	var written, remarks bytes.Buffer
	cmd := exec.CommandContext(t.Context(), program, append([]string{"-nostats", "-hide_banner"}, args...)...)
	cmd.Stdin, cmd.Stdout, cmd.Stderr = bytes.NewReader(in), &written, &remarks
	if err := cmd.Run(); err != nil {
		t.Fatalf("%v: %s", err, remarks.String())
	}
	return written.Bytes(), remarks.String()
}

// decoded has ffmpeg decode a file and returns its samples, channels side by
// side, and what ffmpeg says about the file.
func decoded(t testing.TB, file []byte, name string) (samples []float64, said string) {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	must(t, os.WriteFile(path, file, 0o600))
	out, remarks := ffmpeg(t, nil, "-i", path, "-f", "f64le", "-acodec", "pcm_f64le", "-")
	samples = make([]float64, len(out)/8)
	for i := range samples {
		samples[i] = math.Float64frombits(binary.LittleEndian.Uint64(out[8*i:]))
	}
	return samples, remarks
}

// An encoding is one of the encoders that the suite checks.
type encoding struct {
	name string
	make func(io.Writer, Tags) (Sink, error)
	loss float64 // largest error of a sample; −1 for a lossy codec, which is held to its noise
	full float64 // highest sample that the format holds
	tag  string
}

func encodings(t testing.TB) []encoding {
	wav := func(d Depth) func(io.Writer, Tags) (Sink, error) {
		return func(w io.Writer, tags Tags) (Sink, error) { return NewWAV(w, d, tags) }
	}
	flac := func(d Depth) func(io.Writer, Tags) (Sink, error) {
		return func(w io.Writer, tags Tags) (Sink, error) { return NewFLAC(w, d, tags) }
	}
	return []encoding{
		{"16.wav", wav(Bits16), 1.6 / (1 << 15), 1 - 1.0/(1<<15), "tempo 84"},
		{"24.wav", wav(Bits24), 0.51 / (1 << 23), 1 - 1.0/(1<<23), "tempo 84"},
		{"float.wav", wav(Float32), 0, 1, "tempo 84"},
		{"16.flac", flac(Bits16), 1.6 / (1 << 15), 1 - 1.0/(1<<15), "84"},
		{"24.flac", flac(Bits24), 0.51 / (1 << 23), 1 - 1.0/(1<<23), "84"},
		{"96.opus", NewOpus, -1, 1, "84"},
		{"192.mp3", func(w io.Writer, tags Tags) (Sink, error) { return NewMP3(t.Context(), w, tags) }, -1, 1, "84"},
		{"192.m4a", func(w io.Writer, tags Tags) (Sink, error) { return NewM4A(t.Context(), w, tags) }, -1, 1, ""},
	}
}

// Every encoder runs this suite: another program decodes what went in, within
// the format's loss, sample for sample in place, and reads the tags. At 48 kHz
// a lossy codec must also keep the length to the sample.
func TestAnotherProgramDecodesWhatWasWritten(t *testing.T) {
	need.Program(t, "no second program to compare with", "ffmpeg")
	tags := Tags{Title: "Gm7 · weave ♭ & threes", Tempo: 84}
	for _, c := range encodings(t) {
		for _, f := range []Format{{SampleRate: 48000}, {SampleRate: 44100}, {SampleRate: 24000}, {SampleRate: 48000, Channels: 1}} {
			if (f.SampleRate == 24000 || f.channels() == 1) && c.name != "24.flac" && !need.All() {
				continue
			}
			t.Run(fmt.Sprintf("%s at %d in %d", c.name, f.SampleRate, f.channels()), func(t *testing.T) {
				in := music(f.SampleRate)
				if f.channels() == 1 {
					in = in[:len(in)/2+1]
				}
				f.Frames = int64(len(in) / f.channels())
				var file bytes.Buffer
				sink, err := c.make(&file, tags)
				must(t, err)
				write(t, sink, f, in)
				out, said := decoded(t, file.Bytes(), c.name)
				compare(t, c, f, in, out, file.Len())
				said = strings.ToLower(said)
				if !strings.Contains(said, ": "+strings.ToLower(tags.Title)) || c.tag != "" && !strings.Contains(said, ": "+c.tag) {
					t.Errorf("tags read %s, want title %q and tempo %q", said, tags.Title, c.tag)
				}
			})
		}
	}
}

// compare holds what came back to what went in.
func compare(t *testing.T, c encoding, f Format, in []float32, out []float64, size int) {
	t.Helper()
	if c.name == "96.opus" && f.SampleRate != 48000 { // comes back at 48 kHz
		rs := NewResampler(f.SampleRate, opusRate)
		left := make([]float32, len(in)/2)
		for i := range left {
			left[i] = in[2*i]
		}
		left = rs.Flush(rs.Feed(nil, left))
		in = make([]float32, min(len(out)&^1, 2*len(left)))
		for i := range in {
			in[i] = left[i/2]
		}
		for i := 1; i < len(out); i += 2 {
			out[i] = out[i-1]
		}
	}
	if more := len(out) - len(in); more < 0 || more > 0 && (c.loss >= 0 || c.name == "96.opus") {
		t.Fatalf("%d samples came back of %d", len(out), len(in))
	}
	worst, noise, signal := 0.0, 0.0, 0.0
	for i, x := range in {
		e := out[i] - min(float64(x), c.full)
		worst = max(worst, math.Abs(e))
		noise += e * e
		signal += float64(x) * float64(x)
	}
	snr := 10 * math.Log10(signal/noise)
	switch {
	case c.loss >= 0 && worst > c.loss:
		t.Errorf("a sample is off by %g, want at most %g", worst, c.loss)
	case c.loss < 0 && snr < 12:
		t.Errorf("the codec's noise lies %.1f dB below the sound, want 12", snr)
	case c.loss < 0:
		t.Logf("the codec's noise lies %.1f dB below the sound, %d kB", snr, size/1000)
	}
}

func TestTheSameSoundGivesTheSameBytes(t *testing.T) {
	for _, c := range encodings(t)[:6] {
		var one, two bytes.Buffer
		for _, file := range []*bytes.Buffer{&one, &two} {
			sink, err := c.make(file, Tags{Title: "vamp", Tempo: 96})
			must(t, err)
			write(t, sink, Format{SampleRate: 44100, Frames: 88200}, music(44100))
		}
		if !bytes.Equal(one.Bytes(), two.Bytes()) {
			t.Errorf("%s: two files differ", c.name)
		}
	}
}

func TestASinkHoldsTheLengthItWasTold(t *testing.T) {
	for _, c := range encodings(t)[:6] {
		for _, told := range []int64{99, 101} {
			sink, err := c.make(io.Discard, Tags{})
			must(t, err)
			must(t, sink.Start(Format{SampleRate: 48000, Frames: told}))
			must(t, sink.Write(make([]float32, 200)))
			if err := sink.Finish(); !errors.Is(err, errLength) {
				t.Errorf("%s: 100 frames of %d: %v", c.name, told, err)
			}
		}
	}
}

// A file that goes through ffmpeg appears whole or not at all, and nothing is
// left behind.
func TestAnInterruptedMP3WritesNothing(t *testing.T) {
	need.Program(t, "MP3 goes through it", "ffmpeg")
	t.Setenv("TMPDIR", t.TempDir())
	ctx, cancel := context.WithCancel(t.Context())
	var file bytes.Buffer
	sink, err := NewMP3(ctx, &file, Tags{})
	must(t, err)
	must(t, sink.Start(Format{SampleRate: 48000, Frames: 96000}))
	must(t, sink.Write(make([]float32, 96000)))
	cancel()
	err = sink.Write(make([]float32, 96000))
	if err == nil {
		err = sink.Finish()
	}
	if !errors.Is(err, context.Canceled) || file.Len() > 0 {
		t.Errorf("interrupted, it says %v and wrote %d bytes", err, file.Len())
	}
	must(t, sink.(io.Closer).Close())
	if left, _ := os.ReadDir(os.TempDir()); len(left) > 0 {
		t.Errorf("%s is left behind", left[0])
	}
}

func TestEncodersRefuseWhatTheirFormatsCannotHold(t *testing.T) {
	if _, err := NewWAV(nil, 8, Tags{}); err == nil {
		t.Error("a WAV of 8 bits was begun")
	}
	if _, err := NewFLAC(nil, Float32, Tags{}); err == nil {
		t.Error("a FLAC of floats was begun")
	}
	wav, err := NewWAV(nil, Float32, Tags{})
	must(t, err)
	if err := wav.Start(Format{SampleRate: 48000, Frames: 1 << 30}); !errors.Is(err, errTooLong) {
		t.Errorf("a WAV of 8 GiB: %v", err)
	}
}

// A recording whose length wasn't known is whole all the same, and keeps every
// one of its 16 bits.
func TestARecordingOfUnknownLengthIsKeptBitForBit(t *testing.T) {
	want := make([]float32, 10001)
	for i := range want {
		want[i] = float32(math.Round(30000*math.Sin(float64(i)/9))) / (1 << 15)
	}
	path := filepath.Join(t.TempDir(), "take.flac")
	file, err := os.Create(path)
	must(t, err)
	sink, err := NewFLAC(file, Bits16, Tags{})
	must(t, err)
	n, err := Copy(sink, fromSamples(11025, want))
	must(t, err)
	must(t, file.Close())
	raw, err := os.ReadFile(path)
	must(t, err)
	source, err := Decode(bytes.NewReader(raw))
	must(t, err)
	got := allOf(t, source)
	if n != 10001 || source.Rate != 11025 || math.Abs(source.LengthS-10001.0/11025) > 1e-9 || len(got) != len(want) {
		t.Fatalf("%d samples copied, %d came back at %d Hz, %g s", n, len(got), source.Rate, source.LengthS)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Fatalf("sample %d is %v, want %v", i, got[i], want[i])
		}
	}
	if out, _ := decoded(t, raw, "take.flac"); len(out) != len(want) {
		t.Errorf("another program reads %d samples of %d", len(out), len(want))
	}
}

func BenchmarkEncodeMinute(b *testing.B) {
	frames := make([]float32, 0, 2*60*48000)
	for len(frames) < cap(frames) {
		frames = append(frames, music(48000)...)
	}
	for _, c := range encodings(b) {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				s, err := c.make(io.Discard, Tags{})
				must(b, err)
				write(b, s, Format{SampleRate: 48000, Frames: 60 * 48000}, frames)
			}
		})
	}
}
