package hear

import (
	"bytes"
	"encoding/binary"
	"heddle/audio"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"gonum.org/v1/gonum/dsp/fourier"
)

// fluidFont is where Debian's fluid-soundfont-gm puts recorded guitars.
const fluidFont = "/usr/share/sounds/sf2/FluidR3_GM.sf2"

// renderRate is what fluidsynth writes.
const renderRate = 44100

// fluidsynth renders events with a sound font, dry.
func fluidsynth(t testing.TB, font string, events []midiEvent) []float32 {
	t.Helper()
	dir := t.TempDir()
	mid, wav := filepath.Join(dir, "take.mid"), filepath.Join(dir, "take.wav")
	if err := os.WriteFile(mid, midiFile(events), 0o600); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("fluidsynth", "-ni", "-q", "-g", "0.5", "-r", "44100", "-R", "0", "-C", "0", "-o", "synth.dynamic-sample-loading=1", "-T", "wav", "-O", "s16", "-F", wav, font, mid)
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("fluidsynth: %v\n%s", err, out)
	}
	file, err := os.ReadFile(wav)
	if err != nil {
		t.Fatal(err)
	}
	return samples(t, file)
}

func samples(t testing.TB, file []byte) []float32 {
	t.Helper()
	source, err := audio.Decode(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	var all []float32
	buf := make([]float32, 8192)
	for {
		n, err := source.Read(buf)
		all = append(all, buf[:n]...)
		if err == io.EOF {
			return all
		}
		if err != nil {
			t.Fatal(err)
		}
	}
}

// wavFile writes one channel of 16 bit.
func wavFile(x []float32, rate int) []byte {
	le := binary.LittleEndian
	b := []byte("RIFF")
	b = le.AppendUint32(b, uint32(36+2*len(x)))
	b = append(b, "WAVEfmt "...)
	b = le.AppendUint32(b, 16)
	b = le.AppendUint16(b, 1)
	b = le.AppendUint16(b, 1)
	b = le.AppendUint32(b, uint32(rate))
	b = le.AppendUint32(b, uint32(2*rate))
	b = le.AppendUint16(b, 2)
	b = le.AppendUint16(b, 16)
	b = append(b, "data"...)
	b = le.AppendUint32(b, uint32(2*len(x)))
	for _, s := range x {
		b = le.AppendUint16(b, uint16(int16(math.Round(float64(max(-1, min(1, s)))*32767))))
	}
	return b
}

func rms(x []float32) float64 {
	sum := 0.0
	for _, s := range x {
		sum += float64(s) * float64(s)
	}
	return math.Sqrt(sum / float64(max(len(x), 1)))
}

// room puts the guitar into a room: a direct sound, then noise that decays
// by 60 dB in decayS, together directDB below the direct sound.
func room(x []float32, r *rand.Rand, decayS, directDB float64) []float32 {
	n := int(decayS * renderRate)
	impulse := make([]float64, n)
	energy := 0.0
	for i := renderRate * 4 / 1000; i < n; i++ {
		impulse[i] = r.NormFloat64() * math.Pow(10, -3*float64(i)/float64(n))
		energy += impulse[i] * impulse[i]
	}
	gain := math.Pow(10, -directDB/20) / math.Sqrt(energy)
	for i := range impulse {
		impulse[i] *= gain
	}
	impulse[0] = 1
	return convolve(x, impulse)
}

func convolve(x []float32, h []float64) []float32 {
	size := 1
	for size < len(x)+len(h) {
		size *= 2
	}
	fft := fourier.NewFFT(size)
	a, b := make([]float64, size), make([]float64, size)
	for i, s := range x {
		a[i] = float64(s)
	}
	copy(b, h)
	fa, fb := fft.Coefficients(nil, a), fft.Coefficients(nil, b)
	for i := range fa {
		fa[i] *= fb[i]
	}
	fft.Sequence(a, fa)
	out := make([]float32, len(x)+len(h))
	for i := range out {
		out[i] = float32(a[i] / float64(size))
	}
	return out
}

// noisy adds pink-ish noise so many dB below the guitar.
func noisy(x []float32, r *rand.Rand, belowDB float64) []float32 {
	return mixed(x, pinkish(len(x), r), belowDB)
}

func pinkish(n int, r *rand.Rand) []float32 {
	noise := make([]float32, n)
	low := 0.0
	for i := range noise {
		w := r.NormFloat64()
		low = 0.95*low + 0.3*w
		noise[i] = float32(0.5*w + low)
	}
	return noise
}

// mixed adds what lies under the guitar, its level given below the guitar's.
func mixed(x, under []float32, belowDB float64) []float32 {
	gain := float32(rms(x) / rms(under) * math.Pow(10, -belowDB/20))
	out := make([]float32, len(x))
	for i := range out {
		out[i] = x[i]
		if i < len(under) {
			out[i] += gain * under[i]
		}
	}
	return out
}

func levelled(x []float32, peak float32) []float32 {
	top := float32(1e-9)
	for _, s := range x {
		top = max(top, s, -s)
	}
	for i := range x {
		x[i] *= peak / top
	}
	return x
}

// vamp writes bass, keys and drums under a take.
func vamp(r *rand.Rand, tempo, untilS float64) []midiEvent {
	events := []midiEvent{program(0, 33), program(1, 4)}
	quarterS := 60 / tempo
	root := r.IntN(12)
	chord := [][]int{{0, 3, 7, 10}, {0, 4, 7, 10}, {0, 4, 7, 11}}[r.IntN(3)]
	for beat := 0; float64(beat)*quarterS < untilS; beat++ {
		s := float64(beat) * quarterS
		hit := func(atS, lengthS float64, channel, key, velocity int) {
			events = append(events, noteOn(atS, channel, key, velocity), noteOff(atS+lengthS, channel, key))
		}
		hit(s, quarterS*0.8, 0, 28+(root+8)%12+[]int{0, 0, 7, 0}[beat%4], 90)
		if beat%2 == 0 {
			for _, d := range chord {
				hit(s+quarterS*0.5, quarterS*1.2, 1, 52+root+d, 75)
			}
		}
		hit(s, 0.1, 9, []int{36, 38}[beat%2], 95)
		hit(s, 0.1, 9, 42, 70)
		hit(s+quarterS/2, 0.1, 9, 42, 60)
	}
	return events
}
