package groove

import "heddle/sound/drumkit"

// Ballad has brushes that circle on every beat and tap the back beats, a
// cross-stick on the last, long chords, a bass in long notes.
var Ballad = Groove{
	Limbs: []Limb{
		{drumkit.BrushSweep, drumkit.BrushSweep, Figure{"x... o... x... o...", "x... x... o... x..."}, -20, 0.15},
		{drumkit.BrushTap, drumkit.BrushTap, Figure{".... x... .... x...", ".... x.o. .... x...", "..o. x... .... x.o.", ".... x... ...o x..."}, 6, 0.35},
		{drumkit.SoftKick, drumkit.SoftKick, Figure{"x... .... o... ....", "x... .... .... ....", "x... ..o. .... ....", "x... .... o... ..o."}, 2, 0.3},
		{drumkit.HatPedal, drumkit.HatPedal, Figure{".... o... .... o..."}, 0, 0.1},
		{drumkit.CrossStick, drumkit.CrossStick, Figure{".... .... .... x..."}, 4, 0},
	},
	Fill:   []string{"x.o.", "xoo.", "x..o"},
	FillOn: drumkit.BrushTap, Mark: drumkit.Ride,
	Ending: []drumkit.Piece{drumkit.SoftKick, drumkit.BrushTap, drumkit.Ride},
	Keys: Keys{Plays: Figure{
		"x... .... .... ....", "x... .... o... ....", "x... ..o. .... ....", "x... .... .... o...",
	}, RollMS: 14, Stray: 0.35, Force: 0.55},
	Bass: Bass{Figure{
		"1... .... 5... a...", "1... ..5. 1... ..a.", "1... .... 8... ..5a", "1... ...1 5... ..a.",
	}, 0.97, 0.35},
}

// StraightBallad is a slow song in even eighths with a back beat.
var StraightBallad = Groove{
	Limbs: []Limb{
		{drumkit.Kick, drumkit.SoftKick, Figure{"X... .... ..x. ....", "X... ...x X... ....", "X... .... X... ..o.", "X... ..o. ..x. ...."}, 1, 0.2},
		{drumkit.CrossStick, drumkit.CrossStick, Figure{".... X... .... X..."}, 6, 0},
		{drumkit.HatClosed, drumkit.HatClosed, Figure{"x.o. x.o. x.o. x.o.", "x.o. x.oo x.o. x.oo", "x.oo x.o. x.oo x.o."}, 0, 0.2},
	},
	Fill:    []string{"x.hl", "..hm", "x.ml"},
	BigFill: []string{"x.hh m.ll", "..hh mmll"},
	FillOn:  drumkit.Snare, Mark: drumkit.Crash,
	Ending: []drumkit.Piece{drumkit.SoftKick, drumkit.Crash},
	Keys: Keys{Plays: Figure{
		"x... .... .... ....", "x... .... x... ....", "x... ..o. .... o...", "x... o... x... o...",
	}, RollMS: 9, Stray: 0.3, Force: 0.6},
	Bass: Bass{Figure{
		"1... .... 5... ..a.", "1... ...1 5... ..a.", "1... .... 1.5. a...", "1... .... 8... ..5a",
	}, 0.95, 0.25},
}
