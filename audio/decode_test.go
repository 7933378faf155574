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
	"path/filepath"
	"strings"
	"testing"

	"heddle/internal/need"
	"heddle/pitch"

	"github.com/mewkiz/flac"
	"github.com/mewkiz/flac/frame"
	"github.com/mewkiz/flac/meta"
)

// noise is seeded noise, darker than white, between −0.5 and 0.5.
func noise(n int, seed uint64) []float32 {
	r := rand.New(rand.NewPCG(seed, 1))
	x, low := make([]float32, n), 0.0
	for i := range x {
		low += 0.3 * (2*r.Float64() - 1 - low)
		x[i] = float32(low)
	}
	return x
}

// plucked is two and a half seconds of six tones that die away.
func plucked(rate int) []float32 {
	x := make([]float32, 5*rate/2)
	for k, hz := range []float64{329.6, 110, 164.8, 440, 220, 261.6} {
		for i := k * 2 * rate / 5; i < len(x); i++ {
			at := float64(i-k*2*rate/5) / float64(rate)
			x[i] += float32(0.15 * math.Exp(-4*at) * (math.Sin(2*math.Pi*hz*at) + 0.5*math.Sin(4*math.Pi*hz*at)))
		}
	}
	return x
}

func allOf(t testing.TB, source *Source) []float32 {
	t.Helper()
	var all []float32
	block := make([]float32, 8192)
	for {
		n, err := source.Read(block)
		all = append(all, block[:n]...)
		if err == io.EOF {
			return all
		}
		must(t, err)
	}
}

func samples(t testing.TB, file []byte) []float32 {
	t.Helper()
	source, err := Decode(bytes.NewReader(file))
	must(t, err)
	return allOf(t, source)
}

// fromSamples is a source of one channel.
func fromSamples(rate int, x []float32) *Source {
	s := &Source{Rate: rate, Channels: 1}
	s.next = func(frames [][2]float32) (int, error) {
		n := min(len(x), len(frames))
		for i := range n {
			frames[i][0] = x[i]
		}
		if x = x[n:]; n == 0 {
			return 0, io.EOF
		}
		return n, nil
	}
	return s
}

func decibels(x []float32) float64 {
	sum := 0.0
	for _, s := range x {
		sum += float64(s) * float64(s)
	}
	return 10 * math.Log10(sum/float64(max(len(x), 1)))
}

// lagBetween is by how many samples y comes later than x, up to 1300.
func lagBetween(x, y []float32) int {
	best, top := 0, 0.0
	const far = 1300
	for lag := -far; lag <= far; lag++ {
		sum := 0.0
		for i := far; i < len(x)-far && i+lag < len(y); i += 2 {
			sum += float64(x[i]) * float64(y[i+lag])
		}
		if sum > top {
			best, top = lag, sum
		}
	}
	return best
}

// testSine is a quarter of full scale at 441 Hz.
func testSine(n, rate int) []float64 {
	x := make([]float64, n)
	for i := range x {
		x[i] = 0.25 * math.Sin(2*math.Pi*441*float64(i)/float64(rate))
	}
	return x
}

// encodeWAV writes a WAV of any format; extensible wraps the tag.
func encodeWAV(x []float64, rate, channels, bits, tag int, extensible bool) []byte {
	le := binary.LittleEndian
	width := (bits + 7) / 8
	var data []byte
	for _, v := range x {
		for range channels {
			switch {
			case tag == wavFloat && bits == 64:
				data = le.AppendUint64(data, math.Float64bits(v))
			case tag == wavFloat:
				data = le.AppendUint32(data, math.Float32bits(float32(v)))
			case bits == 8:
				data = append(data, byte(math.Round(v*127)+128))
			default:
				sample := uint32(int32(math.Round(v * (1<<31 - 1))))
				data = append(data, []byte{byte(sample), byte(sample >> 8), byte(sample >> 16), byte(sample >> 24)}[4-width:]...)
			}
		}
	}
	format := le.AppendUint16(nil, uint16(tag))
	if extensible {
		format = le.AppendUint16(nil, wavExtensible)
	}
	format = le.AppendUint16(format, uint16(channels))
	format = le.AppendUint32(format, uint32(rate))
	format = le.AppendUint32(format, uint32(rate*channels*width))
	format = le.AppendUint16(format, uint16(channels*width))
	format = le.AppendUint16(format, uint16(bits))
	if extensible {
		format = append(format, 22, 0, byte(bits), 0, 3, 0, 0, 0, byte(tag), 0)
		format = append(format, make([]byte, 14)...)
	}
	b := append([]byte("RIFF\x00\x00\x00\x00WAVEnote\x03\x00\x00\x00odd\x00fmt "), le.AppendUint32(nil, uint32(len(format)))...)
	b = append(append(b, format...), "data"...)
	b = le.AppendUint32(b, uint32(len(data)))
	return append(b, data...)
}

func TestWAVOfEveryKindIsRead(t *testing.T) {
	type kind struct {
		bits, tag  int
		extensible bool
		within     float64
	}
	for _, k := range []kind{
		{8, wavPCM, false, 1.0 / 127}, {16, wavPCM, false, 1e-4}, {24, wavPCM, false, 1e-6}, {32, wavPCM, false, 1e-6},
		{20, wavPCM, true, 1e-5}, {16, wavPCM, true, 1e-4}, {32, wavFloat, false, 1e-6}, {64, wavFloat, false, 1e-6}, {32, wavFloat, true, 1e-6},
	} {
		for _, channels := range []int{1, 2} {
			for _, rate := range []int{8000, 44100, 192000} {
				t.Run(fmt.Sprintf("%d bit, format %d, %d channels, %d Hz", k.bits, k.tag, channels, rate), func(t *testing.T) {
					want := testSine(1000, rate)
					got := samples(t, encodeWAV(want, rate, channels, k.bits, k.tag, k.extensible))
					if len(got) != len(want) {
						t.Fatalf("%d samples, want %d", len(got), len(want))
					}
					for i := range want {
						if math.Abs(float64(got[i])-want[i]) > k.within {
							t.Fatalf("sample %d is %v, want %v", i, got[i], want[i])
						}
					}
				})
			}
		}
	}
}

func TestFLACIsRead(t *testing.T) {
	x := testSine(5000, 44100)
	var file bytes.Buffer
	enc, err := flac.NewEncoder(&file, &meta.StreamInfo{BlockSizeMin: 1000, BlockSizeMax: 1000, SampleRate: 44100, NChannels: 1, BitsPerSample: 16, NSamples: 5000})
	if err != nil {
		t.Fatal(err)
	}
	for at := 0; at < len(x); at += 1000 {
		block := make([]int32, 1000)
		for i := range block {
			block[i] = int32(math.Round(x[at+i] * 32767))
		}
		f := &frame.Frame{
			Header:    frame.Header{BlockSize: 1000, SampleRate: 44100, Channels: frame.ChannelsMono, BitsPerSample: 16},
			Subframes: []*frame.Subframe{{SubHeader: frame.SubHeader{Pred: frame.PredVerbatim}, Samples: block, NSamples: 1000}},
		}
		if err := enc.WriteFrame(f); err != nil {
			t.Fatal(err)
		}
	}
	if err := enc.Close(); err != nil {
		t.Fatal(err)
	}
	got := samples(t, file.Bytes())
	if len(got) != len(x) {
		t.Fatalf("%d samples, want %d", len(got), len(x))
	}
	for i := range x {
		if math.Abs(float64(got[i])-x[i]) > 1e-4 {
			t.Fatalf("sample %d is %v, want %v", i, got[i], x[i])
		}
	}
	if err := readAll(file.Bytes()[:file.Len()-1500]); err == nil || !strings.Contains(err.Error(), "breaks off") {
		t.Errorf("a truncated FLAC gives %v", err)
	}
}

// The MP3 encoder is ffmpeg's. Its delay is taken off again: nothing comes
// late, in mono or stereo, at the rates of MPEG 1 and 2.
func TestMP3IsReadInTime(t *testing.T) {
	hiss := noise(88200, 5)
	wide := make([]float64, len(hiss))
	for i, s := range hiss {
		wide[i] = float64(s)
	}
	for _, c := range []struct {
		rate, channels int
		bits           string
	}{{44100, 2, "192k"}, {22050, 1, "64k"}, {44100, 1, "64k"}, {48000, 2, "128k"}, {24000, 2, "96k"}} {
		if (c.rate == 48000 || c.rate == 24000) && !need.All() {
			continue
		}
		t.Run(fmt.Sprintf("%d Hz, %d channels", c.rate, c.channels), func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "take.mp3")
			ffmpeg(t, encodeWAV(wide, c.rate, c.channels, 16, wavPCM, false), "-i", "-", "-b:a", c.bits, "-metadata", "title=take", path)
			file, err := os.ReadFile(path)
			must(t, err)
			got := samples(t, file)
			if more := len(got) - len(hiss); more < 0 || more > 3*1152 {
				t.Errorf("%d samples, want %d and at most some silence", len(got), len(hiss))
			}
			if lag := lagBetween(hiss[:22050], got); lag != 0 {
				t.Errorf("the sound comes %d samples late", lag)
			}
			if err := readAll(file[:2*len(file)/3]); err == nil || !strings.Contains(err.Error(), "MP3 that breaks off after") {
				t.Errorf("a truncated MP3 gives %v", err)
			}
			tagged := append(bytes.Clone(file), "APETAGEX and what else a program may put behind the sound"...)
			if more := len(samples(t, tagged)) - len(got); more != 0 {
				t.Errorf("what lies behind the sound adds %d samples", more)
			}
			if level, want := decibels(got[10000:70000]), decibels(hiss[10000:70000]); math.Abs(level-want) > 1 {
				t.Errorf("level is %.1f dB, want %.1f", level, want)
			}
		})
	}
}

// What is heard of an MP3 is what ffmpeg decodes, at the rates and bit rates of
// MPEG 1 and 2, in mono and stereo, by constant and changing bit rates.
func TestMP3SoundsAsFFmpegDecodesIt(t *testing.T) {
	need.Long(t, "a hundred files are coded")
	low := strings.Fields("8k 16k 24k 32k 40k 48k 56k 64k 80k 96k 112k 128k 144k 160k q4")
	high := strings.Fields("32k 40k 48k 56k 64k 80k 96k 112k 128k 160k 192k 224k 256k 320k q4")
	every := map[int][]string{22050: low, 24000: low, 44100: high, 16000: low[12:], 32000: high[12:], 48000: high[12:]}
	for rate, ways := range every {
		line, hiss := plucked(rate), noise(5*rate/2, 6)
		for _, way := range ways {
			for channels := 1; channels <= 2; channels++ {
				wide := make([]float64, len(line))
				for i := range wide {
					wide[i] = 0.8*float64(line[i]) + 0.02*float64(hiss[i])
				}
				path := filepath.Join(t.TempDir(), "take.mp3")
				how := []string{"-b:a", way}
				if way[0] == 'q' {
					how = []string{"-q:a", way[1:]}
				}
				ffmpeg(t, encodeWAV(wide, rate, channels, 16, wavPCM, false), append(append([]string{"-i", "-"}, how...), path)...)
				file, err := os.ReadFile(path)
				must(t, err)
				theirs, _ := ffmpeg(t, file, "-i", "-", "-c:a", "pcm_f32le", "-f", "wav", "-")
				want := samples(t, theirs)
				got := samples(t, file)
				n := min(len(got), len(want))
				off := make([]float32, n)
				for i := range off {
					off[i] = got[i] - want[i]
				}
				if under := decibels(want[:n]) - decibels(off); under < 25 || n < len(line) {
					t.Errorf("%d Hz, %s, %d channels: %d samples, the difference %.1f dB below the sound", rate, way, channels, n, under)
				}
			}
		}
	}
}

func readAll(file []byte) error {
	return drain(Decode(bytes.NewReader(file)))
}

// drain reads a source that was just opened to its end.
func drain(src *Source, err error) error {
	if err != nil {
		return err
	}
	buf := make([]float32, 1000)
	for {
		if _, err := src.Read(buf); err == io.EOF {
			return nil
		} else if err != nil {
			return err
		}
	}
}

func TestRecordingsThatCannotBeTakenAreNamed(t *testing.T) {
	whole := encodeWAV(testSine(44100, 44100), 44100, 1, 16, wavPCM, false)
	rated := func(rate, channels, bits, tag int) []byte {
		return encodeWAV(testSine(100, 44100), rate, channels, bits, tag, false)
	}
	long := bytes.Clone(rated(8000, 1, 8, wavPCM))
	binary.LittleEndian.PutUint32(long[len(long)-104:], 8000*601)
	for _, c := range []struct {
		name string
		file []byte
		want string
	}{
		{"empty", nil, `recording "an empty file"`},
		{"text", []byte("this is not a sound"), `"an unknown kind of file"`},
		{"picture", []byte("\x89PNG\r\n\x1a\n0000000000"), `"a picture"`},
		{"browser's own format", []byte("\x1aE\xdf\xa3000000000000"), `"a WebM or Matroska file"`},
		{"MIDI", []byte("MThd\x00\x00\x00\x06000000"), `"a MIDI file"`},
		{"breaks off", whole[:len(whole)-44100], `"WAV, 16 bit that breaks off after 0.5 s"`},
		{"breaks off in the header", whole[:30], `breaks off after 0.0 s`},
		{"three channels", rated(44100, 3, 16, wavPCM), "one or two channels"},
		{"too slow a rate", rated(4000, 1, 16, wavPCM), "8000 to 192000 Hz"},
		{"too fast a rate", rated(384000, 1, 16, wavPCM), "8000 to 192000 Hz"},
		{"A-law", rated(8000, 1, 8, 6), "PCM of 8 to 32 bit"},
		{"too long", long, "at most ten minutes"},
		{"no FLAC after all", []byte("fLaC00000000000000000000"), "a FLAC file that can't be read"},
		{"no MP3 after all", append([]byte("ID3\x04\x00\x00\x00\x00\x00\x00"), make([]byte, 100)...), "an MP3 file that can't be read"},
	} {
		t.Run(c.name, func(t *testing.T) {
			err := readAll(c.file)
			var input *pitch.InputError
			if !errors.As(err, &input) || !strings.Contains(err.Error(), c.want) || strings.Contains(err.Error(), "\n") {
				t.Errorf("got %v, want one line with %s", err, c.want)
			}
		})
	}
}

// A recorder that is stopped by pulling the plug leaves the length unset.
func TestOpenEndedWAVIsReadToItsEnd(t *testing.T) {
	file := encodeWAV(testSine(1000, 44100), 44100, 1, 16, wavPCM, false)
	binary.LittleEndian.PutUint32(file[len(file)-2004:], wavOpenEnded)
	if got := samples(t, file); len(got) != 1000 {
		t.Errorf("%d samples, want 1000", len(got))
	}
}

// A microphone lead wired the wrong way round on one side must not silence
// the guitar.
func TestReversedChannelIsNotCancelled(t *testing.T) {
	x := testSine(44100, 44100)
	file := encodeWAV(x, 44100, 2, 16, wavPCM, false)
	data := file[len(file)-4*len(x):]
	for i := range x {
		right := int16(binary.LittleEndian.Uint16(data[4*i+2:]))
		binary.LittleEndian.PutUint16(data[4*i+2:], uint16(-right))
	}
	got := samples(t, file)
	if level := decibels(got[22050:]); level < -20 {
		t.Errorf("level is %.0f dB", level)
	}
}

// What phones and browsers record is read through ffmpeg, in time and at its
// length, where the caller allows that; a file that breaks off or that isn't
// one is refused in one line.
func TestRecordingsOfPhonesAndBrowsersAreReadThroughFFmpeg(t *testing.T) {
	hiss := noise(288000, 5) // more than ffmpeg reads ahead
	wide := make([]float64, len(hiss))
	for i, s := range hiss {
		wide[i] = float64(s)
	}
	wav := encodeWAV(wide, 48000, 1, 16, wavPCM, false)
	for _, c := range []struct{ name, codec, kind string }{
		{"take.m4a", "aac", "an MP4 or M4A file"}, {"take.opus", "libopus", "an Ogg file"},
		{"take.ogg", "libvorbis", "an Ogg file"}, {"take.webm", "libopus", "a WebM or Matroska file"},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), c.name)
			ffmpeg(t, wav, "-i", "-", "-c:a", c.codec, "-b:a", "128k", path)
			file, err := os.ReadFile(path)
			must(t, err)
			if _, err := Decode(bytes.NewReader(file)); err == nil || !strings.Contains(err.Error(), c.kind) {
				t.Errorf("without leave for ffmpeg: %v", err)
			}
			var in io.Reader = bytes.NewReader(file)
			if c.name == "take.m4a" { // its index is at its end
				if err := drain(DecodeAny(t.Context(), in)); err == nil || !strings.Contains(err.Error(), "the name of a file") {
					t.Errorf("from a pipe: %v", err)
				}
				onDisk, err := os.Open(path)
				must(t, err)
				defer onDisk.Close()
				in = onDisk
			}
			source, err := DecodeAny(t.Context(), in)
			must(t, err)
			got := allOf(t, source)
			if more := len(got) - len(hiss); source.Rate != 48000 || source.Channels != 1 || more < 0 || more > 2048 {
				t.Fatalf("%d samples of %d at %d Hz in %d channels", len(got), len(hiss), source.Rate, source.Channels)
			}
			if lag := lagBetween(hiss[:22050], got); lag != 0 {
				t.Errorf("the sound comes %d samples late", lag)
			}
			broken := append(bytes.Clone(file[:12]), noiseBytes(5000)...)
			var input *pitch.InputError
			if err := drain(DecodeAny(t.Context(), bytes.NewReader(broken))); !errors.As(err, &input) || strings.Contains(err.Error(), "\n") {
				t.Errorf("a broken file: %v", err)
			}
			ctx, cancel := context.WithCancel(t.Context())
			cancel()
			if _, err := DecodeAny(ctx, bytes.NewReader(file)); !errors.Is(err, context.Canceled) {
				t.Errorf("once the context is done: %v", err)
			}
			t.Setenv("PATH", "")
			if _, err := DecodeAny(t.Context(), bytes.NewReader(file)); !errors.As(err, &input) || !strings.Contains(err.Error(), "needs ffmpeg") {
				t.Errorf("without ffmpeg: %v", err)
			}
			if _, err := NewMP3(t.Context(), io.Discard, Tags{}); !errors.Is(err, ErrNoFFmpeg) {
				t.Errorf("an MP3 without ffmpeg: %v", err)
			}
		})
	}
}

func noiseBytes(n int) []byte {
	r, b := rand.New(rand.NewPCG(3, 1)), make([]byte, n)
	for i := range b {
		b[i] = byte(r.Uint32())
	}
	return b
}

func FuzzDecode(f *testing.F) {
	f.Add(encodeWAV(testSine(50, 8000), 8000, 2, 24, wavPCM, true))
	f.Add(encodeWAV(testSine(50, 8000), 8000, 1, 32, wavFloat, false))
	f.Add([]byte("fLaC\x00\x00\x00\x22\x10\x00\x10\x00\x00\x00\x00\x00\x00\x00\x0a\xc4\x40\xf0\x00\x00\x00\x00"))
	f.Add([]byte("ID3\x04\x00\x00\x00\x00\x00\x00\xff\xfb\x90\x64"))
	f.Fuzz(func(t *testing.T, file []byte) {
		err := readAll(file)
		if err != nil && strings.Contains(err.Error(), "\n") {
			t.Errorf("the error has several lines: %v", err)
		}
	})
}
