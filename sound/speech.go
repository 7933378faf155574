package sound

import (
	"embed"
	"fmt"
	"math"

	"heddle/audio"
	"heddle/pitch"
	"heddle/sound/dsp"
	"heddle/sound/mixer"
)

// recordings holds a spoken name in each file, made by voice/record.sh.
//
//go:embed voice/english/*.flac voice/german/*.flac voice/solfege/*.flac
var recordings embed.FS

// A speech is the names that an exercise needs, ready to play, and which of
// its notes are named aloud.
type speech struct {
	words []word
	of    []int // word of each of the exercise's notes, −1 where it is not spoken
}

// A word is one name spoken.
type word struct {
	text    string
	samples []float32
	beat    int // samples from its beginning to where it is felt to begin
}

// How close names may come. One may run into the next by its last consonant or
// two, but by no more than a quarter of it; and nobody can follow more than
// five names a second.
const (
	crowdS    = 0.09
	crowdPart = 4
	nameS     = 0.2
)

// speech makes the names ready, if they are to be spoken.
func (b *band) speech() (*speech, error) {
	s := &speech{}
	if !b.opt.Voice || b.opt.Mix[Voice].Mute {
		return s, nil
	}
	known := map[pitch.Name]int{}
	s.of = make([]int, len(b.ex.Notes))
	for i, n := range b.ex.Notes {
		at, ok := known[n.Pitch.Name]
		if !ok {
			w, err := record(b.ex.Naming, n.Pitch.Name, b.form.rate)
			if err != nil {
				return nil, err
			}
			at = len(s.words)
			s.words = append(s.words, w)
			known[n.Pitch.Name] = at
		}
		s.of[i] = at
	}
	b.thin(s)
	return s, nil
}

// thin leaves out names that would come too fast: where not every name would
// be over before the next note, only the first of each group is spoken, and
// of those none that would run into the one before.
func (b *band) thin(s *speech) {
	fastest := b.form.passes[0]
	for _, p := range b.form.passes {
		if p.tempo > fastest.tempo {
			fastest = p
		}
	}
	begins := func(i int) int64 {
		return round(b.form.at(fastest, b.ex.Notes[i].Start)) - int64(s.words[s.of[i]].beat)
	}
	ends := func(i int) int64 {
		long := int64(len(s.words[s.of[i]].samples))
		crowd := min(int64(crowdS*float64(b.form.rate)), long/crowdPart)
		return begins(i) + max(long-crowd, int64(nameS*float64(b.form.rate)))
	}
	each := true
	for i := 1; i < len(s.of) && each; i++ {
		each = ends(i-1) <= begins(i)
	}
	if each {
		return
	}
	last := -1
	for i := range s.of {
		starts := i == 0 || b.ex.Notes[i].Group != b.ex.Notes[i-1].Group
		if starts && (last < 0 || ends(last) <= begins(i)) {
			last = i
			continue
		}
		s.of[i] = -1
	}
}

// A spokenName is a word at a moment.
type spokenName struct {
	index, word int
	at          int64 // its first sample
}

// spoken returns the names of a pass. Each is felt to begin on its note's
// beat; one that would begin before the file begins with it.
func (b *band) spoken(p pass) []spokenName {
	if p.kind != linePass {
		return nil
	}
	var names []spokenName
	for i, w := range b.voice.of {
		if w < 0 {
			continue
		}
		at := round(b.form.at(p, b.ex.Notes[i].Start)) - int64(b.voice.words[w].beat)
		if !b.form.seamless {
			at = max(at, 0)
		}
		names = append(names, spokenName{i, w, at})
	}
	return names
}

// wordHits returns the names of a pass as a sampler plays them.
func (b *band) wordHits(p pass) []mixer.Hit {
	var hits []mixer.Hit
	for _, n := range b.spoken(p) {
		hits = append(hits, mixer.Hit{At: n.at, Sound: n.word, Gain: 1})
	}
	return hits
}

// accidentalWords holds how the files of recordings call accidentals.
var accidentalWords = map[int]string{-2: "-double-flat", -1: "-flat", 0: "", 1: "-sharp", 2: "-double-sharp"}

// recordingOf returns the file that holds a name.
func recordingOf(g pitch.Naming, n pitch.Name) string {
	return fmt.Sprintf("voice/%s/%c%s.flac", g, "cdefgab"[n.Letter], accidentalWords[n.Accidental])
}

// record returns a name ready to play at a sample rate.
func record(g pitch.Naming, n pitch.Name, rate int) (word, error) {
	if n.Accidental < -2 || n.Accidental > 2 {
		return word{}, &pitch.InputError{What: "voice", Value: g.Name(n), Want: "names with at most a double sharp or flat"}
	}
	path := recordingOf(g, n)
	file, err := recordings.ReadFile(path)
	if err != nil {
		return word{}, fmt.Errorf("spoken name: %w", err)
	}
	samples, _, err := audio.Samples(file, rate)
	if err != nil {
		return word{}, fmt.Errorf("spoken name %s: %w", path, err)
	}
	w := word{text: g.Spoken(n), samples: samples}
	dsp.Peak(clearHz, 0.7, clearDB, float64(rate)).Filter(w.samples)
	level(w.samples, rate)
	dsp.FadeHead(w.samples, int(wordRiseS*float64(rate)))
	w.beat = felt(w.samples, float64(rate))
	return w, nil
}

// wordRiseS is how long a word takes to come up from nothing.
const wordRiseS = 0.003

// Where names are lifted so that their consonants come through a band, and by
// how much.
const (
	clearHz = 2600.0
	clearDB = 5.0
)

// spokenLUFS is the loudness every name is brought to, before the part's level.
const spokenLUFS = -20

// level brings a name to a loudness: its K-weighted mean square as a whole,
// since names are shorter than a gated block.
func level(s []float32, rate int) {
	if lufs := audio.LoudnessUngated(s, rate); !math.IsInf(lufs, 0) {
		dsp.Scale(s, math.Pow(10, (spokenLUFS-lufs)/20))
	}
}

// felt returns where a name is felt to begin, its perceptual centre: close to
// the onset of its first vowel (Morton, Marcus and Frankish 1976). We take the
// moment at which the energy between 200 and 1500 Hz, where vowels are strong
// and the noise of consonants is weak, first comes to half of its highest
// level within the name's first part.
func felt(s []float32, rate float64) int {
	const windowS, firstS, share = 0.012, 0.3, 0.5
	voiced := append([]float32(nil), s...)
	dsp.HighPass(200, 0.7, rate).Filter(voiced)
	dsp.LowPass(1500, 0.7, rate).Filter(voiced)
	n := int(windowS * rate)
	levels := []float64{}
	for at := 0; at+n <= min(len(voiced), int(firstS*rate)); at += n / 4 {
		levels = append(levels, dsp.RMS(voiced[at:at+n], float64(n)))
	}
	top := 0.0
	for _, l := range levels {
		top = max(top, l)
	}
	for i, l := range levels {
		if l >= share*top {
			return i * (n / 4)
		}
	}
	return 0
}
