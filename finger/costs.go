package finger

// An effort is a cost in hundredths of a mm of hand travel. Every cost answers one
// question: how far would a player rather move the whole hand along the neck than
// do this once? Whole numbers keep sums exact, so that equal ways tie on every
// machine.
//
// The kinds of cost are those of Sayegh (1989) and Radicioni and Lombardo (2005).
// The figures are heddle's own, chosen so that the fingerings agree with common
// practice.
type effort int64

// mm is the effort of moving the hand one mm at the reference pace.
const mm effort = 100

// never is the effort of what no hand does: larger than any real sum, even at a
// leisurely pace, and small enough to add to and to multiply by a pace.
const never effort = 1 << 52

// Costs of each note:
const (
	// Higher frets take longer to read and find: a note without a preferred spot
	// is played low on the neck. For each fret.
	perFret = 50 * mm / 100

	// Past the twelfth fret the body is in the way and the thick strings sound
	// dull. For each fret beyond it, again without a preferred spot.
	highFret    = 12
	perHighFret = 5 * mm

	// The placement's own spot is the one the player has learned; another must
	// save a real movement.
	notPreferred = 20 * mm

	// An open string has no finger to shape its tone, and sounds unlike its
	// neighbours.
	openString = 2 * mm

	// The further up the hand is, the worse open strings fit: they belong to
	// first position. For each fret from there.
	openFromAfar = 4 * mm

	// The third finger is tied to its neighbours, the fourth is the weakest.
	weakSecond = 30 * mm / 100
	weakThird  = 1 * mm
	weakFourth = 150 * mm / 100

	// A string is pushed by a semitone or more with the third finger and two behind
	// it; the fourth is weaker, the second has one behind it. The first has none: the
	// hand moves rather than bend with it.
	bendFirst  = 100 * mm
	bendSecond = 5 * mm
	bendFourth = 3 * mm

	// A hand held wider than four frets in fifth position (80 mm at a scale
	// length of 648 mm) tires: percent of each mm beyond.
	comfortMM     = 80
	strainPercent = 10

	// A hand opened beyond one finger per fret no longer gives each finger its
	// own fret: percent of each mm beyond.
	openedPercent = 55
)

// Costs of each change from one note to the next, higher if there is less time
// (see the pace below), for the fretting hand:
const (
	// Moving the hand means releasing the thumb and aiming again, however short
	// the distance; then each mm counts as one mm.
	shiftStart = 3 * mm

	// A shift is aimed by the finger that leads it, the first going up, the
	// fourth going down; landing on another costs more. So does moving inside
	// a group, which the player thinks of as one shape under one hand.
	shiftUnled       = 2 * mm
	shiftInsideGroup = 6 * mm

	// Opening or closing the hand around a finger that stays: percent of each mm
	// that either end moves.
	openingPercent = 150

	// While an open string rings the hand is free to move: percent of what
	// the movement would cost from a stopped note.
	fromOpenPercent = 50

	// The same finger again: rolled flat to the next string's same fret, moved
	// up or down its string as a guide, or lifted to another place. The fourth,
	// the weakest, is a poor guide and a poor finger to slide with.
	fingerRoll  = 4 * mm
	fingerGuide = 2 * mm
	guideFourth = 10 * mm
	fingerJump  = 12 * mm

	// A note that is played again keeps its finger: this is more than any
	// movement of the hand costs, so that only given fingers change there.
	fingerChanged = 2000 * mm

	// Two fingers in turn with fewer frets between them than between their
	// numbers, because the hand moved: on neighbouring frets, players use
	// neighbouring fingers and not the first and fourth. For each finger between,
	// on one string or two neighbouring ones.
	fingersCrowded = 6 * mm

	// Two neighbouring fingers in turn on one string, the higher one on the lower
	// fret, because the hand moved past a finger: it would rather take the finger
	// along, or put the first or fourth down there.
	fingersCrossed = 20 * mm

	// Two fingers in turn with more frets between them than between their
	// numbers, by the easiest gap that can open: first and second open widely,
	// third and fourth less, second and third least. For each fret.
	stretchFirstSecond = 1 * mm
	stretchThirdFourth = 4 * mm
	stretchSecondThird = 6 * mm
)

// … and for the picking hand, which moves a tenth as far but must be as precise:
const (
	// A sweep carries on to the next string. Outside picking comes to both
	// strings from beyond the pair; inside picking is between them. A hop repeats
	// a stroke against its own direction.
	crossSweep   = 1 * mm
	crossOutside = 3 * mm
	crossInside  = 4 * mm
	strokeHop    = 12 * mm

	// After a slur the pick can be anywhere: the easiest stroke is in the
	// direction of the crossing.
	crossFromSlur        = 1 * mm
	crossFromSlurAgainst = 3 * mm

	// Each string passed over must be missed.
	stringSkipped = 3 * mm

	// The same stroke twice on one string; and a line that begins with an up
	// stroke, which pays if it turns the first crossing into a sweep.
	strokeRepeated = 4 * mm
	upFirst        = 250 * mm / 100

	// Slurs: a slide must stop on its fret by ear; a hammer-on or pull-off while
	// the hand shifts has no finger to lean on; the fourth finger is weak.
	slurSlide  = 14 * mm
	slurShift  = 50 * mm
	slurFourth = 1 * mm
)

// The pace: changes cost 100 percent if the next note begins after the line's
// median gap, in proportion more if sooner and less if later, between these
// limits: a quick run is not ten times as hard, nor is moving before a long note
// free. Tempo does not count: a fingering learned slowly must also be the one to
// play fast.
const (
	hurried   = 200
	leisurely = 50
)

// Hands:
const (
	// One finger per fret is the hand at rest: the fourth finger is three frets
	// above the first.
	onePerFret = 3

	// Six frets is the most under one hand, however narrow they are: no two
	// neighbouring fingers should be more than three frets apart.
	widestHand = 5
)
