package groove

import "heddle/sound/drumkit"

// Bossa has the stick on the rim in two bars, even eighths, the kick on one and
// before three, root and fifth in the bass.
var Bossa = Groove{
	Limbs: []Limb{
		{drumkit.CrossStick, drumkit.CrossStick, Figure{
			"x... ..x. .... x...|.... x... ..x. ....", "x... ..x. .... ..x.|.... x... ..x. ....", "x... x... ..x. ....|..x. .... x... ..x.",
		}, 2, 0.08},
		{drumkit.HatClosed, drumkit.HatClosed, Figure{"x.o. x.o. x.o. x.o.", "x.oo x.o. x.oo x.o."}, -1, 0.2},
		{drumkit.Shaker, drumkit.Shaker, Figure{"oooo xooo oooo xooo", "o.x. o.x. o.x. o.x."}, 0, 0.1},
		{drumkit.SoftKick, drumkit.SoftKick, Figure{"X... ..x. X... ..x.", "X... ..o. X... ..x.", "X... ..x. X... ...."}, 1, 0.15},
	},
	Fill:    []string{"x.x.", "xx.x", ".xx."},
	BigFill: []string{"x.x. .xx.", "xx.x x.x."},
	FillOn:  drumkit.CrossStick, Mark: drumkit.Ride,
	Ending: []drumkit.Piece{drumkit.SoftKick, drumkit.CrossStick, drumkit.Ride},
	Keys: Keys{Plays: Figure{
		"x... ..x. .... x...|.... x... ..x. ....", "x... ..x. ..x. ....|..x. .... x... ..x.", "..x. x... ..x. ....", "x... x... ..x. ..x.",
	}, Hold: 3 * Slot, LateMS: 1, RollMS: 5, Stray: 0.15, Silence: 0.05, Force: 0.62},
	Bass: Bass{Figure{
		"1... ..5. 5... ..a.", "1... ..1. 5... ..a.", "1... ..5. 8... ..a.", "1... ..5. 5..5 ..a.",
	}, 0.88, 0.15},
}
