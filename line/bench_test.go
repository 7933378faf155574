package line

import "testing"

func BenchmarkBuildThreesDownTheNeck57Notes(b *testing.B) {
	r := weave(Down, FollowFirst, outAndBack(3, 3)...)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Build(r); err != nil {
			b.Fatal(err)
		}
	}
}
