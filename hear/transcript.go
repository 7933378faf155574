package hear

// A transcript turns moments into notes: it takes those that are more likely
// notes than not, and of two within one stroke the likelier.
type transcript struct {
	ear   *ear
	notes []Heard
	odds  float64 // of the last note
}

// strokeS is the shortest time between two notes of one line: two sixteenths
// at 300. Two attacks closer than this are one stroke.
const strokeS = 0.047

func (t *transcript) take(m moment) {
	odds := m.odds()
	if odds < 0 {
		return
	}
	h := Heard{OnsetS: m.onsetS, MIDI: m.midi, Confidence: m.confidence(), Level: m.levelDB}
	if n := len(t.notes); n > 0 && m.onsetS-t.notes[n-1].OnsetS < strokeS {
		if odds < t.odds {
			return
		}
		h.OnsetS = t.notes[n-1].OnsetS
		t.notes[n-1] = h
	} else {
		if n > 0 {
			t.notes[n-1].OffsetS = h.OnsetS
		}
		t.notes = append(t.notes, h)
	}
	t.odds = odds
	t.ear.took(m)
}
