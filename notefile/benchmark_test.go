package notefile

import (
	"bytes"
	"io"
	"testing"
)

// The domain's worked example: 57 notes.
func BenchmarkWrite(b *testing.B) {
	ex := built(b, workedExample())
	for _, w := range writers {
		b.Run(w.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if err := w.write(io.Discard, ex); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(len(ex.Notes)), "notes/op")
		})
	}
}

func BenchmarkRead(b *testing.B) {
	ex := built(b, workedExample())
	for _, w := range writers[:2] {
		var out bytes.Buffer
		if err := w.write(&out, ex); err != nil {
			b.Fatal(err)
		}
		b.Run(w.name, func(b *testing.B) {
			b.ReportAllocs()
			b.SetBytes(int64(out.Len()))
			for b.Loop() {
				if _, err := Read("line", bytes.NewReader(out.Bytes()), ""); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
