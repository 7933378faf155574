package sound

import (
	"heddle/exercise"
	"heddle/line"
)

// A Vamp is what is played under the line.
type Vamp string

// The vamps.
const (
	ClickVamp  Vamp = "click"  // a click alone
	DroneVamp  Vamp = "drone"  // the chord held, struck again each bar
	FunkVamp   Vamp = "funk"   // straight sixteenths
	SwingVamp  Vamp = "swing"  // ride cymbal and walking bass
	BalladVamp Vamp = "ballad" // slow, soft and sparse
)

// vamps lists the vamps as they are typed.
var vamps = []string{string(ClickVamp), string(DroneVamp), string(FunkVamp), string(SwingVamp), string(BalladVamp)}

// Vamps returns every vamp.
func Vamps() []Vamp { return []Vamp{ClickVamp, DroneVamp, FunkVamp, SwingVamp, BalladVamp} }

// ParseVamp reads a vamp's name.
func ParseVamp(s string) (Vamp, error) {
	i, err := choose("vamp", s, vamps)
	if err != nil {
		return "", err
	}
	return Vamp(vamps[i]), nil
}

// slowTempo is the tempo in quarter notes a minute below which straight
// exercises get a ballad: common practice calls tempi to about 70 slow.
const slowTempo = 70

// VampFor chooses the vamp that suits an exercise, by its feel and the tempo
// that is written. Playing it slower or faster keeps the same band.
func VampFor(ex *exercise.Exercise) Vamp {
	switch {
	case ex.Rhythm.Swing.Long > ex.Rhythm.Swing.Short:
		return SwingVamp
	case ex.Tempo < slowTempo:
		return BalladVamp
	}
	return FunkVamp
}

// drums reports whether the vamp has a drummer.
func (v Vamp) drums() bool { return v == FunkVamp || v == SwingVamp || v == BalladVamp }

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
