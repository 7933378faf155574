package groove

// The funk groove in sixteenths. Cells are common practice of the style: the
// one is strong, the snare answers on the back beats with soft notes between,
// the hat keeps sixteenths or eighths.
var FunkKick = Figure{
	firstPulse: {"X..x", "X...", "X.x.", "X..x.."},
	backPulse:  {"....", "...x", "..x.", "....x.", "......"},
	innerPulse: {"..X.", "x.X.", "X..x", "..Xx", "..X...", "X....x"},
}

var FunkSnare = Figure{
	firstPulse: {"....", "...o", ".o..", "......", "...o.o"},
	backPulse:  {"X...", "X..o", "X.o.", "X.....", "X..o.o"},
	innerPulse: {".o..", "....", ".o.o", "......", "..o..o"},
}

var FunkHat = Figure{
	firstPulse: {"Xoxo", "Xoxo", "X.x.", "Xoxoxo", "X.x.x."},
	backPulse:  {"xoxo", "xoxo", "x.x.", "xoxoxo", "x.x.x."},
	innerPulse: {"Xoxo", "Xoxo", "X.x.", "Xoxoxo", "X.x.x."},
}

// FunkFill takes over the last pulse of every fourth bar.
var FunkFill = Figure{
	backPulse:  {"X.xx", "Xoxx", "x.XX", "X.x.xx", "xoxoXX"},
	innerPulse: {"X.xx", "Xoxx", "x.XX", "X.x.xx", "xoxoXX"},
	firstPulse: {"X.xx", "X.x.xx"},
}

// FunkKeys are short chords off the beat.
var FunkKeys = Figure{
	firstPulse: {"x...", "...x", "x..x", "....", "x..x..", "...x.."},
	backPulse:  {"..x.", "...x", ".x..", "....", "..x...", "....x."},
	innerPulse: {"....", "x...", "..x.", "...x", "......", "x..x.."},
}

// Bass cells have degrees in place of strengths: 1 the root, 8 its octave,
// 5 and 7 those of the chord, 3 its third, a the approach to what comes next,
// d a dead note.
var FunkBass = Figure{
	firstPulse: {"1..1", "1...", "1.d1", "1..8", "1..1..", "1..8.."},
	backPulse:  {"..5.", "..d8", "...7", "..75", "....", "..5..7", "...7.."},
	innerPulse: {"1.d.", "..1.", "..57", "8..7", ".d1.", "..1..7", "1..5.."},
}

// FunkTurn is how the bass goes to the next bar, on the last pulse.
var FunkTurn = Figure{
	firstPulse: {"1.5a", "1..5.a"},
	backPulse:  {"..5a", "7.5a", "...a", "..aa", "..7..a", "5..7.a"},
	innerPulse: {"..5a", "7.5a", "...a", "5..7.a"},
}
