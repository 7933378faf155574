package groove

// The swing groove, in cells of sixteenths whose third letter is the swung
// eighth: ding, ding-a on the ride, the hat closing on the back beats, the
// kick felt rather than heard, the snare and the keys talking between.
var SwingRide = Figure{
	firstPulse: {"X...", "X...", "X.o.", "X.x.x.", "X...x."},
	backPulse:  {"X.x.", "X.x.", "X...", "X.x.x.", "X...x."},
	innerPulse: {"x...", "x...", "x.o.", "x.x.x.", "x...x."},
}

var SwingHat = Figure{
	firstPulse: {"....", "......"},
	backPulse:  {"x...", "x....."},
	innerPulse: {"....", "......"},
}

var SwingKick = Figure{
	firstPulse: {"o...", "o....."},
	backPulse:  {"o...", "..x.", "o....."},
	innerPulse: {"o...", "o...", "..o.", "o....."},
}

var SwingSnare = Figure{
	firstPulse: {"....", "....", "..o.", "......", "....o."},
	backPulse:  {"....", "..o.", "..o.", "......", "....o."},
	innerPulse: {"....", "o...", "..x.", "......", "..o..."},
}

var SwingFill = Figure{
	firstPulse: {"x.x.", "x.x.x."},
	backPulse:  {"x.X.", "o.x.", "x.o.x."},
	innerPulse: {"x.X.", "o.x.", "x.o.x."},
}

var SwingKeys = Figure{
	firstPulse: {"x...", "....", "..x.", "x.....", "......"},
	backPulse:  {"..x.", "..x.", "....", "x...", "....x.", "......"},
	innerPulse: {"....", "..x.", "....", "x...", "......", "x....."},
}
