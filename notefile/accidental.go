package notefile

import "heddle/pitch"

// accidentalWords gives MusicXML's word for each accidental from −3 to 3.
var accidentalWords = [...]string{"triple-flat", "flat-flat", "flat", "natural", "sharp", "double-sharp", "triple-sharp"}

// A staffPlace is a line or space: a letter in an octave.
type staffPlace struct {
	Letter pitch.Letter
	Octave int
}

// accidentals remembers what holds in the bar being written, without a key.
type accidentals struct {
	holds  map[staffPlace]int
	before map[staffPlace]int // what held at the end of the bar before
}

// barLine ends what the accidentals of the bar hold.
func (a *accidentals) barLine() {
	a.before, a.holds = a.holds, map[staffPlace]int{}
}

// next returns the accidental a note needs, or an empty string, and whether
// it is a courtesy: a natural after a bar in which the place was altered.
func (a *accidentals) next(p pitch.Pitch) (word string, courtesy bool) {
	at := staffPlace{p.Name.Letter, p.Octave}
	alter := p.Name.Accidental
	held, told := a.holds[at]
	a.holds[at] = alter
	switch {
	case alter < -3 || alter > 3:
		return "", false
	case alter != held:
		return accidentalWords[alter+3], false
	case !told && alter == 0 && a.before[at] != 0:
		return accidentalWords[3], true
	}
	return "", false
}
