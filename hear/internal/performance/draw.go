package performance

import (
	"fmt"
	"math/rand/v2"

	"heddle/hear/internal/accuracy"
	"heddle/hear/internal/stats"
	"heddle/hear/internal/synthetic"
)

// Settings are where takes are recorded: dry, in a living room, with noise 20 dB
// below the guitar, and with a band 12 dB below it.
var Settings = []string{"clean", "room", "noise", "bleed"}

// Draw draws a take of the evaluation, and returns the source that its recording
// is drawn from.
func Draw(seed uint64) (Take, *rand.Rand, error) {
	r := rand.New(rand.NewPCG(seed, 6))
	p := DrawPlayer(r, firstGuitar+int(seed%7))
	ex, err := DrawExercise(r, p)
	if err != nil {
		return Take{}, nil, err
	}
	tk := Perform(r, ex, p)
	tk.Name = fmt.Sprintf("take-%d", seed)
	return tk, r, nil
}

// DrawClicked draws a take that is played through to a click, and when the click's
// first bar line falls.
func DrawClicked(seed uint64) (tk Take, clickS float64, r *rand.Rand, err error) {
	r = rand.New(rand.NewPCG(seed, 7))
	p := DrawPlayer(r, firstGuitar+int(seed%7))
	p.Restart, p.Stop, p.Drift = false, false, 0
	ex, err := DrawExercise(r, p)
	if err != nil {
		return tk, 0, nil, err
	}
	tk = Perform(r, ex, p)
	tk.Name = fmt.Sprintf("clicked-%d", seed)
	tk.Exercise.Tempo = tk.Tempo
	var starts []float64
	for _, n := range tk.Played {
		if n.Index >= 0 {
			starts = append(starts, n.OnS-ex.Notes[n.Index].Start.Quarters()*60/tk.Tempo)
		}
	}
	return tk, stats.Median(starts), r, nil
}

// Record plays a take in a setting, through a drawn chain where asked, and returns
// it as a WAV file.
func Record(g Guitar, tk Take, setting string, chained bool, r *rand.Rand) ([]byte, error) {
	x, err := g.Play(tk, r)
	if err != nil {
		return nil, err
	}
	var through Chain
	if chained {
		through = DrawChain(r, tk.Touch == "ringing")
	}
	x = through.Amplifier(x)
	switch setting {
	case "room":
		x = synthetic.Room(x, r, 0.3+0.4*r.Float64(), 4+4*r.Float64())
	case "noise":
		x = synthetic.Noisy(x, r, 20)
	case "bleed":
		band, err := SoundFont(FluidFont).Render(Band(r, tk.Tempo, float64(len(x))/synthetic.Rate))
		if err != nil {
			return nil, err
		}
		x = synthetic.Mixed(x, band, 12)
	}
	if x, err = through.Microphone(x); err != nil {
		return nil, err
	}
	return synthetic.WAV(synthetic.Levelled(x, 0.15+0.7*float32(r.Float64())), synthetic.Rate), nil
}

// Notes are the true notes of a take, as they sound.
func (tk Take) Notes() []accuracy.Note {
	notes := make([]accuracy.Note, len(tk.Played))
	for i, n := range tk.Played {
		notes[i] = accuracy.Note{OnsetS: n.OnS, MIDI: float64(n.Key) + tk.Cents/100}
	}
	return notes
}
