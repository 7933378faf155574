package musicxml

import "heddle/pitch"

// accidentalWords gives MusicXML's word for each accidental from −3 to 3.
var accidentalWords = [...]string{"triple-flat", "flat-flat", "flat", "natural", "sharp", "double-sharp", "triple-sharp"}

// accidental writes the accidental that a note needs. There is no sign for more
// than three.
func (p *page) accidental(sounding pitch.Pitch) {
	alter := sounding.Name.Accidental
	printed, courtesy := p.accidentals.Next(sounding)
	switch {
	case !printed || alter < -3 || alter > 3:
	case courtesy:
		p.text("accidental", accidentalWords[alter+3], "cautionary", "yes", "parentheses", "no")
	default:
		p.text("accidental", accidentalWords[alter+3])
	}
}
