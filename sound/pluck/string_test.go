package pluck

import (
	"math"
	"testing"

	"heddle/finger"
	"heddle/sound/dsp"
	"heddle/sound/mixer"
)

// guitarStrings are the guitar's open strings as keys, string 1 first.
var guitarStrings = []float64{64, 59, 55, 50, 45, 40}

// playNotes plays notes on a guitar and returns so many seconds of it.
func playNotes(seconds float64, notes ...Note) []float32 {
	const rate = 48000
	p := New(ElectricClean, guitarStrings, 648, rate, mixer.Place{Left: 1})
	p.Queue(notes, 0)
	out := make([]float32, int(seconds*rate))
	for at := 0; at < len(out); at += mixer.BlockLength {
		n := min(mixer.BlockLength, len(out)-at)
		b := mixer.Block{From: int64(at), Left: out[at : at+n], Right: make([]float32, n), Send: make([]float32, n)}
		p.Play(&b)
	}
	return out
}

// note is a note on a string of the guitar, in seconds.
func note(str int, fret, at, off float64, stroke finger.Stroke) Note {
	return Note{String: str - 1, Open: guitarStrings[str-1], Fret: fret, At: int64(at * 48000), Off: int64(off * 48000), Stroke: stroke, Force: 0.8}
}

// highestOf returns the size of the largest sample.
func highestOf(s []float32) (top float32) {
	for _, x := range s {
		top = max(top, x, -x)
	}
	return top
}

func energyOf(s []float32) (sum float64) {
	for _, x := range s {
		sum += float64(x) * float64(x)
	}
	return sum
}

// levelDB returns the RMS level of a stretch in dB.
func levelDB(s []float32, from, to float64) float64 {
	part := s[int(from*48000):int(to*48000)]
	return 10 * math.Log10(energyOf(part)/float64(len(part))+1e-20)
}

// centroid returns the mean of the harmonics' frequencies by their amplitude.
func centroid(s []float32, hz float64) float64 {
	sum, weight := 0.0, 0.0
	for h := 1.0; h*hz < 8000; h++ {
		p := partialAt(s, 1200, 7200, h*hz, 48000)
		a := math.Hypot(real(p), imag(p))
		sum += a * h * hz
		weight += a
	}
	return sum / weight
}

func TestANoteStopsWhenItIsLetGoAndWhenItsStringIsPlayedAgain(t *testing.T) {
	alone := playNotes(1.5, note(3, 5, 0, 1, finger.Down))
	if drop := levelDB(alone, 0.9, 1) - levelDB(alone, 1.08, 1.18); drop < 80 {
		t.Errorf("a note let go is still at −%.0f dB, want silence", drop)
	}
	// The first note is C4; the second, on the same string, G4.
	again := playNotes(1.5, note(3, 5, 0, 1.4, finger.Down), note(3, 12, 0.5, 1.4, finger.Down))
	c4, g4 := 261.6256, 391.9954
	at := func(hz, from float64) float64 {
		p := partialAt(again, int(from*48000), 9600, hz, 48000)
		return 20 * math.Log10(math.Hypot(real(p), imag(p)))
	}
	if before, after := at(c4, 0.25), at(c4, 0.56); before-after < 40 {
		t.Errorf("the note before has fallen by %.0f dB, want it gone", before-after)
	}
	if at(g4, 0.56) < at(c4, 0.25)-12 {
		t.Errorf("the new note is at %.0f dB, the old one was at %.0f", at(g4, 0.56), at(c4, 0.25))
	}
	// On another string the first note rings on.
	other := playNotes(1.5, note(3, 5, 0, 1.4, finger.Down), note(2, 8, 0.5, 1.4, finger.Down))
	again = other
	if before, after := at(c4, 0.25), at(c4, 0.56); before-after > 6 {
		t.Errorf("a note on another string makes this one fall by %.0f dB", before-after)
	}
}

// Cutting notes leaves no click: where a note is damped or struck again,
// nothing above 9 kHz, where the guitar has next to nothing, rises over what
// was there before.
func TestNoNoteEndsWithAClick(t *testing.T) {
	high := func(s []float32) []float32 {
		h := append([]float32(nil), s...)
		for range 3 {
			dsp.HighPass(9000, 0.7, 48000).Filter(h)
		}
		return h
	}
	for str := 1; str <= 6; str++ {
		for _, off := range []float64{0.301, 0.3037, 0.3111} {
			s := high(playNotes(0.6, note(str, 3, 0, off, finger.Down)))
			before, end := highestOf(s[int(0.2*48000):int(0.29*48000)]), highestOf(s[int(0.3*48000):])
			if end > 1.2*before {
				t.Errorf("string %d let go at %g s: %g above 9 kHz, before it was %g", str, off, end, before)
			}
		}
	}
}

func TestLegatoGoesOnWithoutThePick(t *testing.T) {
	attack := func(stroke finger.Stroke) float64 {
		s := playNotes(1, note(2, 5, 0, 0.5, finger.Down), note(2, 8, 0.5, 1, stroke))
		h := append([]float32(nil), s...)
		dsp.HighPass(3000, 0.7, 48000).Filter(h)
		return levelDB(h, 0.5, 0.53)
	}
	picked := attack(finger.Down)
	for _, stroke := range []finger.Stroke{finger.HammerOn, finger.PullOff} {
		if soft := picked - attack(stroke); soft < 6 {
			t.Errorf("a %s has %.1f dB less attack above 3 kHz than a stroke, want at least 6", stroke, soft)
		}
		s := playNotes(1, note(2, 5, 0, 0.5, finger.Down), note(2, 8, 0.5, 1, stroke))
		if before, after := levelDB(s, 0.4, 0.5), levelDB(s, 0.55, 0.65); after < before-6 || after > before+6 {
			t.Errorf("a %s goes from %.1f to %.1f dB", stroke, before, after)
		}
		if off := cents(measuredHz(s[int(0.5*48000):], 391.9954, 48000), 391.9954); math.Abs(off) > 1 {
			t.Errorf("a %s sounds %.2f cents off", stroke, off)
		}
	}
}

func TestASlideGlidesFromNoteToNoteOnOneString(t *testing.T) {
	slide := note(2, 8, 0.5, 1.2, finger.Slide) // to G4
	slide.Glide = 2160                          // 45 ms
	before := note(2, 5, 0, 0.5, finger.Down)   // from E4
	before.Bound = true
	s := playNotes(1.3, before, slide)
	e4, g4 := 329.6276, 391.9954
	if off := cents(measuredHz(s, e4, 48000), e4); math.Abs(off) > 1 {
		t.Errorf("the note before is %.2f cents off", off)
	}
	if off := cents(measuredHz(s[int(0.52*48000):], g4, 48000), g4); math.Abs(off) > 2 {
		t.Errorf("after the slide the string is %.2f cents off its note", off)
	}
	if fall := levelDB(s, 0.35, 0.44) - levelDB(s, 0.51, 0.6); fall > 4 {
		t.Errorf("the slide costs %.1f dB", fall)
	}
	h := append([]float32(nil), s...)
	dsp.HighPass(9000, 0.7, 48000).Filter(h)
	dsp.HighPass(9000, 0.7, 48000).Filter(h)
	if pick, glide := highestOf(h[:2400]), highestOf(h[int(0.4*48000):int(0.6*48000)]); glide > 0.2*pick {
		t.Errorf("the slide makes %g above 9 kHz, the pick %g", glide, pick)
	}
}

func TestHarderAndNearerTheBridgeIsBrighter(t *testing.T) {
	soft, hard := note(4, 2, 0, 1, finger.Down), note(4, 2, 0, 1, finger.Down)
	soft.Force, hard.Force = 0.3, 1
	hz := 164.8138
	a, b := centroid(playNotes(0.5, soft), hz), centroid(playNotes(0.5, hard), hz)
	if b < 1.15*a {
		t.Errorf("a hard stroke's centroid is %.0f Hz, a soft one's %.0f", b, a)
	}
	if louder := levelDB(playNotes(0.5, hard), 0, 0.3) - levelDB(playNotes(0.5, soft), 0, 0.3); louder < 8 || louder > 20 {
		t.Errorf("a hard stroke is %.1f dB louder than a soft one", louder)
	}
	near := ElectricClean
	near.pickMM = 30
	bright := centroid(played(near, 50, 2, 648, 48000, 0.8), hz)
	near.pickMM = 250
	if dark := centroid(played(near, 50, 2, 648, 48000, 0.8), hz); bright < 1.1*dark {
		t.Errorf("picked 30 mm from the bridge the centroid is %.0f Hz, 250 mm from it %.0f", bright, dark)
	}
}

// Decay times and brightness lie where recorded electric guitars have them
// (doc/sound.md): the fundamental takes four to twelve seconds for 60 dB, less up
// the neck and on thin strings, the ninth partial under two; the centroid is
// between three and fifteen hundred Hz.
func TestStringsRingAsAnElectricGuitarDoes(t *testing.T) {
	ring := func(str int, fret, harmonic float64) float64 {
		s := playNotes(2.2, note(str, fret, 0, 2.2, finger.Down))
		hz := harmonic * 440 * math.Exp2((guitarStrings[str-1]+fret-69)/12)
		level := func(at float64) float64 {
			p := partialAt(s, int(at*48000), 14400, hz, 48000)
			return 20 * math.Log10(math.Hypot(real(p), imag(p)))
		}
		return 60 / (level(0.2) - level(1.7)) * 1.5
	}
	for _, c := range []struct {
		str       int
		fret      float64
		low, high float64
	}{{6, 0, 6, 12}, {6, 12, 4, 9}, {3, 0, 5, 10}, {1, 0, 4, 8}, {1, 12, 2.5, 6}} {
		if got := ring(c.str, c.fret, 1); got < c.low || got > c.high {
			t.Errorf("string %d fret %g rings %.1f s, want %g to %g", c.str, c.fret, got, c.low, c.high)
		}
	}
	for str := 1; str <= 6; str++ {
		if high := ring(str, 0, 9); high > 2 {
			t.Errorf("the ninth partial of string %d rings %.1f s", str, high)
		}
	}
	for str, open := range guitarStrings {
		hz := 440 * math.Exp2((open+5-69)/12)
		if c := centroid(playNotes(0.5, note(str+1, 5, 0, 1, finger.Down)), hz); c < 300 || c > 1500 {
			t.Errorf("string %d fret 5 has its centroid at %.0f Hz", str+1, c)
		}
	}
}
