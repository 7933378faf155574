package groove

import "heddle/sound/drumkit"

// Funk is a slow funk: a strong one, the snare on the back beats with soft
// notes between, hats in sixteenths or eighths, short chords off the beat.
var Funk = Groove{
	Limbs: []Limb{
		{drumkit.Kick, drumkit.Kick, Figure{
			"X..x .... ..X. ...x", "X... ...x ..Xx ....", "X.x. .... x.X. ..x.", "X..x ..x. ..X. ....", "X... .... X..x ..x.",
		}, 0, 0.22},
		{drumkit.Snare, drumkit.Ghost, Figure{
			".... X..o .o.. X...", ".... X... .o.o X..o", "...o X..o .o.. X.o.", ".... X.o. .o.. X..o",
		}, 5, 0.25},
		{drumkit.HatClosed, drumkit.HatClosed, Figure{
			"Xoxo xoxo Xoxo xoxo", "X.x. x.x. X.x. x.x.", "Xoxo x.xo Xoxo xox.", "Xox. xoxo Xox. xoxo",
		}, -1, 0.3},
		{drumkit.HatOpen, drumkit.HatOpen, Figure{"|", "|.... .... .... ..x.", "|.... .... .... ..x."}, 0, 0.5},
	},
	Fill:    []string{"X.xx", "Xoxx", "x.XX", "XoXo"},
	BigFill: []string{"xxhh mmll", "X.xh h.ll", "xohm ohml", "X.oX hmlX"},
	FillOn:  drumkit.Snare, Mark: drumkit.Crash,
	Ending: []drumkit.Piece{drumkit.Kick, drumkit.HatOpen},
	Keys: Keys{Plays: Figure{
		"x... ...x .... ..x.", "...x ..x. .... ...x", ".... x... ..x. ....", "x..x .... x... ..x.", "..x. ...x ..x. ....",
	}, Hold: Slot * 3 / 4, LateMS: 1, RollMS: 1.5, Stray: 0.3, Silence: 0.1, Force: 0.85},
	Bass: Bass{Figure{
		"1..1 ..5. 1.d. ..5a", "1... ...7 ..1. 7.5a", "1.d1 ..d8 .d1. ..aa", "1..8 ..75 8..7 ...a", "1..1 .... ..57 ..5a",
	}, 0.62, 0.25},
}

// SixteenthFunk is faster in its notes: a busy bass, ghost notes everywhere, the
// keys chopping.
var SixteenthFunk = Groove{
	Limbs: []Limb{
		{drumkit.Kick, drumkit.Kick, Figure{
			"X..x ...x .xX. .x..", "X.x. ...x ..X. x..x", "X..x ..x. .xX. ...x", "X..x .x.. x.X. .x..",
		}, 0, 0.2},
		{drumkit.Snare, drumkit.Ghost, Figure{
			"..o. X.oo .oo. X..o", ".oo. X..o .o.o X.o.", "..oo X.o. .oo. X.oo", "..o. X..o .o.X ..oo",
		}, 3, 0.25},
		{drumkit.HatClosed, drumkit.HatClosed, Figure{
			"Xoxo Xoxo Xoxo Xoxo", "Xoxx xoxo Xoxx xoxo", "XoxX oxXo xoXo xoxo",
		}, -2, 0.25},
		{drumkit.HatOpen, drumkit.HatOpen, Figure{".... ..x. .... ....", "|.... .... .... ..x.", "|"}, 0, 0.3},
	},
	Fill:    []string{"XXxx", "XoXx", "xXoX", "oxXX"},
	BigFill: []string{"XoXh hmll", "xxhh mmlX", "XxhX hmlX"},
	FillOn:  drumkit.Snare, Mark: drumkit.Crash,
	Ending: []drumkit.Piece{drumkit.Kick, drumkit.Crash},
	Keys: Keys{Plays: Figure{
		"x..x .x.. x..x .x..", "..x. x..x ..x. .xx.", ".x.x ..x. .x.x ..x.", "x.x. .x.. ..x. x..x",
	}, Hold: Slot / 2, LateMS: 0, RollMS: 1, Stray: 0.25, Silence: 0.12, Force: 0.8},
	Bass: Bass{Figure{
		"1.d1 .8d. 1d.1 5d7a", "1d.1 d8.7 .d1. 7d5a", "11.d ..8. d1.7 .57a", "1..d 1.d8 .7d5 1.da",
	}, 0.55, 0.25},
}

// HalfTime has its back beat on the third pulse, so that a fast line has
// room above it.
var HalfTime = Groove{
	Limbs: []Limb{
		{drumkit.Kick, drumkit.Kick, Figure{
			"X... .... .... ..x.", "X..x .... .... ....", "X... ..x. .... ...x", "X.x. .... ...x ..x.",
		}, 0, 0.2},
		{drumkit.Snare, drumkit.Ghost, Figure{
			".... .... X... ....", ".... ...o X... ..o.", "..o. .... X... ...o",
		}, 6, 0.15},
		{drumkit.HatClosed, drumkit.HatClosed, Figure{
			"X.x. x.x. X.x. x.x.", "X.xo x.x. X.x. x.xo", "Xoxo xoxo Xoxo xoxo",
		}, -1, 0.2},
	},
	Fill:    []string{"..xx", "x.hl", "..XX"},
	BigFill: []string{"x.hh m.ll", "..xh mlll"},
	FillOn:  drumkit.Snare, Mark: drumkit.Crash,
	Ending: []drumkit.Piece{drumkit.Kick, drumkit.Crash},
	Keys: Keys{Plays: Figure{
		"x... .... .... ....", "x... .... ..x. ....", "x... ...x .... ....", "..x. .... x... ....",
	}, LateMS: 1, RollMS: 4, Stray: 0.25, Force: 0.7},
	Bass: Bass{Figure{
		"1... .... ..1. ...a", "1... ..5. .... ..5a", "1..1 .... .... 5.a.", "1... .... 8..7 ..5a",
	}, 0.85, 0.2},
}
