package sound

import "math"

// The resampler's kernel.
const (
	kernelHalf  = 8  // samples to each side, of the slower rate
	kernelSteps = 64 // positions between two samples; between these, the nearest
)

// resample returns samples at another rate: each new one is the sum of the old
// ones under a sinc with a Blackman window (Smith and Gossett 1984), cut off
// at half the slower of the two rates.
func resample(s []float32, from, to float64) []float32 {
	if from == to {
		return s
	}
	slow := min(1, to/from)
	half := int(kernelHalf / slow)
	kernels := make([][]float32, kernelSteps+1)
	for k := range kernels {
		kernels[k] = sincKernel(half, float64(k)/kernelSteps, slow)
	}
	padded := make([]float32, len(s)+2*half)
	copy(padded[half:], s)
	out := make([]float32, int(float64(len(s))*to/from))
	for i := range out {
		at := float64(i) * from / to
		whole := int(at)
		kernel := kernels[int((at-float64(whole))*kernelSteps+0.5)]
		under := padded[whole+1:][:len(kernel)]
		out[i] = product(under, kernel)
	}
	return out
}

// product returns the sum of products of two rows of equal and even length, in
// two sums so that neither waits for the other.
func product(a, b []float32) float32 {
	b = b[:len(a)]
	x, y := float32(0), float32(0)
	for j := 1; j < len(a); j += 2 {
		x += a[j-1] * b[j-1]
		y += a[j] * b[j]
	}
	return x + y
}

// sincKernel returns the weights of the samples round a point a part of the
// way from one to the next.
func sincKernel(half int, part, cutoff float64) []float32 {
	kernel := make([]float32, 2*half)
	sum := 0.0
	for j := range kernel {
		x := float64(j-half+1) - part
		u := x / float64(half)
		window := 0.42 + 0.5*math.Cos(math.Pi*u) + 0.08*math.Cos(2*math.Pi*u)
		sinc := 1.0
		if y := math.Pi * cutoff * x; y != 0 {
			sinc = math.Sin(y) / y
		}
		if math.Abs(u) > 1 {
			window = 0
		}
		kernel[j] = float32(sinc * window)
		sum += sinc * window
	}
	scale(kernel, 1/sum)
	return kernel
}
