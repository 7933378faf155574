package synthetic

import (
	"bytes"
	"errors"
	"math"
	"math/rand/v2"

	"heddle/audio"

	"gonum.org/v1/gonum/dsp/fourier"
)

// RMS is the root mean square of a sound.
func RMS(x []float32) float64 {
	sum := 0.0
	for _, s := range x {
		sum += float64(s) * float64(s)
	}
	return math.Sqrt(sum / float64(max(len(x), 1)))
}

// Room puts the guitar into a room: a direct sound, then noise that decays
// by 60 dB in decayS, together directDB below the direct sound.
func Room(x []float32, r *rand.Rand, decayS, directDB float64) []float32 {
	n := int(decayS * Rate)
	impulse := make([]float64, n)
	energy := 0.0
	for i := Rate * 4 / 1000; i < n; i++ {
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

// Noisy adds pink noise that is belowDB softer than the guitar.
func Noisy(x []float32, r *rand.Rand, belowDB float64) []float32 {
	return Mixed(x, Pink(len(x), r), belowDB)
}

// Pink is about pink noise.
func Pink(n int, r *rand.Rand) []float32 {
	noise := make([]float32, n)
	low := 0.0
	for i := range noise {
		w := r.NormFloat64()
		low = 0.95*low + 0.3*w
		noise[i] = float32(0.5*w + low)
	}
	return noise
}

// Mixed adds what sounds under the guitar, its level given below the guitar's.
func Mixed(x, under []float32, belowDB float64) []float32 {
	gain := float32(RMS(x) / RMS(under) * math.Pow(10, -belowDB/20))
	out := make([]float32, len(x))
	for i := range out {
		out[i] = x[i]
		if i < len(under) {
			out[i] += gain * under[i]
		}
	}
	return out
}

// Levelled scales a sound in place to a peak, and returns it.
func Levelled(x []float32, peak float32) []float32 {
	top := float32(1e-9)
	for _, s := range x {
		top = max(top, s, -s)
	}
	for i := range x {
		x[i] *= peak / top
	}
	return x
}

// WAV is a sound as a WAV file of one channel and 16 bits.
func WAV(x []float32, rate int) []byte {
	var file bytes.Buffer
	sink, err := audio.NewWAV(&file, audio.Bits16, audio.Tags{})
	if err == nil {
		err = sink.Start(audio.Format{SampleRate: rate, Channels: 1, Frames: int64(len(x))})
	}
	if err == nil {
		err = errors.Join(sink.Write(x), sink.Finish())
	}
	if err != nil {
		panic(err) // a buffer takes everything
	}
	return file.Bytes()
}
