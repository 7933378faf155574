package main

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"

	"heddle/hear/internal/performance"
	"heddle/hear/internal/synthetic"
)

// timFont is where Debian's timgm6mb-soundfont puts another maker's guitars.
const timFont = "/usr/share/sounds/sf2/TimGM6mb.sf2"

// A fitGuitar is one of the guitars that are fitted to. What is learnt must hold
// for guitars that are not among them, so their takes are varied in every way in
// which guitars and recordings differ.
type fitGuitar struct {
	name string
	performance.Guitar
	programs []int // of General MIDI, in turn
}

// The programs besides the guitars are other plucked and struck strings.
var (
	guitarPrograms = []int{24, 25, 26, 27, 28, 29, 30}
	stringPrograms = []int{105, 107, 46, 6, 7, 104, 106}
)

// readGuitars returns the guitars. hear is the folder of package hear.
func readGuitars(hear string) ([]fitGuitar, error) {
	fluid, tim := performance.SoundFont(performance.FluidFont), performance.SoundFont(timFont)
	for _, font := range []performance.SoundFont{fluid, tim} {
		if _, err := os.Stat(string(font)); err != nil {
			return nil, err
		}
	}
	electric, err := performance.ReadGuitar(performance.ElectricFolder(hear))
	if err != nil {
		return nil, err
	}
	return []fitGuitar{
		{"fluid", fluid, guitarPrograms},
		{"tim", tim, guitarPrograms},
		{"electric", electric, guitarPrograms},
		{"strings", tim, stringPrograms},
		{"model", performance.Model{}, guitarPrograms},
		{"harps", fluid, stringPrograms},
	}, nil
}

// withoutNotes is a sound without notes: noise, hum or knocks.
func withoutNotes(k int) []float32 {
	r := rand.New(rand.NewPCG(uint64(k), 12))
	x := make([]float32, 4*synthetic.Rate)
	colour, humHz, every := r.Float64(), []float64{50, 60, 100, 120}[r.IntN(4)], synthetic.Rate/8+r.IntN(synthetic.Rate/2)
	low := 0.0
	for i := range x {
		w := r.NormFloat64()
		low += 0.05 * (w - low)
		noise := colour*w + 5*(1-colour)*low
		switch k % 3 {
		case 0:
			x[i] = float32(noise)
		case 1:
			x[i] = float32(math.Sin(2*math.Pi*humHz*float64(i)/synthetic.Rate) + 0.05*noise)
		default:
			x[i] = float32(noise * math.Exp(-float64(i%every)/(100+900*colour)))
		}
	}
	return synthetic.Levelled(x, 0.05+0.5*float32(r.Float64()))
}

// take draws a take and renders it, or reads it from the folder that keeps takes.
func (f *fitting) take(g fitGuitar, seed uint64, k int, setting string) (performance.Take, []float32, error) {
	r := rand.New(rand.NewPCG(seed, 11))
	p := performance.DrawPlayer(r, guitarPrograms[k%len(guitarPrograms)])
	p.Mistakes *= 2
	ex, err := performance.DrawExercise(r, p)
	if err != nil {
		return performance.Take{}, nil, err
	}
	tk := performance.Perform(r, ex, p)
	tk.Name = fmt.Sprintf("fit-%s-%d-%s", g.name, seed, setting)
	tk.Program = g.programs[k%len(g.programs)]
	slip(tk.Played, r)
	clicks := r.IntN(4) == 0
	if clicks {
		putOff(&tk, 4*60/tk.Tempo)
	}
	path := filepath.Join(f.keep, tk.Name+".wav")
	if file, err := os.ReadFile(path); f.keep != "" && err == nil {
		x, err := performance.Samples(file)
		return tk, x, err
	}
	x, err := record(g, tk, r, clicks, setting)
	if err == nil && f.keep != "" {
		err = os.WriteFile(path, synthetic.WAV(x, synthetic.Rate), 0o600)
	}
	return tk, x, err
}

// record sounds a take and sends it through everything that may be between a
// guitar and a file.
func record(g fitGuitar, tk performance.Take, r *rand.Rand, clicks bool, setting string) (x []float32, err error) {
	if font, ok := g.Guitar.(performance.SoundFont); ok && r.IntN(3) == 0 {
		x, err = otherSize(font, tk, r)
	} else {
		x, err = g.Play(tk, r)
	}
	if err != nil {
		return nil, err
	}
	if r.IntN(5) < 2 {
		x = box(x, tk, r)
	}
	if r.IntN(2) == 0 {
		x = coloured(x, r)
	}
	var through performance.Chain
	if r.IntN(2) == 0 {
		through = drawHarder(r, tk.Touch == "ringing" || tk.Touch == "overlapped" && r.IntN(2) == 0)
	}
	x = through.Amplifier(x)
	if clicks {
		countIn(synthetic.Levelled(x, 1), tk, r)
	}
	switch setting {
	case "room":
		x = synthetic.Room(x, r, 0.3+0.4*r.Float64(), 4+4*r.Float64())
	case "noise":
		x = synthetic.Noisy(x, r, 17+6*r.Float64())
	case "bleed":
		font := []performance.SoundFont{performance.FluidFont, timFont}[r.IntN(2)]
		band, err := font.Render(otherBand(performance.Band(r, tk.Tempo, float64(len(x))/synthetic.Rate), r))
		if err != nil {
			return nil, err
		}
		x = synthetic.Mixed(x, band, 10+5*r.Float64())
	}
	if r.IntN(5) == 0 { // a telephone levels what it records
		x = performance.Compressed(x, 1.5+2.5*r.Float64())
	}
	if x, err = through.Microphone(x); err != nil {
		return nil, err
	}
	return synthetic.Levelled(x, 0.1+0.8*float32(r.Float64())), nil
}
