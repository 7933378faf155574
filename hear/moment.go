package hear

import "math"

// A moment is a place in the sound where a note may begin.
type moment struct {
	onsetS    float64
	flux      float64 // of the peak
	stillness float64 // mean flux of the time before
	busiest   float64 // the most flux of the time before
	edgeDB    float64 // by which the highs rise
	turn      float64 // the most that a new period gained around it
	lookS     float64 // how much sound after the onset was looked at
	early     bool    // live, before all was heard that will be looked at
	levelDB   float64 // of all that sounds, after
	riseDB    float64 // against the level before
	contrast  float64 // by how much the best pitch stands out of what is new

	prevMIDI     float64 // the note before, 0 for none
	prevS        float64
	likenessPrev float64   // how periodic the sound is, after, at the pitch before
	usual        reference // how loud the notes before were
	candidates   []candidate
}

// samePitch is how near two pitches are one note, in semitones.
const samePitch = 0.6

// crowdS is the time after an onset in which another is less likely: a
// sixteenth at 150.
const crowdS = 0.1

// leastOdds is what a moment has that brings no pitch.
const leastOdds = -30

// best is the likeliest candidate; it has the least odds where there is none.
func (m *moment) best() candidate {
	best := candidate{odds: leastOdds}
	for _, c := range m.candidates {
		if c.odds > best.odds {
			best = c
		}
	}
	return best
}

// judge is the judge that the moment is for.
func (m *moment) judge() *judge {
	if m.early {
		return &earlyJudge
	}
	return &wholeJudge
}

// odds is the logarithm of the odds that a note begins here.
func (m *moment) odds() float64 { return m.best().odds }

// midi is the likeliest pitch.
func (m *moment) midi() float64 { return m.best().midi }

// keepLikely drops the candidates that can't come to be the note.
func (m *moment) keepLikely() {
	var likely []candidate
	for _, c := range m.candidates {
		if c.odds > unlikely {
			likely = append(likely, c)
		}
	}
	m.candidates = likely
}

// unlikely are the odds, as a logarithm, below which a pitch is forgotten.
const unlikely = -8

// heard is the note that the moment brings.
func (m *moment) heard() Heard {
	best := m.best()
	h := Heard{OnsetS: m.onsetS, OffsetS: m.onsetS + m.lookS, MIDI: best.midi, Confidence: probability(best.odds), Level: m.levelDB, flux: m.flux, early: m.early, slid: m.edgeDB < edgeLeastDB}
	for _, c := range m.candidates {
		h.rivals = append(h.rivals, rival{c.midi, c.odds})
	}
	return h
}

// probability turns the logarithm of odds into a probability.
func probability(odds float64) float64 { return 1 / (1 + math.Exp(-odds)) }

// logOdds turns it back, as far as a note keeps it.
func logOdds(probability float64) float64 {
	p := clampTo(probability, 1e-9, 1-1e-9)
	return math.Log(p / (1 - p))
}

func clampTo(x, low, high float64) float64 { return max(low, min(high, x)) }
