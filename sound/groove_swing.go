package sound

// The swing groove, in cells of sixteenths whose third letter is the swung
// eighth: ding, ding-a on the ride, the hat closing on the back beats, the
// kick felt rather than heard, the snare and the keys talking between.
var swingRide = figure{
	firstPulse: {"X...", "X...", "X.o.", "X.x.x.", "X...x."},
	backPulse:  {"X.x.", "X.x.", "X...", "X.x.x.", "X...x."},
	innerPulse: {"x...", "x...", "x.o.", "x.x.x.", "x...x."},
}

var swingHat = figure{
	firstPulse: {"....", "......"},
	backPulse:  {"x...", "x....."},
	innerPulse: {"....", "......"},
}

var swingKick = figure{
	firstPulse: {"o...", "o....."},
	backPulse:  {"o...", "..x.", "o....."},
	innerPulse: {"o...", "o...", "..o.", "o....."},
}

var swingSnare = figure{
	firstPulse: {"....", "....", "..o.", "......", "....o."},
	backPulse:  {"....", "..o.", "..o.", "......", "....o."},
	innerPulse: {"....", "o...", "..x.", "......", "..o..."},
}

var swingFill = figure{
	firstPulse: {"x.x.", "x.x.x."},
	backPulse:  {"x.X.", "o.x.", "x.o.x."},
	innerPulse: {"x.X.", "o.x.", "x.o.x."},
}

var swingKeys = figure{
	firstPulse: {"x...", "....", "..x.", "x.....", "......"},
	backPulse:  {"..x.", "..x.", "....", "x...", "....x.", "......"},
	innerPulse: {"....", "..x.", "....", "x...", "......", "x....."},
}
