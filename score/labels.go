package score

import (
	"heddle/exercise"
	"heddle/pitch"
)

// scaleText returns a scale's name as players of the naming write it.
func scaleText(naming pitch.Naming, s pitch.Scale) string {
	return naming.Name(s.Root) + " " + s.Type.Name
}

// shortLabels returns a short label for each scale of the exercise: its root
// where no other scale of the exercise stands on the same one, else a letter.
func shortLabels(ex *exercise.Exercise) []string {
	labels := make([]string, len(ex.Scales))
	letters := map[string]string{}
	for i, s := range ex.Scales {
		name := s.Name()
		if letters[name] == "" {
			letters[name] = string(rune('A' + len(letters)%26))
		}
		labels[i] = ex.Naming.Name(s.Root)
	}
	for i, s := range ex.Scales {
		for _, t := range ex.Scales {
			if t.Root == s.Root && t.Name() != s.Name() {
				labels[i] = letters[s.Name()]
			}
		}
	}
	return labels
}
