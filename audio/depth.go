package audio

import (
	"math"
	"strings"

	"heddle/pitch"
)

// A Depth is how a WAV or FLAC file holds samples.
type Depth int

// The depths.
const (
	Bits16  Depth = 16
	Bits24  Depth = 24
	Float32 Depth = 32 // IEEE 754 numbers, −1…1; WAV only
)

// ParseDepth reads a depth: 16, 24 or 32f.
func ParseDepth(s string) (Depth, error) {
	switch strings.ToLower(strings.TrimSpace(s)) {
	case "16":
		return Bits16, nil
	case "24":
		return Bits24, nil
	case "32f":
		return Float32, nil
	}
	return 0, &pitch.InputError{What: "bits", Value: s, Want: "16, 24 or 32f"}
}

// A quantiser turns samples into whole numbers.
type quantiser struct {
	full   int32 // the number for 1
	dither bool
	state  uint64 // of the dither, the same for every file
}

func newQuantiser(d Depth, recorded bool) quantiser {
	return quantiser{full: 1 << (d - 1), dither: d == Bits16 && !recorded}
}

// quantise rounds a sample and clips what is over full scale.
func (q *quantiser) quantise(s float32) int32 {
	noise := float32(0)
	if q.dither {
		noise = q.triangle()
	}
	full := float64(q.full)
	return int32(math.Floor(min(max(float64(s)*full+float64(noise), -full), full-1) + 0.5))
}

// triangle returns dither with a triangular distribution two steps wide, which
// makes the rounding error independent of the sound (Lipshitz, Wannamaker and
// Vanderkooy 1992). Its random numbers are SplitMix64 (Steele, Lea and Flood
// 2014).
func (q *quantiser) triangle() float32 {
	q.state += 0x9e3779b97f4a7c15
	z := q.state
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	z ^= z >> 31
	return float32(int32(z)>>1+int32(z>>32)>>1) * (1.0 / (1 << 31))
}
