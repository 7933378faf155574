package groove

// The ballad groove: brushes that circle on every beat and tap the back
// beats, a cross-stick on the last, long chords, a bass in long notes.
var BalladSweep = Figure{
	firstPulse: {"x...", "x....."},
	backPulse:  {"o...", "o....."},
	innerPulse: {"x...", "x....."},
}

var BalladTap = Figure{
	firstPulse: {"....", "....", "..o.", "......"},
	backPulse:  {"x...", "x...", "x.o.", "x.....", "x...o."},
	innerPulse: {"....", "....", "...o", "......"},
}

var BalladKick = Figure{
	firstPulse: {"x...", "x....."},
	backPulse:  {"....", "....", "..o.", "......"},
	innerPulse: {"o...", "....", "......"},
}

var BalladHat = Figure{
	firstPulse: {"....", "......"},
	backPulse:  {"o...", "o....."},
	innerPulse: {"....", "......"},
}

var BalladKeys = Figure{
	firstPulse: {"x...", "x...", "x.....", "x....."},
	backPulse:  {"....", "....", "....", "..o.", "......", "....o."},
	innerPulse: {"....", "o...", "o...", "......", "o....."},
}

var BalladBass = Figure{
	firstPulse: {"1...", "1...", "1.....", "1....."},
	backPulse:  {"....", "..5.", "...1", "......", "....5."},
	innerPulse: {"5...", "1...", "8...", "5.....", "3....."},
}

var BalladTurn = Figure{
	firstPulse: {"1.a.", "1...a."},
	backPulse:  {"..a.", "a...", "..5a", "....a.", "3...a."},
	innerPulse: {"5.a.", "a...", "5...a."},
}
