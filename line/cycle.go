package line

// A Cycle says after how many notes and bars group and bar line meet again.
type Cycle struct {
	Notes int
	Bars  int
}
