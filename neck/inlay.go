package neck

import "strings"

// The frets below the octave that have an inlay (common practice: guitars and
// basses mark the ninth fret, ukuleles and mandolins the tenth).
var (
	guitarInlays   = []int{3, 5, 7, 9}
	mandolinInlays = []int{3, 5, 7, 10}
)

// Inlays returns the frets with a position mark, counted from the nut even with a
// capo. Multiples of twelve have two dots.
func (in Instrument) Inlays() []int {
	marked := guitarInlays
	if strings.Contains(in.Name, "ukulele") || in.Name == "mandolin" {
		marked = mandolinInlays
	}
	var inlays []int
	for octave := 0; octave < in.Frets; octave += 12 {
		for _, fret := range marked {
			inlays = append(inlays, octave+fret)
		}
		inlays = append(inlays, octave+12)
	}
	for len(inlays) > 0 && inlays[len(inlays)-1] > in.Frets {
		inlays = inlays[:len(inlays)-1]
	}
	return inlays
}
