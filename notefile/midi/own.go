package midi

import (
	"strconv"
	"strings"

	"heddle/exercise"
	"heddle/line"
	"heddle/notefile/melody"
	"heddle/notefile/sheet"
	"heddle/pitch"
	"heddle/touch"
)

// own reads what only our own files have: groups and their scales from cues, and
// touches from texts.
func (m *midiImport) own(notes []exercise.GivenNote, held []midiNote, t *midiTrack) {
	if len(held) == 0 || t.Cues[held[0].Start] == "" {
		return
	}
	naming := m.cueNaming(notes, func(i int) string { return t.Cues[held[i].Start] })
	group, from, role := -1, "", line.PatternRole
	for i := range notes {
		n, tick := &notes[i], held[i].Start
		if words, begins := t.Cues[tick]; begins {
			group++
			from, role = cue(words, naming)
		}
		n.Group, n.From, n.Role = group, from, role
		words, written, short := strings.Cut(t.Shaped[tick], shortened)
		if shape, err := touch.Parse(words); err == nil {
			n.Touch = shape
		}
		if ticks, err := strconv.Atoi(written); short && err == nil && ticks > 0 {
			n.Duration = m.beat(tick+ticks) - n.Start
		}
	}
}

// cue returns the scale that a cue names, in English, and the role of the notes from
// it on.
func cue(text string, naming pitch.Naming) (scale string, role line.Role) {
	if text == sheet.LandingLabel {
		return "", line.LandingRole
	}
	if named, ok := melody.ScaleIn(text, naming); ok {
		return named.Name(), line.PatternRole
	}
	return "", line.PatternRole
}

// cueNaming returns the naming in which most notes belong to the scale that their cue
// names: a German B is not an English one.
func (m *midiImport) cueNaming(notes []exercise.GivenNote, cueOf func(i int) string) pitch.Naming {
	best, most := pitch.English, -1
	for _, naming := range []pitch.Naming{pitch.English, pitch.German, pitch.Solfege} {
		fit := 0
		var scale pitch.Scale
		for i, n := range notes {
			if text := cueOf(i); text != "" {
				scale, _ = melody.ScaleIn(text, naming)
			}
			if own, has := scale.Named(n.Pitch.Name.Class()); has && own == n.Pitch.Name {
				fit++
			}
		}
		if fit > most {
			best, most = naming, fit
		}
	}
	return best
}
