package audio

// A sidedness decides how two channels become one. Their sum is right unless
// one of them is wired the wrong way round, when the sum cancels the guitar
// and the difference holds it.
type sidedness struct {
	mid, side float64 // energy of sum and difference, fading
}

// How much louder the difference must be than the sum before it is taken for
// a channel of reversed polarity (10 dB: wide stereo stays near 0 dB), and
// how fast old evidence fades, per sample.
const (
	reversedBy  = 10.0
	sideFading  = 1 - 1.0/16000
	finiteLimit = 8.0 // larger samples come from broken files of floats
)

func (s *sidedness) mix(dst []float32, frames [][2]float32, channels int) {
	if channels == 1 {
		for i, f := range frames {
			dst[i] = finite(f[0])
		}
		return
	}
	for i, f := range frames {
		l, r := finite(f[0]), finite(f[1])
		mid, side := (l+r)/2, (l-r)/2
		s.mid = s.mid*sideFading + float64(mid*mid)
		s.side = s.side*sideFading + float64(side*side)
		dst[i] = mid
		if s.side > reversedBy*s.mid {
			dst[i] = side
		}
	}
}

func finite(x float32) float32 {
	if x > finiteLimit {
		return finiteLimit
	}
	if x < -finiteLimit {
		return -finiteLimit
	}
	if x != x {
		return 0
	}
	return x
}
