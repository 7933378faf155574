package hear

import (
	"fmt"
	"heddle/audio"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"
)

// timFont is where Debian's timgm6mb-soundfont puts another maker's guitars.
const timFont = "/usr/share/sounds/sf2/TimGM6mb.sf2"

// A fitGuitar is one of the guitars that the judge learns from. What it has
// learnt has to hold for guitars that are not among them, so their takes are
// bent in every way that guitars and recordings differ.
type fitGuitar struct {
	name string
	guitar
	programs []int // of General MIDI, in turn
}

// The programs besides the guitars are other plucked and struck strings.
var (
	guitarPrograms = []int{24, 25, 26, 27, 28, 29, 30}
	stringPrograms = []int{105, 107, 46, 6, 7, 104, 106}
)

func fitGuitars(t testing.TB) []fitGuitar {
	t.Helper()
	needFluidsynth(t)
	if _, err := os.Stat(timFont); err != nil {
		t.Skip("the second sound font to fit to is missing:", timFont)
	}
	return []fitGuitar{
		{"fluid", soundFont(fluidFont), guitarPrograms},
		{"tim", soundFont(timFont), guitarPrograms},
		{"electric", electric(t), guitarPrograms},
		{"strings", soundFont(timFont), stringPrograms},
		{"model", modelGuitar{}, guitarPrograms},
		{"harps", soundFont(fluidFont), stringPrograms},
	}
}

// A modelGuitar plays model strings.
type modelGuitar struct{}

func (modelGuitar) voice(take) string { return "model" }

func (modelGuitar) play(_ testing.TB, tk take, r *rand.Rand) []float32 {
	var notes []plucked
	for _, p := range tk.played {
		notes = append(notes, plucked{
			onS: p.onS, offS: p.offS, key: float64(p.key) + tk.cents/100,
			level: math.Pow(float64(p.velocity)/127, 1.5), bright: 0.1 + 0.6*r.Float64(),
		})
	}
	return pluck(notes, tk.played[len(tk.played)-1].offS+0.6, renderRate)
}

// noTake is a sound without notes: noise, hum, knocks.
func noTake(k int) []float32 {
	r := rand.New(rand.NewPCG(uint64(k), 12))
	x := make([]float32, 4*renderRate)
	colour, humHz, every := r.Float64(), []float64{50, 60, 100, 120}[r.IntN(4)], renderRate/8+r.IntN(renderRate/2)
	low := 0.0
	for i := range x {
		w := r.NormFloat64()
		low += 0.05 * (w - low)
		noise := colour*w + 5*(1-colour)*low
		switch k % 3 {
		case 0:
			x[i] = float32(noise)
		case 1:
			x[i] = float32(math.Sin(2*math.Pi*humHz*float64(i)/renderRate) + 0.05*noise)
		default:
			x[i] = float32(noise * math.Exp(-float64(i%every)/(100+900*colour)))
		}
	}
	return levelled(x, 0.05+0.5*float32(r.Float64()))
}

// fitTake draws a take to learn from and renders it.
func fitTake(t testing.TB, g fitGuitar, seed uint64, k int, setting string) (take, []float32) {
	t.Helper()
	r := rand.New(rand.NewPCG(seed, 11))
	p := drawPlayer(r, guitarPrograms[k%len(guitarPrograms)])
	p.mistakes *= 2
	tk := perform(r, randomExercise(t, r, p), p)
	tk.name = fmt.Sprintf("fit-%s-%d-%s", g.name, seed, setting)
	tk.program = g.programs[k%len(g.programs)]
	slip(tk.played, r)
	clicks := r.IntN(4) == 0
	if clicks {
		tk.wait(4 * 60 / tk.tempo)
	}
	path := filepath.Join(*evalKeep, tk.name+".wav")
	if file, err := os.ReadFile(path); *evalKeep != "" && err == nil {
		return tk, samples(t, file)
	}
	x := recordFit(t, g, tk, r, clicks, setting)
	if *evalKeep != "" {
		if err := os.WriteFile(path, wavFile(x, renderRate), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return tk, x
}

func recordFit(t testing.TB, g fitGuitar, tk take, r *rand.Rand, clicks bool, setting string) []float32 {
	t.Helper()
	var x []float32
	if font, ok := g.guitar.(soundFont); ok && r.IntN(3) == 0 {
		x = otherSize(t, font, tk, r)
	} else {
		x = g.play(t, tk, r)
	}
	if r.IntN(5) < 2 {
		x = box(x, tk, r)
	}
	if r.IntN(2) == 0 {
		x = coloured(x, r)
	}
	var through chain
	if r.IntN(2) == 0 {
		through = drawHarder(r, tk.touch == "ringing" || tk.touch == "overlapped" && r.IntN(2) == 0)
	}
	x = through.amplifier(x)
	if clicks {
		countIn(levelled(x, 1), tk, r)
	}
	switch setting {
	case "room":
		x = room(x, r, 0.3+0.4*r.Float64(), 4+4*r.Float64())
	case "noise":
		x = noisy(x, r, 17+6*r.Float64())
	case "bleed":
		font := []string{fluidFont, timFont}[r.IntN(2)]
		x = mixed(x, fluidsynth(t, font, otherBand(vamp(r, tk.tempo, float64(len(x))/renderRate), r)), 10+5*r.Float64())
	}
	if r.IntN(5) == 0 { // a telephone levels what it records
		x = compressed(x, 1.5+2.5*r.Float64())
	}
	return levelled(through.microphone(t, x), 0.1+0.8*float32(r.Float64()))
}

// slip moves one struck note in twenty by an octave, so that the judge tells an
// octave by its sound and not by how seldom lines leap.
func slip(notes []played, r *rand.Rand) {
	for i := range notes {
		n := &notes[i]
		slurred := n.legato || i+1 < len(notes) && notes[i+1].legato
		if slurred || r.IntN(20) > 0 {
			continue
		}
		if n.key >= lowestSlip+12 && (n.key > highestSlip-12 || r.IntN(2) == 0) {
			n.key -= 12
		} else {
			n.key += 12
		}
	}
}

// The range of notes that have slipped is a guitar's: E2 to E6.
const lowestSlip, highestSlip = 40, 88

// coloured lifts and takes down frequencies as bodies, pickups and microphones
// do, so that a second or third harmonic may be the strongest.
func coloured(x []float32, r *rand.Rand) []float32 {
	for range 1 + r.IntN(2) {
		x = peaking(150*math.Pow(10, r.Float64()), 0.5+1.5*r.Float64(), 24*r.Float64()-12).filter(x)
	}
	return x
}

// drawHarder draws a chain whose amplifier may be driven harder than those of
// the evaluation, behind a pedal, and may clip one side more than the other.
func drawHarder(r *rand.Rand, ringing bool) chain {
	c := drawChain(r, ringing)
	if c.drive == 0 || ringing {
		return c
	}
	if r.IntN(2) == 0 {
		c.drive *= math.Pow(8, r.Float64())
		c.tightHz = 100 * math.Pow(7, r.Float64())
	}
	c.lean = max(0, 1.2*r.Float64()-0.4)
	return c
}

// wait puts a take off.
func (tk *take) wait(byS float64) {
	for i := range tk.played {
		tk.played[i].onS += byS
		tk.played[i].offS += byS
	}
}

// otherSize sounds a take on strings of another length and gauge: played
// higher or lower and as much faster or slower, then slowed or sped up, which
// moves timbre, decay and attack but not pitch or time.
func otherSize(t testing.TB, font soundFont, tk take, r *rand.Rand) []float32 {
	t.Helper()
	by := []int{-5, -3, 3, 5}[r.IntN(4)]
	factor := math.Exp2(float64(by) / 12)
	moved := tk
	moved.played = append([]played(nil), tk.played...)
	for i := range moved.played {
		n := &moved.played[i]
		n.onS, n.offS, n.key = n.onS/factor, n.offS/factor, n.key+by
	}
	resample := audio.NewResampler(int(rate/factor), rate)
	return resample.Feed(nil, font.play(t, moved, r))
}

// box gives the guitar a body: its air and its top ring at every stroke,
// whatever the note is, and swallow highs.
func box(x []float32, tk take, r *rand.Rand) []float32 {
	airHz := 85 + 50*r.Float64()
	topHz, top := airHz*(1.7+0.5*r.Float64()), r.Float64()
	belowDB, decayS := 8+12*r.Float64(), 0.08+0.2*r.Float64()
	dark := lowPass(400+1500*r.Float64(), 0.5)
	y := mixed(dark.filter(x), x, 6+14*r.Float64())
	level := rms(y)
	for _, n := range tk.played {
		if n.legato {
			continue
		}
		gain := 1.4 * level * math.Pow(10, -belowDB/20) * float64(n.velocity) / 80
		from := int(n.onS * renderRate)
		for i := from; i < min(len(y), from+renderRate/2); i++ {
			s := float64(i-from) / renderRate
			y[i] += float32(gain * math.Exp(-s/decayS) * (math.Sin(2*math.Pi*airHz*s) + top*math.Sin(2*math.Pi*topHz*s)))
		}
	}
	return y
}

// countIn clicks four beats before a take, and sometimes all along, with
// beeps, blocks or ticks.
func countIn(x []float32, tk take, r *rand.Rand) {
	beatS := 60 / tk.tempo
	startS := tk.played[0].onS - 4*beatS
	beats := 4
	if r.IntN(3) == 0 {
		beats = 1000
	}
	loudness := math.Pow(10, -r.Float64()) // as loud as the loudest note to 20 dB below
	hz, decayS, noise := 700+2300*r.Float64(), 0.002+0.02*r.Float64(), r.Float64()
	for b := range beats {
		from := int(max(0, startS+float64(b)*beatS) * renderRate)
		if from >= len(x) {
			break
		}
		accent := 1.0
		if b%4 == 0 {
			accent = 1.5
		}
		for i := from; i < min(len(x), from+renderRate/5); i++ {
			s := float64(i-from) / renderRate
			x[i] += float32(loudness * accent * math.Exp(-s/decayS) * ((1-noise)*math.Sin(2*math.Pi*hz*s*accent) + 0.5*noise*r.NormFloat64()))
		}
	}
}

// otherBand changes the instruments of a vamp.
func otherBand(events []midiEvent, r *rand.Rand) []midiEvent {
	bass, keys := []int{32, 33, 34, 35, 36}[r.IntN(5)], []int{0, 2, 4, 5, 16, 18, 89}[r.IntN(7)]
	for i, e := range events {
		switch e.bytes[0] {
		case 0xC0:
			events[i] = program(0, bass)
		case 0xC1:
			events[i] = program(1, keys)
		}
	}
	return events
}
