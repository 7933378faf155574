package musicxml

import (
	"heddle/exercise"
	"heddle/line"
	"heddle/notefile/sheet"
	"heddle/pitch"
)

// valueTypes are MusicXML's words for note values, from a whole note down, each
// half of the one before (MusicXML 4.0, note-type-value).
var valueTypes = [...]string{"whole", "half", "quarter", "eighth", "16th", "32nd", "64th", "128th", "256th", "512th", "1024th"}

// beamWords are MusicXML's words for what a beam does at a note (MusicXML 4.0,
// beam-value).
var beamWords = [...]string{
	line.BeamBegins:       "begin",
	line.BeamContinues:    "continue",
	line.BeamEnds:         "end",
	line.BeamHookForward:  "forward hook",
	line.BeamHookBackward: "backward hook",
}

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

// bracketLines are the line styles over groups of home, of the first
// superimposed scale, of the second and of any further one, so that they differ
// without colour.
var bracketLines = [...]string{"solid", "dashed", "dotted", "wavy"}

func bracketLine(ex *exercise.Exercise, r sheet.Run) string {
	if _, ok := sheet.ScaleOf(ex, r); !ok {
		return bracketLines[0]
	}
	away := 0
	for i := r.Scale; i > 0 && !ex.Scales[i].Home; i-- {
		away++
	}
	return bracketLines[min(away, len(bracketLines)-1)]
}
