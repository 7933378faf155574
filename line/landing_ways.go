package line

// ways is a heap of ways, the cheapest on top.
type ways []*way

func (h ways) Len() int      { return len(h) }
func (h ways) Swap(i, j int) { h[i], h[j] = h[j], h[i] }
func (h *ways) Push(x any)   { *h = append(*h, x.(*way)) }
func (h *ways) Pop() any {
	last := len(*h) - 1
	w := (*h)[last]
	*h = (*h)[:last]
	return w
}

// Less puts the cheaper way first; in a tie the one further on, so that one way is
// finished before others begin.
func (h ways) Less(i, j int) bool {
	a, b := h[i], h[j]
	switch {
	case a.price != b.price:
		return a.price < b.price
	case a.slot != b.slot:
		return a.slot < b.slot
	case a.gives != b.gives:
		return a.gives < b.gives
	}
	return a.order < b.order
}
