package listen

// A Moment is a place in the sound where a note may begin.
type Moment struct {
	OnsetS     float64
	Candidates []Candidate

	flux          float64 // of the peak
	stillness     float64 // mean flux of the time before
	busiest       float64 // highest flux of the time before
	edgeDB        float64 // by which the highs rise
	periodGain    float64 // the most that a new period gained around it
	lookS         float64 // how much sound after the onset was looked at
	early         bool    // live, before all was heard that will be looked at
	levelDB       float64 // of all sound after it
	riseDB        float64 // against the level before
	contrast      float64 // by how much the best pitch stands out of what is new
	prevMIDI      float64 // the note before, 0 for none
	prevS         float64
	similarToPrev float64  // how periodic the sound after it is at the pitch before
	typical       loudness // of the notes before
}

// leastOdds are the log odds of a moment that brings no pitch.
const leastOdds = -30

func (m *Moment) best() Candidate {
	best := Candidate{LogOdds: leastOdds}
	for _, c := range m.Candidates {
		if c.LogOdds > best.LogOdds {
			best = c
		}
	}
	return best
}

// odds are the log odds that a note begins here.
func (m *Moment) odds() float64 { return m.best().LogOdds }

// classifier is the classifier for the moment: live, one for sound that has only
// begun.
func (m *Moment) classifier() *Classifier {
	if m.early {
		return &fitted().Early
	}
	return &fitted().Whole
}

// unlikely are the log odds below which a pitch is forgotten.
const unlikely = -8

// keepLikely drops the candidates that can't become the note.
func (m *Moment) keepLikely() {
	var likely []Candidate
	for _, c := range m.Candidates {
		if c.LogOdds > unlikely {
			likely = append(likely, c)
		}
	}
	m.Candidates = likely
}

func (m *Moment) note() Note {
	best := m.best()
	n := Note{
		OnsetS: m.OnsetS, OffsetS: m.OnsetS + m.lookS, MIDI: best.MIDI, Confidence: Probability(best.LogOdds), Level: m.levelDB,
		Evidence: Evidence{Flux: m.flux, Early: m.early, Slid: m.edgeDB < edgeLeastDB},
	}
	for _, c := range m.Candidates {
		n.Rivals = append(n.Rivals, Rival{MIDI: c.MIDI, LogOdds: c.LogOdds})
	}
	return n
}
