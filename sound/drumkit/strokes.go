package drumkit

import (
	"embed"
	"fmt"
	"sync"

	"heddle/audio"
)

// recordings holds a stroke in each file, at 48 kHz, made by internal/record.
//
//go:embed strokes/*.flac strokes/strokes-LICENSE.txt
var recordings embed.FS

// unpacked keeps what was decoded, by takeKey, since every render needs it
// and it never changes.
var unpacked sync.Map

// A takeKey names the takes of a stroke at a sample rate.
type takeKey struct {
	file string
	rate int
}

// takesOf returns the takes of a stroke.
func takesOf(file string, rate int) ([][]float32, error) {
	key := takeKey{file, rate}
	if takes, ok := unpacked.Load(key); ok {
		return takes.([][]float32), nil
	}
	packed, err := recordings.ReadFile("strokes/" + file + ".flac")
	if err != nil {
		return nil, fmt.Errorf("drum stroke: %w", err)
	}
	whole, _, err := audio.Samples(packed, rate)
	if err != nil {
		return nil, fmt.Errorf("drum stroke %s: %w", file, err)
	}
	takes := make([][]float32, Takes)
	for t := range takes {
		takes[t] = played(whole, 1+takeApart*(float64(t)-1))
	}
	unpacked.Store(key, takes)
	return takes, nil
}

// takeApart is how much higher one take is than another: a sixth of a semitone,
// as a stroke nearer the rim or a little harder is.
const takeApart = 0.009

// played returns a stroke at another speed, by a cubic through four samples.
func played(s []float32, speed float64) []float32 {
	if speed == 1 {
		return s
	}
	out := make([]float32, int(float64(len(s)-3)/speed))
	for i := range out {
		at := float64(i) * speed
		k := int(at)
		x := float32(at - float64(k))
		var before float32
		if k > 0 {
			before = s[k-1]
		}
		a, b, c := s[k], s[k+1], s[k+2]
		out[i] = a + x*((b-before)/2+x*(before-2.5*a+2*b-c/2+x*((c-before)/2+1.5*(a-b)))) // Catmull and Rom 1974
	}
	return out
}
