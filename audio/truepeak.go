package audio

import "math"

// peakTaps are those of the interpolator of ITU-R BS.1770-5, annex 2: four
// phases of a low pass of order 48. The third and fourth phases are the
// second and first backwards.
var peakTaps = [2][12]float32{
	{0.0017089843750, 0.0109863281250, -0.0196533203125, 0.0332031250000, -0.0594482421875, 0.1373291015625,
		0.9721679687500, -0.1022949218750, 0.0476074218750, -0.0266113281250, 0.0148925781250, -0.0083007812500},
	{-0.0291748046875, 0.0292968750000, -0.0517578125000, 0.0891113281250, -0.1665039062500, 0.4650878906250,
		0.7797851562500, -0.2003173828125, 0.1015625000000, -0.0582275390625, 0.0330810546875, -0.0189208984375},
}

// peakOver is the most by which a true peak can exceed the samples around
// it: the sum of the taps' sizes in the phase where it is greatest, 2.0176.
const peakOver = 2.02

// peakSpan is how many samples one interpolated value hears.
const peakSpan = 12

// between returns the greatest of the samples' size and of the three values
// interpolated between, in the middle of peakSpan samples.
func between(s []float32) float32 {
	s = s[:peakSpan]
	var a, b, c, d float32
	for i := range peakSpan {
		x := s[peakSpan-1-i]
		a += x * peakTaps[0][i]
		b += x * peakTaps[1][i]
		c += x * peakTaps[1][peakSpan-1-i]
		d += x * peakTaps[0][peakSpan-1-i]
	}
	return max(a, -a, b, -b, c, -c, d, -d)
}

// A truePeak finds the highest true peak of two channels.
type truePeak struct {
	top         float32
	left, right []float32 // the last samples of the block before, then the block
}

// hear takes in samples. It interpolates only where the samples are high
// enough for a new peak to stand between them.
func (t *truePeak) hear(left, right []float32) {
	t.left = t.channel(append(t.left, left...))
	t.right = t.channel(append(t.right, right...))
}

// channel finds peaks in one channel and returns what to keep of it.
func (t *truePeak) channel(s []float32) []float32 {
	const run = 32
	for at := 0; at+peakSpan <= len(s); at += run {
		stretch := s[at:min(at+run+peakSpan-1, len(s))]
		high := highest(stretch)
		t.top = max(t.top, high)
		if high*peakOver <= t.top {
			continue
		}
		for i := 0; i+peakSpan <= len(stretch); i++ {
			t.top = max(t.top, between(stretch[i:]))
		}
	}
	keep := min(len(s), peakSpan-1)
	copy(s, s[len(s)-keep:])
	return s[:keep]
}

// highest returns the size of the largest sample. Sizes of floats compare as
// their bits do without the sign.
func highest(s []float32) float32 {
	top := uint32(0)
	for _, x := range s {
		if size := math.Float32bits(x) &^ (1 << 31); size > top {
			top = size
		}
	}
	return math.Float32frombits(top)
}
