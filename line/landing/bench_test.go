package landing

import "testing"

func BenchmarkFind(b *testing.B) {
	for _, c := range []struct {
		name string
		bars int // of the line
	}{
		{"a quarter left", 4},
		{"seven eighths left", 0},
		{"nothing left", 3},
	} {
		b.Run(c.name, func(b *testing.B) {
			r := workshop()
			r.Bars = c.bars
			request := landOn(b, r, "Gm7", "third")
			b.ReportAllocs()
			for b.Loop() {
				if len(Find(request)) == 0 {
					b.Fatal("no ending")
				}
			}
		})
	}
}
