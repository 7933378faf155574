package hear

import (
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"
)

// A chain is what a guitar goes through before it is a file: an amplifier with
// its loudspeaker, a compressor, the microphone of a laptop, a coder. Zero
// leaves a stage out.
type chain struct {
	tightHz   float64 // below which a pedal takes lows away before the amplifier clips
	lean      float64 // of the clipping to one side, which brings even harmonics
	drive     float64 // gain before the amplifier's soft clipping, for a peak of 1
	cabinetHz float64 // where the loudspeaker's highs end
	ratio     float64 // of the compressor
	laptopHz  float64 // where the microphone's lows begin
	kbit      int     // of the MP3 coder
}

// drawChain draws a chain. A player lets strings ring together only when the
// amplifier is nearly clean.
func drawChain(r *rand.Rand, ringing bool) chain {
	var c chain
	if r.Float64() < 0.5 {
		hardest := 8.0
		if ringing {
			hardest = 1.5
		}
		c.drive = 0.7 * math.Pow(hardest/0.7, r.Float64())
		c.cabinetHz = 3500 + 2000*r.Float64()
	}
	if r.Float64() < 0.4 {
		c.ratio = 2 + 3*r.Float64()
	}
	if r.Float64() < 0.35 {
		c.laptopHz = 120 + 80*r.Float64()
	}
	if r.Float64() < 0.4 {
		c.kbit = []int{64, 96, 128}[r.IntN(3)]
	}
	return c
}

// amplifier is the part of the chain before the room.
func (c chain) amplifier(x []float32) []float32 {
	if c.ratio > 0 {
		x = compressed(x, c.ratio)
	}
	if c.drive == 0 {
		return x
	}
	y := append([]float32(nil), x...)
	if c.tightHz > 0 {
		y = highPass(c.tightHz, 0.5).filter(y)
	}
	y = levelled(y, 1)
	for i, s := range y {
		y[i] = float32(math.Tanh(c.drive*float64(s)+c.lean) - math.Tanh(c.lean))
	}
	// A closed cabinet falls by 24 dB per octave above its cone's break-up.
	for _, q := range []float64{0.54, 1.31} { // Butterworth, fourth order
		y = lowPass(c.cabinetHz, q).filter(y)
	}
	return highPass(75, math.Sqrt2/2).filter(y)
}

// microphone is the part of the chain after the room.
func (c chain) microphone(t testing.TB, x []float32) []float32 {
	t.Helper()
	if c.laptopHz > 0 {
		x = highPass(c.laptopHz, math.Sqrt2/2).filter(x)
		x = lowPass(7500, math.Sqrt2/2).filter(x)
	}
	if c.kbit > 0 {
		x = mp3Coded(t, x, c.kbit)
	}
	return x
}

// The compressor's times and threshold are those of a pedal at its middle
// setting.
const (
	compressorAttackS  = 0.005
	compressorReleaseS = 0.120
	compressorUnder    = 0.1 // threshold, of the peak
)

// compressed turns down by a ratio what rises above the threshold.
func compressed(x []float32, ratio float64) []float32 {
	y := levelled(append([]float32(nil), x...), 1)
	attack, release := math.Exp(-1/(compressorAttackS*renderRate)), math.Exp(-1/(compressorReleaseS*renderRate))
	envelope := 0.0
	for i, s := range y {
		level := math.Abs(float64(s))
		keep := release
		if level > envelope {
			keep = attack
		}
		envelope = keep*envelope + (1-keep)*level
		if envelope > compressorUnder {
			y[i] *= float32(math.Pow(envelope/compressorUnder, 1/ratio-1))
		}
	}
	return y
}

// A biquad is a second-order filter, normalised by its a0.
type biquad struct{ b0, b1, b2, a1, a2 float64 }

// lowPass and highPass are R. Bristow-Johnson's (Audio EQ Cookbook, W3C note
// 2021).
func lowPass(hz, q float64) biquad {
	w := 2 * math.Pi * hz / renderRate
	cos, alpha := math.Cos(w), math.Sin(w)/(2*q)
	a0 := 1 + alpha
	return biquad{(1 - cos) / 2 / a0, (1 - cos) / a0, (1 - cos) / 2 / a0, -2 * cos / a0, (1 - alpha) / a0}
}

func highPass(hz, q float64) biquad {
	w := 2 * math.Pi * hz / renderRate
	cos, alpha := math.Cos(w), math.Sin(w)/(2*q)
	a0 := 1 + alpha
	return biquad{(1 + cos) / 2 / a0, -(1 + cos) / a0, (1 + cos) / 2 / a0, -2 * cos / a0, (1 - alpha) / a0}
}

// peaking lifts the frequencies around one, or takes them down (the same source).
func peaking(hz, q, gainDB float64) biquad {
	w := 2 * math.Pi * hz / renderRate
	cos, alpha, a := math.Cos(w), math.Sin(w)/(2*q), math.Pow(10, gainDB/40)
	a0 := 1 + alpha/a
	return biquad{(1 + alpha*a) / a0, -2 * cos / a0, (1 - alpha*a) / a0, -2 * cos / a0, (1 - alpha/a) / a0}
}

func (f biquad) filter(x []float32) []float32 {
	y := make([]float32, len(x))
	var z1, z2 float64
	for i, s := range x {
		in := float64(s)
		out := f.b0*in + z1
		z1 = f.b1*in - f.a1*out + z2
		z2 = f.b2*in - f.a2*out
		y[i] = float32(out)
	}
	return y
}

func needFFmpeg(t testing.TB) {
	t.Helper()
	if _, err := exec.LookPath("ffmpeg"); err != nil {
		t.Skip("ffmpeg is not installed: nothing here to code an MP3 with")
	}
}

// mp3Coded codes and decodes with ffmpeg, which takes off the delay that it
// writes into the file.
func mp3Coded(t testing.TB, x []float32, kbit int) []float32 {
	t.Helper()
	needFFmpeg(t)
	dir := t.TempDir()
	whole, coded, back := filepath.Join(dir, "whole.wav"), filepath.Join(dir, "coded.mp3"), filepath.Join(dir, "back.wav")
	if err := os.WriteFile(whole, wavFile(levelled(append([]float32(nil), x...), 0.7), renderRate), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{{"-i", whole, "-b:a", strconv.Itoa(kbit) + "k", coded}, {"-i", coded, "-c:a", "pcm_s16le", back}} {
		if out, err := exec.Command("ffmpeg", append([]string{"-v", "error", "-y"}, args...)...).CombinedOutput(); err != nil {
			t.Fatalf("ffmpeg: %v\n%s", err, out)
		}
	}
	file, err := os.ReadFile(back)
	if err != nil {
		t.Fatal(err)
	}
	return samples(t, file)
}
