package sound

// The ballad groove: brushes that circle on every beat and tap the back
// beats, a cross-stick on the last, long chords, a bass in long notes.
var balladSweep = figure{
	firstPulse: {"x...", "x....."},
	backPulse:  {"o...", "o....."},
	innerPulse: {"x...", "x....."},
}

var balladTap = figure{
	firstPulse: {"....", "....", "..o.", "......"},
	backPulse:  {"x...", "x...", "x.o.", "x.....", "x...o."},
	innerPulse: {"....", "....", "...o", "......"},
}

var balladKick = figure{
	firstPulse: {"x...", "x....."},
	backPulse:  {"....", "....", "..o.", "......"},
	innerPulse: {"o...", "....", "......"},
}

var balladHat = figure{
	firstPulse: {"....", "......"},
	backPulse:  {"o...", "o....."},
	innerPulse: {"....", "......"},
}

var balladKeys = figure{
	firstPulse: {"x...", "x...", "x.....", "x....."},
	backPulse:  {"....", "....", "....", "..o.", "......", "....o."},
	innerPulse: {"....", "o...", "o...", "......", "o....."},
}

var balladBass = figure{
	firstPulse: {"1...", "1...", "1.....", "1....."},
	backPulse:  {"....", "..5.", "...1", "......", "....5."},
	innerPulse: {"5...", "1...", "8...", "5.....", "3....."},
}

var balladTurn = figure{
	firstPulse: {"1.a.", "1...a."},
	backPulse:  {"..a.", "a...", "..5a", "....a.", "3...a."},
	innerPulse: {"5.a.", "a...", "5...a."},
}
