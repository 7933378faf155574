package listen

import "heddle/hear/internal/stats"

// A loudness is how loud a take's notes typically are, against which a moment may
// be too soft to be one. The zero value knows nothing.
type loudness struct {
	known        bool
	newDB, allDB float64 // of what is new at a note's harmonics, and of all sound
	count        float64 // of notes in a running loudness
}

// typicalLoudness takes the medians over the moments that are likely notes.
func typicalLoudness(moments []Moment) loudness {
	var fresh, all []float64
	for i := range moments {
		if m := &moments[i]; m.odds() > 0 {
			fresh, all = append(fresh, m.best().levelDB), append(all, m.levelDB)
		}
	}
	return loudness{known: len(all) > 0, newDB: stats.Median(fresh), allDB: stats.Median(all)}
}

// runningNotes is how many notes a running loudness is the mean of.
const runningNotes = 16

func (l *loudness) add(m *Moment) {
	l.count = min(l.count+1, runningNotes)
	l.newDB += (m.best().levelDB - l.newDB) / l.count
	l.allDB += (m.levelDB - l.allDB) / l.count
	l.known = true
}

// softest bounds the two features below, in tens of dB.
const softest = -4

// level is how loud a moment is against the typical one, in tens of dB; strength is
// how strong a candidate is.
func (l loudness) level(m *Moment) float64 { return l.against(m.levelDB - l.allDB) }

func (l loudness) strength(c *Candidate) float64 { return l.against(c.levelDB - l.newDB) }

func (l loudness) against(db float64) float64 {
	if !l.known {
		return 0
	}
	return clamp(db/10, softest, 1)
}

// apply classifies a moment again, against this loudness.
func (l loudness) apply(m *Moment) {
	for i := range m.Candidates {
		c := &m.Candidates[i]
		c.Features[levelFeature] = float32(l.level(m))
		c.Features[strengthFeature] = float32(l.strength(c))
		c.LogOdds = m.classifier().LogOdds(&c.Features)
	}
}
