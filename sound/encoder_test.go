package sound

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// music is two seconds that are hard on encoders: tones, noise, silence, full
// scale.
func music(rate int) []float32 {
	d := dice(7)
	s := make([]float32, 2*2*rate)
	for i := range len(s) / 2 {
		x := float64(i) / float64(rate)
		env := math.Exp(-2 * x)
		s[2*i] = float32(0.6*env*math.Sin(2*math.Pi*440*x) + 0.2*env*math.Sin(2*math.Pi*1730*x))
		s[2*i+1] = s[2*i]*0.7 + 0.02*d.noise()
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
func write(t testing.TB, s Sink, rate int, frames []float32) {
	t.Helper()
	must(t, s.Start(Format{SampleRate: rate, Frames: int64(len(frames) / 2)}))
	for size := 2; len(frames) > 0; size = min(2*size+6, 5000) {
		n := min(size, len(frames))
		must(t, s.Write(frames[:n]))
		frames = frames[n:]
	}
	must(t, s.Finish())
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// decoded runs a file through ffmpeg and returns its interleaved samples and
// what ffmpeg says of the file.
func decoded(t *testing.T, file []byte, name string) (samples []float64, said string) {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	must(t, os.WriteFile(path, file, 0o600))
	out, remarks := ffmpeg(t, "-i", path, "-f", "f64le", "-acodec", "pcm_f64le", "-")
	samples = make([]float64, len(out)/8)
	for i := range samples {
		samples[i] = math.Float64frombits(binary.LittleEndian.Uint64(out[8*i:]))
	}
	return samples, remarks
}

// ffmpeg runs ffmpeg and returns what it wrote and what it said; it skips
// where there is none.
func ffmpeg(t *testing.T, args ...string) (out []byte, said string) {
	t.Helper()
	path, err := exec.LookPath("ffmpeg")
	if err != nil {
		t.Skip("ffmpeg is missing: no second program to compare with")
	}
	var written, remarks bytes.Buffer
	cmd := exec.CommandContext(t.Context(), path, append([]string{"-nostats", "-hide_banner"}, args...)...)
	cmd.Stdout, cmd.Stderr = &written, &remarks
	if err := cmd.Run(); err != nil {
		t.Fatalf("%v: %s", err, remarks.String())
	}
	return written.Bytes(), remarks.String()
}

// Every encoder runs this suite: what another program decodes is what went in,
// within the format's loss, sample for sample in place, and it reads the tags.
func TestAnotherProgramDecodesWhatWasWritten(t *testing.T) {
	tags := Tags{Title: "Gm7 · weave ♭ & threes", Tempo: 84}
	for _, c := range []struct {
		name string
		make func(io.Writer) (Sink, error)
		loss float64 // largest error of a sample; −1 where it is judged by the noise
		full float64 // highest sample the format can hold
		tag  string
	}{
		{"16.wav", func(w io.Writer) (Sink, error) { return NewWAV(w, Bits16, tags) }, 1.6 / (1 << 15), 1 - 1.0/(1<<15), "tempo 84"},
		{"24.wav", func(w io.Writer) (Sink, error) { return NewWAV(w, Bits24, tags) }, 0.51 / (1 << 23), 1 - 1.0/(1<<23), "tempo 84"},
		{"float.wav", func(w io.Writer) (Sink, error) { return NewWAV(w, Float32, tags) }, 0, 1, "tempo 84"},
		{"16.flac", func(w io.Writer) (Sink, error) { return NewFLAC(w, Bits16, tags) }, 1.6 / (1 << 15), 1 - 1.0/(1<<15), "84"},
		{"24.flac", func(w io.Writer) (Sink, error) { return NewFLAC(w, Bits24, tags) }, 0.51 / (1 << 23), 1 - 1.0/(1<<23), "84"},
		{"192.mp3", func(w io.Writer) (Sink, error) { return NewMP3(w, tags) }, -1, 1, "84"},
	} {
		for _, rate := range []int{44100, 24000} {
			t.Run(fmt.Sprintf("%s at %d", c.name, rate), func(t *testing.T) {
				in := music(rate)
				var file bytes.Buffer
				sink, err := c.make(&file)
				must(t, err)
				write(t, sink, rate, in)
				out, said := decoded(t, file.Bytes(), c.name)
				if len(out) != len(in) {
					t.Fatalf("%d samples came back of %d", len(out), len(in))
				}
				worst, noise, signal := 0.0, 0.0, 0.0
				for i, x := range in {
					e := out[i] - min(float64(x), c.full)
					worst = max(worst, math.Abs(e))
					noise += e * e
					signal += float64(x) * float64(x)
				}
				if c.loss >= 0 && worst > c.loss {
					t.Errorf("a sample is off by %g, want at most %g", worst, c.loss)
				}
				if snr := 10 * math.Log10(signal/noise); c.loss < 0 && snr < 20 {
					t.Errorf("the codec's noise lies %.1f dB below the sound, want 20", snr)
				} else if c.loss < 0 {
					t.Logf("the codec's noise lies %.1f dB below the sound, %d kB", snr, file.Len()/1000)
				}
				if said = strings.ToLower(said); !strings.Contains(said, ": "+strings.ToLower(tags.Title)) || !strings.Contains(said, ": "+c.tag) {
					t.Errorf("tags read %s, want title %q and tempo %q", said, tags.Title, c.tag)
				}
			})
		}
	}
}

func TestFLACIsSmallerThanWAV(t *testing.T) {
	var wav, flac bytes.Buffer
	w, err := NewWAV(&wav, Bits16, Tags{})
	must(t, err)
	f, err := NewFLAC(&flac, Bits16, Tags{})
	must(t, err)
	o := DefaultOptions()
	_, err = Render(t.Context(), gMinorVamp(t), o, w)
	must(t, err)
	_, err = Render(t.Context(), gMinorVamp(t), o, f)
	must(t, err)
	if share := float64(flac.Len()) / float64(wav.Len()); share > 0.7 {
		t.Errorf("FLAC takes %.0f %% of WAV, want at most 70 %%", 100*share)
	} else {
		t.Logf("FLAC takes %.0f %% of WAV", 100*share)
	}
}

func BenchmarkEncodeMinute(b *testing.B) {
	frames := make([]float32, 0, 2*60*48000)
	for len(frames) < cap(frames) {
		frames = append(frames, music(48000)...)
	}
	for _, c := range []struct {
		name string
		make func(io.Writer) (Sink, error)
	}{
		{"wav", func(w io.Writer) (Sink, error) { return NewWAV(w, Bits16, Tags{}) }},
		{"flac", func(w io.Writer) (Sink, error) { return NewFLAC(w, Bits16, Tags{}) }},
		{"mp3", func(w io.Writer) (Sink, error) { return NewMP3(w, Tags{}) }},
	} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				s, err := c.make(io.Discard)
				must(b, err)
				write(b, s, 48000, frames)
			}
		})
	}
}
