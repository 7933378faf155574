package main

import (
	"math"
	"math/rand/v2"

	"heddle/audio"
	"heddle/hear/internal/performance"
	"heddle/hear/internal/spectral"
	"heddle/hear/internal/synthetic"
)

// slip moves one struck note in twenty by an octave, so that the classifier tells an
// octave by its sound and not by how seldom lines leap.
func slip(notes []performance.Note, r *rand.Rand) {
	for i := range notes {
		n := &notes[i]
		slurred := n.Legato || i+1 < len(notes) && notes[i+1].Legato
		if slurred || r.IntN(20) > 0 {
			continue
		}
		if n.Key >= lowestSlip+12 && (n.Key > highestSlip-12 || r.IntN(2) == 0) {
			n.Key -= 12
		} else {
			n.Key += 12
		}
	}
}

// The range of notes that have slipped is a guitar's: E2 to E6.
const lowestSlip, highestSlip = 40, 88

// coloured lifts and takes down frequencies as bodies, pickups and microphones
// do, so that a second or third harmonic may be the strongest.
func coloured(x []float32, r *rand.Rand) []float32 {
	for range 1 + r.IntN(2) {
		x = synthetic.Peaking(150*math.Pow(10, r.Float64()), 0.5+1.5*r.Float64(), 24*r.Float64()-12).Filter(x)
	}
	return x
}

// drawHarder draws a chain whose amplifier may be driven harder than those of
// the evaluation, behind a pedal, and may clip one side more than the other.
func drawHarder(r *rand.Rand, ringing bool) performance.Chain {
	c := performance.DrawChain(r, ringing)
	if c.Drive == 0 || ringing {
		return c
	}
	if r.IntN(2) == 0 {
		c.Drive *= math.Pow(8, r.Float64())
		c.TightHz = 100 * math.Pow(7, r.Float64())
	}
	c.Lean = max(0, 1.2*r.Float64()-0.4)
	return c
}

// putOff moves a take to a later time.
func putOff(tk *performance.Take, byS float64) {
	for i := range tk.Played {
		tk.Played[i].OnS += byS
		tk.Played[i].OffS += byS
	}
}

// otherSize sounds a take on strings of another length and gauge: played
// higher or lower and as much faster or slower, then slowed or sped up, which
// moves timbre, decay and attack but not pitch or time.
func otherSize(font performance.SoundFont, tk performance.Take, r *rand.Rand) ([]float32, error) {
	by := []int{-5, -3, 3, 5}[r.IntN(4)]
	factor := math.Exp2(float64(by) / 12)
	moved := tk
	moved.Played = append([]performance.Note(nil), tk.Played...)
	for i := range moved.Played {
		n := &moved.Played[i]
		n.OnS, n.OffS, n.Key = n.OnS/factor, n.OffS/factor, n.Key+by
	}
	x, err := font.Play(moved, r)
	if err != nil {
		return nil, err
	}
	return audio.NewResampler(int(spectral.Rate/factor), spectral.Rate).Feed(nil, x), nil
}

// box gives the guitar a body: its air and its top ring at every stroke,
// whatever the note is, and swallow highs.
func box(x []float32, tk performance.Take, r *rand.Rand) []float32 {
	airHz := 85 + 50*r.Float64()
	topHz, top := airHz*(1.7+0.5*r.Float64()), r.Float64()
	belowDB, decayS := 8+12*r.Float64(), 0.08+0.2*r.Float64()
	dark := synthetic.LowPass(400+1500*r.Float64(), 0.5)
	y := synthetic.Mixed(dark.Filter(x), x, 6+14*r.Float64())
	level := synthetic.RMS(y)
	for _, n := range tk.Played {
		if n.Legato {
			continue
		}
		gain := 1.4 * level * math.Pow(10, -belowDB/20) * float64(n.Velocity) / 80
		from := int(n.OnS * synthetic.Rate)
		for i := from; i < min(len(y), from+synthetic.Rate/2); i++ {
			s := float64(i-from) / synthetic.Rate
			y[i] += float32(gain * math.Exp(-s/decayS) * (math.Sin(2*math.Pi*airHz*s) + top*math.Sin(2*math.Pi*topHz*s)))
		}
	}
	return y
}

// countIn clicks four beats before a take, and sometimes all along, with
// beeps, blocks or ticks.
func countIn(x []float32, tk performance.Take, r *rand.Rand) {
	beatS := 60 / tk.Tempo
	startS := tk.Played[0].OnS - 4*beatS
	beats := 4
	if r.IntN(3) == 0 {
		beats = 1000
	}
	loudness := math.Pow(10, -r.Float64()) // as loud as the loudest note to 20 dB below
	hz, decayS, noise := 700+2300*r.Float64(), 0.002+0.02*r.Float64(), r.Float64()
	for b := range beats {
		from := int(max(0, startS+float64(b)*beatS) * synthetic.Rate)
		if from >= len(x) {
			break
		}
		accent := 1.0
		if b%4 == 0 {
			accent = 1.5
		}
		for i := from; i < min(len(x), from+synthetic.Rate/5); i++ {
			s := float64(i-from) / synthetic.Rate
			x[i] += float32(loudness * accent * math.Exp(-s/decayS) * ((1-noise)*math.Sin(2*math.Pi*hz*s*accent) + 0.5*noise*r.NormFloat64()))
		}
	}
}

// otherBand changes the instruments of a vamp.
func otherBand(events []performance.Event, r *rand.Rand) []performance.Event {
	bass, keys := []int{32, 33, 34, 35, 36}[r.IntN(5)], []int{0, 2, 4, 5, 16, 18, 89}[r.IntN(7)]
	for i, e := range events {
		switch e.Bytes[0] {
		case 0xC0:
			events[i] = performance.Program(0, bass)
		case 0xC1:
			events[i] = performance.Program(1, keys)
		}
	}
	return events
}
