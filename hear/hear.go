package hear

import (
	"context"
	"errors"
	"io"
	"slices"

	"heddle/audio"
	"heddle/exercise"
	"heddle/hear/internal/listen"
	"heddle/hear/internal/spectral"
	"heddle/pitch"
)

// A Heard is one note as it sounded.
type Heard struct {
	OnsetS     float64 `json:"onset_s"`    // seconds from the start of the recording
	OffsetS    float64 `json:"offset_s"`   // when it is damped, has died away or gives way to the next
	MIDI       float64 `json:"midi"`       // key number, 69 for 440 Hz, with its fraction
	Confidence float64 `json:"confidence"` // the probability, 0 to 1, that a note began here
	Level      float64 `json:"level"`      // dB against full scale, soon after the onset

	evidence listen.Evidence
}

func heardNote(n listen.Note) Heard {
	return Heard{n.OnsetS, n.OffsetS, n.MIDI, n.Confidence, n.Level, n.Evidence}
}

// A recording that never rises above silentDB is silence. One in which no note
// has the confidence leastSure is noise, for chance gives less.
const (
	silentDB  = -60
	leastSure = 0.85
)

// Hear listens to a recording to its end and returns its notes, in order, and how
// far the guitar is above A4 = 440 Hz, in cents from −50 to 50. Without an exercise
// it hears E1 to E6. With one, it hears what the instrument and the line may bring,
// and also returns moments with a Confidence below one half, for [Mark]. A recording
// of silence or of noise is a [*pitch.InputError].
func Hear(ctx context.Context, src *audio.Source, ex *exercise.Exercise) (heard []Heard, tuningCents float64, err error) {
	l := listen.NewListener(listening(ex))
	re := audio.NewResampler(src.Rate, spectral.Rate)
	block := make([]float32, 4096)
	var x []float32
	for !errors.Is(err, io.EOF) {
		if err := ctx.Err(); err != nil {
			return nil, 0, err
		}
		var n int
		if n, err = src.Read(block); err != nil && !errors.Is(err, io.EOF) {
			return nil, 0, err
		}
		x = re.Feed(x[:0], block[:n])
		l.Feed(x)
	}
	l.Feed(re.Flush(x[:0]))
	l.Finish()
	for _, n := range l.Transcription() {
		heard = append(heard, heardNote(n))
	}
	switch {
	case l.PeakDB() < silentDB:
		return nil, 0, &pitch.InputError{What: "recording", Value: "silence", Want: "a guitar that is louder than −60 dB of full scale"}
	case !slices.ContainsFunc(heard, func(h Heard) bool { return h.Confidence >= leastSure }):
		return nil, 0, &pitch.InputError{What: "recording", Value: "noise without notes", Want: "one guitar, recorded close enough to stand out from the noise"}
	}
	return heard, l.TuningCents(), nil
}

// listening is how a take of an exercise is heard.
func listening(ex *exercise.Exercise) listen.Options {
	if ex == nil {
		return listen.Options{Lowest: listen.LowestKey, Highest: listen.HighestKey}
	}
	low, high := listen.LowestKey, 0
	if in := ex.Instrument; len(in.Open) > 0 {
		low = max(low, in.Lowest().MIDI()+in.Capo)
	}
	for _, n := range ex.Notes {
		high = max(high, n.Pitch.MIDI()+12)
	}
	high = max(min(high, listen.HighestKey), low+12)
	return listen.Options{Lowest: float64(low), Highest: float64(high), Doubts: true}
}
