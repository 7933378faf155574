package sound

import (
	"fmt"
	"math"
	"testing"

	"heddle/audio"
	"heddle/exercise"
	"heddle/internal/need"
	"heddle/sound/dsp"
)

// anySpec returns a short exercise of any kind.
func anySpec(d *dsp.Dice) exercise.Spec {
	pick := func(s ...string) string { return s[d.Below(len(s))] }
	s := exercise.Spec{
		Home:      pick("A", "Bb", "C", "D", "Eb", "E", "F#", "G") + " " + pick("minor pentatonic", "major pentatonic", "dorian", "mixolydian", "minor blues"),
		Value:     pick("quarter", "eighth", "eighth-triplet", "sixteenth", "sixteenth-triplet", "quintuplet"),
		Direction: pick("down", "up", "down-up", "up-down"),
		Follow:    pick("first", "last"),
		Feel:      pick("straight", "straight", "swing 2:1", "swing 3:2"),
		Meter:     pick("4/4", "4/4", "3/4", "6/8", "5/4", "7/8"),
		Picking:   pick("alternate", "economy", "legato"),
		Names:     pick("english", "german", "solfege"),
		Tempo:     60 + float64(d.Below(200)),
		Bars:      1 + d.Below(2),
		Land:      pick("none", "none", "third", "root"),
	}
	if d.Unit() < 0.7 {
		s.Superimpose = []string{pick("tritone", "semitone up", "minor third up", "tone down")}
	}
	s.Instrument = pick("guitar", "guitar", "guitar", "seven-string guitar", "bass", "ukulele", "mandolin")
	if d.Unit() < 0.25 {
		s.Changes = pick("Gm7 | C7", "A7 D7 | E7 / / A7", "blues in A", "Dm7 | G7 | Cmaj7 | A7", "Bø | E7 | Am7")
		s.Bars = 0
	}
	return s
}

// anyOptions returns any way to play it that lasts a few seconds.
func anyOptions(d *dsp.Dice) Options {
	o := DefaultOptions()
	o.SampleRate, o.Seed = 24000, d.Next()
	o.Vamp = Vamps()[d.Below(len(Vamps()))]
	if d.Unit() < 0.5 {
		o.Tone = Tones()[d.Below(len(Tones()))]
	}
	o.Articulation = Articulations()[d.Below(3)]
	o.ClickOn = []ClickOn{"", EveryBeat, TwoFour, OnceABar}[d.Below(4)]
	o.Voice = d.Unit() < 0.5
	o.CallAndResponse = d.Unit() < 0.2
	o.SilentEveryOther = d.Unit() < 0.2
	o.Loops = 1 + d.Below(2)
	if d.Unit() < 0.1 {
		o.Loops, o.Ladder = 0, Ladder{80, 100, 20, 1}
	}
	if d.Unit() < 0.5 {
		o.Seamless, o.CountIn = true, 0
	}
	return o
}

// Of 500 generated exercises (8 in the everyday run) none has a sample over full scale or a true peak
// over −1 dBTP, none direct current, and no loop a jump at its seam.
func TestGeneratedExercisesAreClean(t *testing.T) {
	wanted := 8
	if need.All() && !testing.Short() {
		wanted = 500
	}
	d := dsp.Dice(20)
	made, seams, loudest := 0, 0, math.Inf(-1)
	for tries := 0; made < wanted; tries++ {
		if tries > 4*wanted {
			t.Fatalf("of %d specs only %d could be built", tries, made)
		}
		spec := anySpec(&d)
		o := anyOptions(&d)
		ex, err := exercise.Build(spec)
		if err != nil {
			continue
		}
		made++
		name := fmt.Sprintf("%s; %+v", ex.Sentence, o)
		mix, line := rendered(t, ex, o)
		m := audio.NewMeter(mix.SampleRate)
		left, right := mix.Left(), mix.Right()
		m.Write(left, right)
		loudest = max(loudest, m.TruePeak())
		if m.TruePeak() > -1 || highest(mix.Samples) > 1 {
			t.Errorf("%s: true peak %.2f dBTP, highest sample %g", name, m.TruePeak(), highest(mix.Samples))
		}
		if int64(len(left)) != line.Samples || len(left) == 0 {
			t.Errorf("%s: %d samples, the timeline says %d", name, len(left), line.Samples)
		}
		for side, s := range [][]float32{left, right} {
			checkNoDC(t, name, s)
			if o.Seamless {
				seams++
				checkSeam(t, fmt.Sprintf("%s, side %d", name, side), s)
			}
		}
	}
	t.Logf("%d exercises, %d seams, highest true peak %.2f dBTP", made, seams, loudest)
}

// checkNoDC finds a mean: a thousandth of full scale is −60 dB.
func checkNoDC(t *testing.T, name string, s []float32) {
	t.Helper()
	sum := 0.0
	for i, x := range s {
		if x != x {
			t.Fatalf("%s: sample %d is not a number", name, i)
		}
		sum += float64(x)
	}
	if mean := sum / float64(len(s)); math.Abs(mean) > 1e-3 {
		t.Errorf("%s: the mean is %g", name, mean)
	}
}

// checkSeam compares the second difference across the seam, by which a jump or
// a corner shows, with those in the tenth of a second round it.
func checkSeam(t *testing.T, name string, s []float32) {
	t.Helper()
	n := len(s)
	at := func(i int) float64 { return float64(s[((i%n)+n)%n]) }
	bend := func(i int) float64 { return math.Abs(at(i-1) - 2*at(i) + at(i+1)) }
	most := 0.0
	for i := 2; i < min(1200, n/3); i++ {
		most = max(most, bend(i), bend(-1-i))
	}
	if seam := max(bend(-1), bend(0)); seam > 1.5*most+1e-3 {
		t.Errorf("%s: the seam bends by %g, its surroundings by %g at most", name, seam, most)
	}
}
