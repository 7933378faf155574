package hear

import "slices"

// A transcript turns moments into notes, and turns them once more when the
// loudness of the whole take is known: before the first note a band next door
// is the loudest there is.
type transcript struct {
	ear     *ear
	told    func(number int) // of each note as it comes or changes, when set
	doubts  bool             // keep what is likely no note too
	reading reading          // so far
	moments []moment         // all that may be notes
	decay   decay
}

func newTranscript(opts Options) *transcript {
	t := &transcript{doubts: opts.Doubts}
	t.ear = newEar(opts, t.take)
	t.ear.levelled = t.decay.hear
	t.ear.revise = t.revise
	return t
}

// take enters the next moment and returns the number of its note, or −1.
func (t *transcript) take(m moment) (number int) {
	least := faintestWhole
	if t.ear.live {
		least = faintest
	}
	if m.odds() < least && !(t.ear.live && t.doubts) {
		return -1 // live it may yet come to be one
	}
	m.keepLikely()
	if !t.ear.live { // nobody reads a live take a second time
		t.moments = append(t.moments, m)
	}
	number = t.reading.add(&m)
	if number >= 0 {
		if m.odds() >= 0 {
			t.ear.took(m)
		}
		t.tell(number)
	}
	return number
}

// revise enters a moment once more when more was heard of it.
func (t *transcript) revise(m moment, number int) {
	m.keepLikely()
	if number = t.reading.revise(&m, number); number >= 0 {
		t.tell(number)
	}
}

func (t *transcript) tell(number int) {
	if t.told != nil {
		t.told(number)
	}
}

// soFar returns the notes as they were told.
func (t *transcript) soFar() []Heard {
	notes := slices.Clone(t.reading.notes)
	t.decay.end(notes)
	return notes
}

// heard returns the notes in order, and the doubts where they are asked for.
func (t *transcript) heard() []Heard {
	usual := newReference(t.moments)
	var r reading
	for _, m := range t.moments {
		m.candidates = slices.Clone(m.candidates)
		usual.apply(&m)
		r.add(&m)
	}
	t.decay.end(r.notes)
	if !t.doubts {
		return r.notes
	}
	return r.withDoubts()
}
