package performance

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"

	"heddle/hear/internal/synthetic"
)

// A Chain is what a guitar goes through before it is a file: an amplifier with
// its loudspeaker, a compressor, the microphone of a laptop, a coder. Zero
// leaves a stage out.
type Chain struct {
	TightHz   float64 // below which a pedal takes lows away before the amplifier clips
	Lean      float64 // of the clipping to one side, which brings even harmonics
	Drive     float64 // gain before the amplifier's soft clipping, for a peak of 1
	cabinetHz float64 // where the loudspeaker's highs end
	ratio     float64 // of the compressor
	laptopHz  float64 // where the microphone's lows begin
	kbit      int     // of the MP3 coder
}

// DrawChain draws a chain. A player lets strings ring together only when the
// Amplifier is nearly clean.
func DrawChain(r *rand.Rand, ringing bool) Chain {
	var c Chain
	if r.Float64() < 0.5 {
		hardest := 8.0
		if ringing {
			hardest = 1.5
		}
		c.Drive = 0.7 * math.Pow(hardest/0.7, r.Float64())
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

// Amplifier is the part of the chain before the room.
func (c Chain) Amplifier(x []float32) []float32 {
	if c.ratio > 0 {
		x = Compressed(x, c.ratio)
	}
	if c.Drive == 0 {
		return x
	}
	y := append([]float32(nil), x...)
	if c.TightHz > 0 {
		y = synthetic.HighPass(c.TightHz, 0.5).Filter(y)
	}
	y = synthetic.Levelled(y, 1)
	for i, s := range y {
		y[i] = float32(math.Tanh(c.Drive*float64(s)+c.Lean) - math.Tanh(c.Lean))
	}
	// A closed cabinet falls by 24 dB per octave above its cone's break-up.
	for _, q := range []float64{0.54, 1.31} { // Butterworth, fourth order
		y = synthetic.LowPass(c.cabinetHz, q).Filter(y)
	}
	return synthetic.HighPass(75, math.Sqrt2/2).Filter(y)
}

// Microphone is the part of the chain after the room.
func (c Chain) Microphone(x []float32) ([]float32, error) {
	if c.laptopHz > 0 {
		x = synthetic.HighPass(c.laptopHz, math.Sqrt2/2).Filter(x)
		x = synthetic.LowPass(7500, math.Sqrt2/2).Filter(x)
	}
	if c.kbit > 0 {
		return mp3Coded(x, c.kbit)
	}
	return x, nil
}

// The compressor's times and threshold are those of a pedal at its middle
// setting.
const (
	compressorAttackS  = 0.005
	compressorReleaseS = 0.120
	compressorUnder    = 0.1 // threshold, of the peak
)

// Compressed turns down by a ratio what rises above the threshold.
func Compressed(x []float32, ratio float64) []float32 {
	y := synthetic.Levelled(append([]float32(nil), x...), 1)
	attack, release := math.Exp(-1/(compressorAttackS*synthetic.Rate)), math.Exp(-1/(compressorReleaseS*synthetic.Rate))
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

// mp3Coded codes and decodes with ffmpeg, which takes off the delay that it
// writes into the file.
func mp3Coded(x []float32, kbit int) ([]float32, error) {
	dir, err := os.MkdirTemp("", "heddle")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	whole, coded, back := filepath.Join(dir, "whole.wav"), filepath.Join(dir, "coded.mp3"), filepath.Join(dir, "back.wav")
	if err := os.WriteFile(whole, synthetic.WAV(synthetic.Levelled(append([]float32(nil), x...), 0.7), synthetic.Rate), 0o600); err != nil {
		return nil, err
	}
	for _, args := range [][]string{{"-i", whole, "-b:a", strconv.Itoa(kbit) + "k", coded}, {"-i", coded, "-c:a", "pcm_s16le", back}} {
		if out, err := exec.Command("ffmpeg", append([]string{"-v", "error", "-y"}, args...)...).CombinedOutput(); err != nil {
			return nil, fmt.Errorf("ffmpeg: %w\n%s", err, out)
		}
	}
	file, err := os.ReadFile(back)
	if err != nil {
		return nil, err
	}
	return Samples(file)
}
