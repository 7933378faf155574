package sound

import (
	"heddle/exercise"
	"heddle/line"
	"heddle/sound/groove"
)

// A Vamp is what is played under the line.
type Vamp string

// The vamps.
const (
	ClickVamp          Vamp = "click" // a click alone
	DroneVamp          Vamp = "drone" // the chord held, struck again each bar
	FunkVamp           Vamp = "funk"
	SixteenthFunkVamp  Vamp = "sixteenth funk"
	HalfTimeVamp       Vamp = "half-time"
	SwingVamp          Vamp = "swing"
	FastSwingVamp      Vamp = "up-tempo swing"
	SlowBluesVamp      Vamp = "slow blues"
	BossaVamp          Vamp = "bossa"
	BalladVamp         Vamp = "ballad" // with brushes
	StraightBalladVamp Vamp = "straight ballad"
)

// grooves holds what the band plays in each vamp that has a drummer.
var grooves = map[Vamp]groove.Groove{
	FunkVamp: groove.Funk, SixteenthFunkVamp: groove.SixteenthFunk, HalfTimeVamp: groove.HalfTime,
	SwingVamp: groove.Swing, FastSwingVamp: groove.FastSwing, SlowBluesVamp: groove.SlowBlues,
	BossaVamp: groove.Bossa, BalladVamp: groove.Ballad, StraightBalladVamp: groove.StraightBallad,
}

// Vamps returns every vamp.
func Vamps() []Vamp {
	return []Vamp{ClickVamp, DroneVamp, FunkVamp, SixteenthFunkVamp, HalfTimeVamp, SwingVamp, FastSwingVamp,
		SlowBluesVamp, BossaVamp, BalladVamp, StraightBalladVamp}
}

// ParseVamp reads a vamp's name; hyphens may stand for spaces.
func ParseVamp(s string) (Vamp, error) {
	i, err := choose("vamp", s, typed(Vamps()))
	if err != nil {
		return "", err
	}
	return Vamps()[i], nil
}

// Tempi in quarter notes a minute (common practice): straight exercises up to
// the first are slow and get a ballad, swung ones a slow blues; from the second on a swing is
// fast.
const (
	slowTempo = 70
	fastTempo = 190
)

// VampFor chooses the vamp that suits an exercise, by its feel and the tempo
// that is written. Playing it slower or faster keeps the same band.
func VampFor(ex *exercise.Exercise) Vamp {
	switch swings := !ex.Rhythm.Swing.Straight(); {
	case swings && ex.Tempo < slowTempo:
		return SlowBluesVamp
	case swings && ex.Tempo >= fastTempo:
		return FastSwingVamp
	case swings:
		return SwingVamp
	case ex.Tempo < slowTempo:
		return BalladVamp
	}
	return FunkVamp
}

// drums reports whether the vamp has a drummer.
func (v Vamp) drums() bool { return len(grooves[v].Limbs) > 0 }

// A ClickOn says which beats are clicked. The zero ClickOn clicks every beat
// where no drums play, and none where they do.
type ClickOn string

// Where the click can fall. A count-in always has every beat.
const (
	EveryBeat ClickOn = "all"
	TwoFour   ClickOn = "2 and 4"
	OnceABar  ClickOn = "once a bar"
)

// clicks lists where the click can fall, as it is typed.
var clicks = []string{string(EveryBeat), string(TwoFour), string(OnceABar)}

// ParseClickOn reads where the click falls; hyphens may stand for spaces.
func ParseClickOn(s string) (ClickOn, error) {
	i, err := choose("click", s, clicks)
	if err != nil {
		return "", err
	}
	return ClickOn(clicks[i]), nil
}

// falls reports whether the click falls on a beat of a bar, both from 0.
// "2 and 4" is every second beat, so that it means something in any metre;
// a bar of one beat has it there.
func (c ClickOn) falls(beat, beats int) bool {
	switch c {
	case TwoFour:
		return beat%2 == 1 || beats == 1
	case OnceABar:
		return beat == 0
	}
	return true
}

// meterOf returns the exercise's metre, 4/4 where it has none.
func meterOf(r line.Rhythm) (line.Meter, error) {
	if r.Meter == (line.Meter{}) {
		return line.CommonTime, nil
	}
	return r.Meter, r.Meter.Check()
}
