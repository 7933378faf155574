package listen

// A ring keeps the last values of a series, by their number in it.
type ring[T any] struct {
	kept   []T
	pushed int
}

func newRing[T any](size int) ring[T] { return ring[T]{kept: make([]T, size)} }

// next makes room for one more value and returns its place, which holds an old
// value to be overwritten.
func (r *ring[T]) next() *T {
	slot := &r.kept[r.pushed%len(r.kept)]
	r.pushed++
	return slot
}

func (r *ring[T]) push(v T) { *r.next() = v }

// at returns value number i, which must still be kept.
func (r *ring[T]) at(i int) T { return r.kept[i%len(r.kept)] }
