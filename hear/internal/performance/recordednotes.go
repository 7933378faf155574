package performance

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"

	"heddle/audio"
	"heddle/hear/internal/synthetic"
	"heddle/pitch"
)

// A recordedNote is one stroke of a real guitar.
type recordedNote struct {
	key    float64 // MIDI key as it sounds, not as the file is named
	rate   int
	x      []float32
	attack int // sample at which the string is let go
}

// readNotes reads a folder of recordings named by pitch: A2.wav, Cs3.mp3
// (s is sharp, b is flat).
func readNotes(folder string) ([]recordedNote, error) {
	files, err := filepath.Glob(filepath.Join(folder, "*.*"))
	if err != nil {
		return nil, err
	}
	var notes []recordedNote
	for _, path := range files {
		ending := filepath.Ext(path)
		if ending != ".wav" && ending != ".mp3" && ending != ".flac" {
			continue
		}
		name := strings.TrimSuffix(filepath.Base(path), ending)
		named, err := pitch.Parse(strings.Replace(name, "s", "#", 1))
		if err != nil {
			return nil, fmt.Errorf("%s: %w", path, err)
		}
		note, err := readNote(path, float64(named.MIDI()))
		if err != nil {
			return nil, err
		}
		notes = append(notes, note)
	}
	if len(notes) == 0 {
		return nil, fmt.Errorf("no recorded notes in %s", folder)
	}
	return notes, nil
}

func readNote(path string, named float64) (n recordedNote, err error) {
	file, err := os.ReadFile(path)
	if err != nil {
		return n, err
	}
	source, err := audio.Decode(bytes.NewReader(file))
	if err != nil {
		return n, fmt.Errorf("%s: %w", path, err)
	}
	n.rate = source.Rate
	if n.x, err = Samples(file); err != nil {
		return n, fmt.Errorf("%s: %w", path, err)
	}
	n.attack = AttackIn(n.x, n.rate)
	if n.key = soundingKey(n.x[n.attack:], n.rate, named); math.Abs(n.key-named) > misnamedBy {
		return n, fmt.Errorf("%s sounds key %.2f, not %.0f", path, n.key, named)
	}
	return n, nil
}

// The attack is where the energy comes within 20 dB of the loudest moment of
// the first half second: on the steepest part of every plucked note, above
// the scrape of the pick before it and below the ripple after it.
const (
	attackUnderDB = 20
	attackWithinS = 0.5
	attackStepS   = 0.001
)

// AttackIn finds a stroke by its energy alone, so that what is listened for
// does not depend on how package hear listens.
func AttackIn(x []float32, rate int) int {
	step := int(attackStepS * float64(rate))
	var levels []float64
	top := math.Inf(-1)
	for at := 0; at+step <= min(len(x), int(attackWithinS*float64(rate))); at += step {
		levels = append(levels, 20*math.Log10(synthetic.RMS(x[at:at+step])+1e-9))
		top = max(top, levels[len(levels)-1])
	}
	for i, level := range levels {
		if level >= top-attackUnderDB {
			return i * step
		}
	}
	return 0
}

// How a recording's pitch is measured: over a stretch after the stroke has
// settled, first near the period that its name
// says, then over some periods.
const (
	pitchFromS   = 0.06
	pitchOverS   = 0.25
	pitchPeriods = 8
	misnamedBy   = 1.5 // keys; published folders hold notes that sound a semitone off their name
	periodShare  = 0.9 // of the best similarity: a shorter period that comes near it is the true one
)

// soundingKey returns the MIDI key, with its fraction, of a note that is named
// so but may be out of tune or in another octave.
func soundingKey(x []float32, rate int, named float64) float64 {
	from := min(int(pitchFromS*float64(rate)), len(x)/4)
	x = x[from:min(len(x), from+int((pitchOverS+0.1)*float64(rate)))]
	period := func(key float64) float64 { return float64(rate) / pitch.Frequency(key) }
	lag, best := mostSimilarLag(x, period(named+misnamedBy), period(named-misnamedBy))
	for _, octave := range []float64{12, -12} {
		other, like := mostSimilarLag(x, period(named+octave+misnamedBy), period(named+octave-misnamedBy))
		if octave > 0 && like > periodShare*best || octave < 0 && periodShare*like > best {
			lag, best = other, like
		}
	}
	for count := 2.0; count <= pitchPeriods && count*lag < 0.04*float64(rate); count++ {
		if long, like := mostSimilarLag(x, count*lag-0.1*lag-1, count*lag+0.1*lag+1); like > 0 {
			lag = long / count
		}
	}
	return 69 + 12*math.Log2(float64(rate)/lag/440)
}

// mostSimilarLag returns the lag between two at which a sound is most like itself,
// refined by a parabola, and the similarity there: 1 for a periodic sound, −1
// where it has no peak.
func mostSimilarLag(x []float32, from, to float64) (lag, similarity float64) {
	n := len(x) * 2 / 3
	at := func(k int) float64 {
		var ab, aa, bb float64
		for i := range min(n, len(x)-k) {
			a, b := float64(x[i]), float64(x[i+k])
			ab, aa, bb = ab+a*b, aa+a*a, bb+b*b
		}
		return ab / math.Sqrt(aa*bb+1e-12)
	}
	similarity = -1
	shortest := max(1, int(from))
	before, here := at(shortest-1), at(shortest)
	for k := shortest; k <= int(to)+1; k++ {
		after := at(k + 1)
		if bend := before - 2*here + after; bend < 0 && here >= before && here >= after {
			off := 0.5 * (before - after) / bend
			if peak := here - 0.25*(before-after)*off; peak > similarity {
				lag, similarity = float64(k)+off, peak
			}
		}
		before, here = here, after
	}
	return lag, similarity
}
