package musicxml

import (
	"strconv"
	"strings"

	"heddle/notefile/melody"
	"heddle/pitch"
)

// symbolOf returns a harmony element as a chord symbol: root, kind as printed
// (or in its common form), the other printed degrees, and the bass. It returns
// an empty string for no chord, and for one without a root.
func symbolOf(h xmlHarmony) string {
	if len(h.Roots) == 0 || len(h.Kinds) == 0 {
		return ""
	}
	kind := strings.TrimSpace(h.Kinds[0].Name)
	root, ok := harmonyName(h.Roots[0].Step, h.Roots[0].Alter)
	if !ok || kind == "none" {
		return ""
	}
	symbol := root + melody.CleanText(h.Kinds[0].Text)
	printed := h.Kinds[0].Text != ""
	if !printed {
		for _, k := range harmonyKinds {
			if k.Name == kind {
				symbol += k.Suffix
			}
		}
	}
	for _, d := range h.Degrees {
		if d.Print == "no" && printed {
			continue
		}
		symbol += degreeText(d.Value, d.Alter, d.Type)
	}
	if len(h.Basses) > 0 {
		if bass, ok := harmonyName(h.Basses[0].Step, h.Basses[0].Alter); ok {
			symbol += "/" + bass
		}
	}
	return symbol
}

func harmonyName(step, alter string) (string, bool) {
	name, err := pitch.ParseName(strings.TrimSpace(step))
	semitones := number(alter)
	if err != nil || name.Accidental != 0 || semitones < -2 || semitones > 2 {
		return "", false
	}
	name.Accidental = int(semitones)
	return name.String(), true
}

// degreeText returns a degree besides the kind: "b9", "add9" for an unaltered
// addition, "no5" for an omission.
func degreeText(value, alter, kind string) string {
	n, err := strconv.Atoi(strings.TrimSpace(value))
	if err != nil || n < 1 || n > 13 {
		return ""
	}
	semitones := int(number(alter))
	if semitones < -2 || semitones > 2 {
		return ""
	}
	text := pitch.Degree{Number: n, Alter: semitones}.String()
	switch {
	case strings.TrimSpace(kind) == "subtract":
		return "no" + strconv.Itoa(n)
	case strings.TrimSpace(kind) == "add" && semitones == 0:
		return "add" + text
	}
	return text
}
