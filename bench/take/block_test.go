package take

import (
	"math"
	"testing"
)

func FuzzABlockOfALiveTakeIsReadOrRefused(f *testing.F) {
	f.Add([]byte{0, 0, 0x80, 0x3F, 0, 0, 0, 0xBF}) // 1, −0.5
	f.Add([]byte{0, 0, 0xC0, 0x7F})                // not a number
	f.Add([]byte{0, 0, 0x80, 0x7F})                // no end
	f.Add([]byte{1, 2, 3})
	f.Add([]byte{})
	f.Fuzz(func(t *testing.T, message []byte) {
		var l liveTake
		if l.take(message) != "" {
			return
		}
		if len(l.samples) != len(message)/4 {
			t.Fatalf("%d samples of %d bytes", len(l.samples), len(message))
		}
		for _, x := range l.samples {
			if math.IsNaN(float64(x)) || x < -1 || x > 1 {
				t.Fatalf("a sample is %v", x)
			}
		}
	})
}
