package spectral

import (
	"fmt"
	"math/cmplx"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/dsp/fourier"
)

// gonum's Fourier transform (fftpack) is the outside check of ours.
func TestTransformsAgreeWithGonum(t *testing.T) {
	for n := 8; n <= 4096; n *= 2 {
		t.Run(fmt.Sprint(n), func(t *testing.T) {
			r := rand.New(rand.NewPCG(uint64(n), 1))
			x := make([]float64, n)
			for i := range x {
				x[i] = r.NormFloat64()
			}
			want := fourier.NewFFT(n).Coefficients(nil, x)
			got := make([]complex128, n/2+1)
			tr := newTransform(n)
			tr.forward(got, x)
			for k := range want {
				if cmplx.Abs(want[k]-got[k]) > 1e-10 {
					t.Fatalf("coefficient %d is %v, gonum has %v", k, got[k], want[k])
				}
			}
			back := make([]float64, n)
			tr.inverse(back, got)
			for i := range x {
				if d := back[i] - x[i]; d > 1e-12 || d < -1e-12 {
					t.Fatalf("value %d comes back off by %g", i, d)
				}
			}
		})
	}
}
