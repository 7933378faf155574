package musicxml

import "heddle/line"

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
