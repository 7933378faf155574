package groove

import (
	"heddle/line"
	"heddle/sound/drumkit"
)

// The third letter of a cell is the swung eighth.

// triplets is how a band swings over a straight line.
var triplets = line.Swing{Long: 2, Short: 1}

// Swing has the ride cymbal, the hat closing on the back beats, the kick felt
// rather than heard, a walking bass; snare and keys talk between.
var Swing = Groove{
	Limbs: []Limb{
		{drumkit.Ride, drumkit.Ride, Figure{
			"X... X.x. x... X.x.", "X.x. X... x.x. X.x.", "X... X.x. x.x. X...", "X... X.x. x... X.x.",
		}, -2, 0.3},
		{drumkit.HatPedal, drumkit.HatPedal, Figure{".... x... .... x..."}, 0, 0},
		{drumkit.SoftKick, drumkit.SoftKick, Figure{
			"o... o... o... o...", "o... o... o... ..x.", "o... ..o. o... o...",
		}, 3, 0.4},
		{drumkit.Ghost, drumkit.Ghost, Figure{
			".... ..x. .... ....", "..x. .... .... ..x.", ".... .... ..x. ....", ".... ..x. x... ..x.", "..x. x... .... ....",
		}, 6, 0.6},
	},
	Fill:    []string{"x.x.", "x.X.", "oxx", "xxX"},
	BigFill: []string{"x.x. hml", "xhh mml", "X.h. mlX"},
	FillOn:  drumkit.Ghost, Mark: drumkit.Ride,
	Ending: []drumkit.Piece{drumkit.SoftKick, drumkit.Ride, drumkit.Crash},
	Keys: Keys{Plays: Figure{
		"x... ..x. .... ....", "..x. .... ..x. ....", ".... x... ..x. ....", "..x. ..x. .... ....", "x... .... .... ..x.",
	}, Hold: 2 * Slot, LateMS: 2, RollMS: 2.5, Stray: 0.45, Silence: 0.1, Force: 0.7},
	Bass:  Bass{Hold: 0.92},
	Swing: triplets,
}

// FastSwing leaves out what would be in the way at a fast tempo.
var FastSwing = Groove{
	Limbs: []Limb{
		{drumkit.Ride, drumkit.Ride, Figure{
			"X... X.x. x... X.x.", "X... X... x.x. X...", "X... x... X... x.x.",
		}, -2, 0.35},
		{drumkit.HatPedal, drumkit.HatPedal, Figure{".... x... .... x..."}, 0, 0},
		{drumkit.SoftKick, drumkit.SoftKick, Figure{"o... .... o... ....", "o... .... .... ..o.", "o... .... ..o. ...."}, 2, 0.4},
		{drumkit.Ghost, drumkit.Ghost, Figure{".... .... .... ....", ".... ..x. .... ....", "..x. .... .... ....", ".... .... ..x. ...."}, 4, 0.5},
	},
	Fill:    []string{"x.x.", "x...", "X.x."},
	BigFill: []string{"x.x. x.X.", "x.h. m.l.", "X.x. h.l."},
	FillOn:  drumkit.Ghost, Mark: drumkit.Ride,
	Ending: []drumkit.Piece{drumkit.SoftKick, drumkit.Ride, drumkit.Crash},
	Keys: Keys{Plays: Figure{
		"x... .... .... ....", "..x. .... .... ....", ".... .... ..x. ....", "x... ..x. .... ....", ".... ..x. .... ..x.",
	}, Hold: 3 * Slot, LateMS: 1, RollMS: 2, Stray: 0.4, Silence: 0.1, Force: 0.68},
	Bass:  Bass{Hold: 0.9},
	Swing: triplets,
}

// SlowBlues is a shuffle in triplets.
var SlowBlues = Groove{
	Limbs: []Limb{
		{drumkit.HatClosed, drumkit.HatClosed, Figure{"Xox xox Xox xox", "X.x x.x X.x x.x", "Xoo xoo Xoo xox"}, 0, 0.25},
		{drumkit.Kick, drumkit.SoftKick, Figure{"X.. ... X.x ...", "X.. ..x X.. ...", "X.. ... X.. ..x", "X.x ... X.. ..."}, 2, 0.25},
		{drumkit.Snare, drumkit.Ghost, Figure{"... X.. ... X..", "... X.. ..o X..", "..o X.. ... X.o"}, 8, 0.25},
	},
	Fill:    []string{"xxx", "X.x", "xoX", "Xxx"},
	BigFill: []string{"xxx hml", "X.h hml", "xhh mll"},
	FillOn:  drumkit.Snare, Mark: drumkit.Crash,
	Ending: []drumkit.Piece{drumkit.Kick, drumkit.Crash},
	Keys: Keys{Plays: Figure{
		"x.. ... ... ...", "..x x.. ... ...", "x.. ..x ... ...", "... x.. ... x.x", "..x ... ..x ...",
	}, Hold: 6 * Slot, LateMS: 3, RollMS: 5, Stray: 0.35, Silence: 0.08, Force: 0.72},
	Bass: Bass{Figure{
		"1.1 3.. 5.5 a..", "1.. 3.. 5.7 5.a", "1.1 1.. 5.5 5.a", "1.. 3.3 5.. 7.a",
	}, 0.85, 0.25},
	Swing: triplets,
}
