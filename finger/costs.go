package finger

// An effort is a cost in hundredths of a mm of hand travel. Every cost
// answers one question: how far along the neck would a player sooner move the
// whole hand than do this once? Whole numbers keep sums exact, so that equal
// ways tie on every machine.
//
// The kinds of cost are those of Sayegh (1989) and Radicioni and Lombardo
// (2005); the figures are heddle's own, weighed by the fingerings that come
// out of them against common practice.
type effort int64

// mm is the effort of moving the hand one mm at the reference pace.
const mm effort = 100

// never is the effort of what no hand does: larger than any real sum, even at
// a leisurely pace, and small enough to be added to and multiplied by a pace.
const never effort = 1 << 52

// Each note costs by itself:
const (
	// A fret further up is read and found later: a note that prefers no spot
	// is taken low on the neck first. For each fret.
	perFret = 50 * mm / 100

	// Past the twelfth the body of the instrument is in the way and the thick
	// strings grow dull. For each fret beyond, again where no spot is preferred.
	highFret    = 12
	perHighFret = 5 * mm

	// The placement's own spot is the one the eye has learned; leaving it must
	// save a real movement.
	notPreferred = 20 * mm

	// An open string can be neither shaded nor stopped by the finger that
	// plays it, and sounds unlike its neighbours.
	openString = 2 * mm

	// … the more so the further up the hand is; where open strings are in play
	// the hand is at home in first position. For each fret from there.
	openFromAfar = 4 * mm

	// The third finger is tied to its neighbours, the fourth is the weakest.
	weakSecond = 30 * mm / 100
	weakThird  = 1 * mm
	weakFourth = 150 * mm / 100

	// A hand held wider than four frets in fifth position (80 mm at a scale
	// length of 648 mm) tires: percent of each mm beyond.
	comfortMM     = 80
	strainPercent = 10

	// A hand opened beyond one finger per fret has lost the frame that tells
	// each finger its fret: percent of each mm beyond.
	openedPercent = 55
)

// Each change from one note to the next costs, the more the less time there
// is for it (see the pace below), for the fretting hand:
const (
	// Moving the hand means letting the thumb go and aiming anew, however
	// short the way; then each mm is one mm.
	shiftStart = 3 * mm

	// A shift is aimed by the finger that leads it, the first going up, the
	// fourth going down; landing on another costs more. So does moving inside
	// a group, which the player thinks of as one shape under one hand.
	shiftUnled       = 2 * mm
	shiftInsideGroup = 6 * mm

	// Opening or closing the hand about a finger that stays is surer than
	// moving all of it: percent of each mm that either end moves.
	openingPercent = 150

	// While an open string rings the hand is free to move: percent of what
	// the movement would cost from a stopped note.
	fromOpenPercent = 50

	// The same finger again: rolled flat to the next string's same fret, moved
	// up or down its string as a guide, or lifted to another place.
	fingerRoll  = 4 * mm
	fingerGuide = 2 * mm
	fingerJump  = 12 * mm

	// Two fingers in turn with a fret more between them than their numbers
	// say, by the easiest gap that can give: first and second part widely,
	// third and fourth less, second and third least. For each fret.
	stretchFirstSecond = 1 * mm
	stretchThirdFourth = 4 * mm
	stretchSecondThird = 6 * mm
)

// … and for the picking hand, which moves a tenth as far but must be as sure:
const (
	// A sweep falls through to the next string. From outside, the pick comes
	// to both strings from beyond the pair; from inside, it is caught between
	// them. Hopping repeats a stroke against its own way.
	crossSweep   = 1 * mm
	crossOutside = 3 * mm
	crossInside  = 4 * mm
	strokeHop    = 12 * mm

	// After a slur the pick waits anywhere: it goes most easily with the way
	// of the crossing.
	crossFromSlur        = 1 * mm
	crossFromSlurAgainst = 3 * mm

	// Each string passed over must be missed.
	stringSkipped = 3 * mm

	// The same stroke twice on one string; and a line that begins upward, which
	// is worth it when the first crossing becomes a sweep by it.
	strokeRepeated = 4 * mm
	upFirst        = 250 * mm / 100

	// Slurs: a slide must stop on its fret by ear; a hammer or pull while the
	// hand shifts has no finger to lean on; the fourth finger is soft.
	slurSlide  = 14 * mm
	slurShift  = 50 * mm
	slurFourth = 1 * mm
)

// The pace: changes cost 100 percent when the next note begins after the gap
// that is the line's median, more when sooner and less when later, in
// proportion, between these limits: a hand does not tire tenfold in a quick
// run, nor move for nothing before a long note. The tempo has no say: the
// fingering learned slowly must be the one that is played fast.
const (
	hurried   = 200
	leisurely = 50
)

// Hands:
const (
	// One finger per fret is the hand at rest: the fourth finger lies three
	// frets above the first.
	onePerFret = 3

	// Six frets under one hand is the most, however narrow they are: no two
	// neighbouring fingers should part by more than three frets.
	widestHand = 5
)
