package spectral

import "math"

// A transform computes discrete Fourier transforms of real sequences of one
// length, a power of two from 8. It packs the sequence into a complex one of
// half the length (Press et al., Numerical Recipes, 12.3) and transforms that
// in radix-4 steps.
type transform struct {
	half     int
	order    []int32      // bit-reversed position of each packed value
	twiddles []complex128 // exp(−2πik/half)
	unpack   []complex128 // exp(−2πik/(2·half)), for a quarter of the circle
	packed   []complex128
	oddStep  bool // half is an odd power of two, so the first step is radix-2
}

func newTransform(n int) *transform {
	half := n / 2
	bits := 0
	for 1<<bits < half {
		bits++
	}
	t := &transform{
		half: half, order: make([]int32, half), twiddles: make([]complex128, half),
		unpack: make([]complex128, half/2+1), packed: make([]complex128, half), oddStep: bits%2 == 1,
	}
	for i := range half {
		for b := range bits {
			t.order[i] |= int32(i >> b & 1 << (bits - 1 - b))
		}
		t.twiddles[i] = twiddle(float64(i) / float64(half))
	}
	for k := range t.unpack {
		t.unpack[k] = twiddle(float64(k) / float64(n))
	}
	return t
}

// twiddle is exp(−2πi·part).
func twiddle(part float64) complex128 {
	sin, cos := math.Sincos(2 * math.Pi * part)
	return complex(cos, -sin)
}

// forward writes the n/2+1 coefficients of n values.
func (t *transform) forward(dst []complex128, x []float64) {
	for i, from := range t.order {
		t.packed[i] = complex(x[2*from], x[2*from+1])
	}
	t.transform(t.packed)
	first := t.packed[0]
	dst[0] = complex(real(first)+imag(first), 0)
	dst[t.half] = complex(real(first)-imag(first), 0)
	for k := 1; k <= t.half/2; k++ {
		a, b := t.packed[k], conj(t.packed[t.half-k])
		even, odd := (a+b)*0.5, (a-b)*0.5
		odd = complex(imag(odd), -real(odd)) * t.unpack[k]
		dst[k], dst[t.half-k] = even+odd, conj(even-odd)
	}
}

// inverse writes the n values that have these coefficients.
func (t *transform) inverse(dst []float64, x []complex128) {
	m := t.half
	pack := func(k int) complex128 {
		a, b := x[k], conj(x[m-k])
		even, odd := (a+b)*0.5, (a-b)*0.5
		// unpack holds a quarter of the circle; the next quarter is its mirror.
		w := t.unpack[min(k, m-k)]
		if k > m-k {
			w = complex(-real(w), imag(w))
		}
		odd *= conj(w)
		return even + complex(-imag(odd), real(odd))
	}
	for i, from := range t.order {
		t.packed[i] = conj(pack(int(from)))
	}
	t.transform(t.packed)
	scale := 1 / float64(m)
	for i, v := range t.packed {
		dst[2*i], dst[2*i+1] = real(v)*scale, -imag(v)*scale
	}
}

func conj(z complex128) complex128 { return complex(real(z), -imag(z)) }

// transform works in place on values in bit-reversed order.
func (t *transform) transform(x []complex128) {
	size := 1
	if t.oddStep {
		for i := 0; i+1 < len(x); i += 2 {
			a, b := x[i], x[i+1]
			x[i], x[i+1] = a+b, a-b
		}
		size = 2
	}
	for ; size < len(x); size *= 4 {
		stride := len(x) / (4 * size)
		for start := 0; start < len(x); start += 4 * size {
			t.step(x[start:start+4*size], size, stride)
		}
	}
}

// step joins four transforms of the given size into one.
func (t *transform) step(x []complex128, size, stride int) {
	q0 := x[:size]
	q1 := x[size : 2*size][:len(q0)]
	q2 := x[2*size : 3*size][:len(q0)]
	q3 := x[3*size : 4*size][:len(q0)]
	k := 0
	for j, a := range q0 {
		b, c, d := q1[j]*t.twiddles[2*k], q2[j]*t.twiddles[k], q3[j]*t.twiddles[3*k]
		k += stride
		s, u, v, w := a+b, a-b, c+d, c-d
		w = complex(imag(w), -real(w))
		q0[j], q1[j], q2[j], q3[j] = s+v, u+w, s-v, u-w
	}
}
