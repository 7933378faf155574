// Command record makes the recorded strokes of package drumkit from FluidR3
// (MIT licence, see strokes/strokes-LICENSE.txt): fluidsynth plays each dry, its start is
// cut to the sample, its highest peaks are rounded off, as tape does, and ffmpeg
// writes it as FLAC with one channel.
//
//	go run ./sound/drumkit/internal/record
package main

import (
	"bytes"
	"fmt"
	"log"
	"math"
	"os"
	"os/exec"
	"path/filepath"

	"heddle/audio"
	"heddle/sound/dsp"
)

// fluidFont is where Debian's fluid-soundfont-gm puts its bank.
const fluidFont = "/usr/share/sounds/sf2/FluidR3_GM.sf2"

// A stroke is one recording: a key of a General MIDI drum set.
type stroke struct {
	name     string
	set, key byte
	velocity byte
	longestS float64
	room     float64 // of its peaks, in dB, that are rounded off
}

// The sets are the standard one (0), the jazz one (32) and brushes (40).
var strokes = []stroke{
	{"kick", 0, 36, 120, 0.5, 8},
	{"soft-kick", 32, 36, 90, 0.5, 7},
	{"snare", 0, 38, 120, 0.5, 8},
	{"ghost", 0, 40, 45, 0.3, 6},
	{"cross-stick", 0, 37, 110, 0.5, 4},
	{"brush-tap", 40, 38, 110, 0.4, 4},
	{"brush-sweep", 40, 40, 110, 0.7, 2},
	{"hat-closed", 0, 42, 110, 0.3, 3},
	{"hat-open", 0, 46, 110, 1.1, 3},
	{"hat-pedal", 0, 44, 100, 0.3, 3},
	{"ride", 0, 51, 110, 1.1, 3},
	{"ride-bell", 0, 53, 110, 1.4, 3},
	{"crash", 0, 49, 110, 2.6, 3},
	{"tom-high", 0, 48, 115, 0.8, 4},
	{"tom-middle", 0, 45, 115, 0.9, 4},
	{"tom-low", 0, 41, 115, 0.9, 4},
	{"shaker", 0, 82, 100, 0.3, 3},
}

func main() {
	log.SetFlags(0)
	for _, s := range strokes {
		if err := s.record("sound/drumkit/strokes"); err != nil {
			log.Fatalf("%s: %v", s.name, err)
		}
	}
}

// record makes one stroke's file.
func (s stroke) record(folder string) error {
	dir, err := os.MkdirTemp("", "heddle")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	mid, wav, raw := filepath.Join(dir, "stroke.mid"), filepath.Join(dir, "stroke.wav"), filepath.Join(dir, "stroke.f32")
	if err := os.WriteFile(mid, s.midi(), 0o600); err != nil {
		return err
	}
	if err := command("fluidsynth", "-ni", "-q", "-g", "1", "-r", "48000", "-R", "0", "-C", "0", "-T", "wav", "-O", "float", "-F", wav, fluidFont, mid); err != nil {
		return err
	}
	file, err := os.ReadFile(wav)
	if err != nil {
		return err
	}
	x, _, err := audio.Samples(file, 0)
	if err != nil {
		return err
	}
	var out bytes.Buffer
	for _, v := range s.shaped(x) {
		bits := math.Float32bits(v)
		out.Write([]byte{byte(bits), byte(bits >> 8), byte(bits >> 16), byte(bits >> 24)})
	}
	if err := os.WriteFile(raw, out.Bytes(), 0o600); err != nil {
		return err
	}
	return command("ffmpeg", "-v", "error", "-y", "-f", "f32le", "-ar", "48000", "-ac", "1", "-i", raw,
		"-sample_fmt", "s16", "-compression_level", "12", "-map_metadata", "-1", "-fflags", "+bitexact", "-flags:a", "+bitexact", filepath.Join(folder, s.name+".flac"))
}

// midi returns a Standard MIDI File with the one stroke.
func (s stroke) midi() []byte {
	track := []byte{0, 0xc9, s.set, 0, 0x99, s.key, s.velocity, 0xa0, 0, 0x89, s.key, 0, 0, 0xff, 0x2f, 0}
	return append([]byte{'M', 'T', 'h', 'd', 0, 0, 0, 6, 0, 0, 0, 1, 1, 0xe0, 'M', 'T', 'r', 'k', 0, 0, 0, byte(len(track))}, track...)
}

// shaped cuts a stroke to its length, rounds off its peaks and brings it to
// full scale.
func (s stroke) shaped(x []float32) []float32 {
	top := highest(x)
	begin, end := 0, len(x)
	for begin < len(x) && math.Abs(float64(x[begin])) < 0.003*top {
		begin++
	}
	for end > begin && math.Abs(float64(x[end-1])) < 0.001*top {
		end--
	}
	x = x[begin:min(end, begin+int(s.longestS*48000))]
	round := math.Pow(10, s.room/20)
	for i, v := range x {
		x[i] = float32(math.Tanh(float64(v) / top * round))
	}
	dsp.HighPass(28, 0.7, 48000).Filter(x)
	takeDC(x)
	top = highest(x)
	tail := len(x) / 4
	for i := range x {
		x[i] *= float32(0.97 / top)
		if left := len(x) - 1 - i; left < tail {
			x[i] *= float32(left) / float32(tail)
		}
		if i < 8 {
			x[i] *= float32(i) / 8
		}
	}
	return x
}

// takeDC takes away direct current along a smooth hump, so that the stroke still
// begins and ends at nothing.
func takeDC(x []float32) {
	sum := 0.0
	for i, v := range x {
		fall := min(1, float64(len(x)-1-i)/float64(len(x)/4)) // the fade that follows
		sum += float64(v) * fall
	}
	hump := 2 * sum / float64(len(x)/2)
	for i := range len(x) / 2 {
		x[i] -= float32(hump * (0.5 - 0.5*math.Cos(2*math.Pi*float64(i)/float64(len(x)/2))))
	}
}

func highest(x []float32) (top float64) {
	for _, v := range x {
		top = max(top, math.Abs(float64(v)))
	}
	return top
}

func command(name string, args ...string) error {
	if said, err := exec.Command(name, args...).CombinedOutput(); err != nil {
		return fmt.Errorf("%s: %w\n%s", name, err, said)
	}
	return nil
}
