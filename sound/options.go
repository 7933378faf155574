package sound

import (
	"fmt"
	"strconv"

	"heddle/exercise"
	"heddle/pitch"
)

// Options say how an exercise is played. [DefaultOptions] gives the usual
// ones; the zero Options are those without count-in and with every part in
// the middle.
type Options struct {
	SampleRate   int  // Hz, 22050 to 96000; 0 for 48000
	Vamp         Vamp // "" for VampFor
	Tone         Tone // of the line; "" for ToneFor
	Articulation Articulation
	ClickOn      ClickOn
	CountIn      int // bars of click before the line
	Loops        int // how often the line is played; 0 for once, or as the ladder asks

	// CallAndResponse follows each line with as many bars without it.
	CallAndResponse bool
	// SilentEveryOther leaves only the click in every second loop.
	SilentEveryOther bool
	Ladder           Ladder

	// Tempo in quarter notes a minute overrides the exercise's; 0 leaves it.
	Tempo float64

	// Seamless makes the last sample run into the first, for players that
	// repeat the sound. It goes with neither count-in nor ending.
	Seamless bool

	// Voice speaks the note names, in the exercise's naming.
	Voice bool

	Mix  [parts]Strip
	Gain float64 // of the whole mix, as a factor; 0 for the one that Gain finds
	Seed uint64
}

// DefaultOptions returns one bar of count-in, one time through, and the parts
// placed in the stereo picture as a listener faces a small band.
func DefaultOptions() Options {
	o := Options{SampleRate: defaultRate, CountIn: 1}
	o.Mix[Line].Pan = 0.12
	o.Mix[Chords].Pan = -0.3
	return o
}

// The limits of what is asked.
const (
	defaultRate    = 48000
	mostCountIn    = 8
	mostLoops      = 1000
	mostMinutes    = 60 // of one file
	mostPassMinute = 10 // of one time through the line
)

// sampleRates returns the accepted sample rates in Hz.
func sampleRates() []int { return []int{22050, 24000, 32000, 44100, 48000, 96000} }

// ParseSampleRate reads one of the accepted sample rates.
func ParseSampleRate(s string) (int, error) {
	words := make([]string, 0, 6)
	for _, r := range sampleRates() {
		words = append(words, strconv.Itoa(r))
	}
	i, err := choose("sample rate", s, words)
	if err != nil {
		return 0, err
	}
	return sampleRates()[i], nil
}

// settled fills in what the options leave open and refuses what can't be.
func (o Options) settled(ex *exercise.Exercise) (Options, error) {
	if o.SampleRate == 0 {
		o.SampleRate = defaultRate
	}
	if _, err := ParseSampleRate(strconv.Itoa(o.SampleRate)); err != nil {
		return o, err
	}
	if o.Tempo == 0 {
		o.Tempo = ex.Tempo
	}
	if !(inTempoRange(o.Tempo)) {
		return o, &pitch.InputError{What: "tempo", Value: number(o.Tempo), Want: tempoWant}
	}
	if o.Vamp == "" {
		o.Vamp = VampFor(ex)
	}
	if _, err := ParseVamp(string(o.Vamp)); err != nil {
		return o, err
	}
	if o.Tone == "" {
		o.Tone = ToneFor(ex.Instrument)
	}
	if _, err := ParseTone(string(o.Tone)); err != nil {
		return o, err
	}
	if _, err := ParseArticulation(string(o.Articulation)); o.Articulation != "" && err != nil {
		return o, err
	}
	if _, err := ParseClickOn(string(o.ClickOn)); o.ClickOn != "" && err != nil {
		return o, err
	}
	if err := o.checkCounts(); err != nil {
		return o, err
	}
	for p, strip := range o.Mix {
		if err := strip.check(Part(p)); err != nil {
			return o, err
		}
	}
	if o.Loops == 0 {
		o.Loops = max(1, o.Ladder.loops())
	}
	return o, nil
}

// tempoWant says which tempi are accepted.
var tempoWant = fmt.Sprintf("quarter notes a minute from %d to %d", exercise.SlowestTempo, exercise.FastestTempo)

// checkCounts refuses counts out of range and shapes that contradict.
func (o Options) checkCounts() error {
	if o.CountIn < 0 || o.CountIn > mostCountIn {
		return &pitch.InputError{What: "count-in", Value: strconv.Itoa(o.CountIn), Want: fmt.Sprintf("bars from 0 to %d", mostCountIn)}
	}
	if o.Loops < 0 || o.Loops > mostLoops {
		return &pitch.InputError{What: "loops", Value: strconv.Itoa(o.Loops), Want: fmt.Sprintf("a number from 0 to %d", mostLoops)}
	}
	if o.Seamless && o.CountIn > 0 {
		return &pitch.InputError{What: "count-in", Value: strconv.Itoa(o.CountIn), Want: "0 for a seamless loop, since it would be heard again each time round"}
	}
	return o.Ladder.check()
}
