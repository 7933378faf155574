package midi

import (
	"strconv"
	"strings"

	"heddle/exercise"
	"heddle/line"
	"heddle/notefile/melody"
	"heddle/notefile/sheet"
	"heddle/touch"
)

// own reads what only our own files have: groups and their scales from cues, and
// touches from texts.
func (m *midiImport) own(notes []exercise.GivenNote, held []midiNote, t *midiTrack) {
	if len(held) == 0 || t.Cues[held[0].Start] == "" {
		return
	}
	group, from, role := -1, "", line.PatternRole
	for i := range notes {
		n, tick := &notes[i], held[i].Start
		if cue, begins := t.Cues[tick]; begins {
			group++
			from, role = m.cue(cue, n)
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

// cue returns the scale that a cue names, in any naming that has the note, and the role
// of the notes from it on.
func (m *midiImport) cue(text string, n *exercise.GivenNote) (scale string, role line.Role) {
	if text == sheet.LandingLabel {
		return "", line.LandingRole
	}
	return melody.ScaleIn(text, n.Pitch.Name), line.PatternRole
}
