package hear

// A reference is how loud a take's notes usually are, against which a moment
// may be too soft to be one. The zero value knows nothing.
type reference struct {
	known        bool
	newDB, allDB float64 // of what is new at a note's harmonics, and of all that sounds
}

// under is how much softer a moment is than usual, in tens of dB.
func (r reference) under(m *moment) float64 {
	if !r.known {
		return 0
	}
	return clampTo((m.levelDB-r.allDB)/10, softestSign, 1)
}

// strength is how much stronger than usual a candidate is, in tens of dB.
func (r reference) strength(c *candidate) float64 {
	if !r.known {
		return 0
	}
	return clampTo((c.levelDB-r.newDB)/10, softestSign, 1)
}

// apply judges a moment anew against the take's loudness.
func (r reference) apply(m *moment) {
	for i := range m.candidates {
		c := &m.candidates[i]
		c.signs[underSign] = float32(r.under(m))
		c.signs[strengthSign] = float32(r.strength(c))
		c.odds = m.judge().odds(&c.signs)
	}
}

// newReference takes the medians over the moments that are likely notes.
func newReference(moments []moment) reference {
	var fresh, all []float64
	for i := range moments {
		if m := &moments[i]; m.odds() > 0 {
			fresh, all = append(fresh, m.best().levelDB), append(all, m.levelDB)
		}
	}
	return reference{known: len(all) > 0, newDB: median(fresh), allDB: median(all)}
}

// A usual is the reference while a take goes on: the mean over the last
// notes.
type usual struct {
	reference
	count float64
}

// usualNotes is over how many notes it is taken.
const usualNotes = 16

func (u *usual) add(m *moment) {
	u.count = min(u.count+1, usualNotes)
	u.newDB += (m.best().levelDB - u.newDB) / u.count
	u.allDB += (m.levelDB - u.allDB) / u.count
	u.known = true
}
