package pitch

import (
	"slices"
	"strings"
)

// kindName returns the plain symbol for a chord's degrees. Signs are written out:
// maj7, m7b5, dim.
func kindName(degrees []Degree) string {
	if formula(degrees) == alteredDegrees {
		return "7alt"
	}
	k := kind{rest: slices.Clone(degrees)}
	k.take(1, 0)
	body, changes := k.body()
	return joinKind(body, append(changes, k.remaining()...))
}

// A kind is a chord's degrees while they are being named; rest holds those that
// have no name yet.
type kind struct{ rest []Degree }

// take removes a degree from the rest and reports whether it was there.
func (k *kind) take(number, alter int) bool {
	i := slices.Index(k.rest, Degree{Number: number, Alter: alter})
	if i >= 0 {
		k.rest = slices.Delete(k.rest, i, i+1)
	}
	return i >= 0
}

func (k *kind) has(number, alter int) bool {
	return slices.Contains(k.rest, Degree{Number: number, Alter: alter})
}

// body names the triad and extension, and returns the changes for a missing third
// or fifth.
func (k *kind) body() (body string, changes []string) {
	minor, major := k.take(3, -1), k.take(3, 0)
	second, fourth := k.take(2, 0), k.take(4, 0)
	diminished := minor && k.has(5, -1) && !k.has(5, 1) && !k.has(6, 0)
	augmented := major && k.has(5, 1) && !k.has(5, -1) && !k.number(6) && !k.number(7)
	bare := !minor && !major && !second && !fourth
	switch {
	case diminished:
		return k.diminished(), nil
	case augmented:
		k.take(5, 1)
		return "aug", nil
	case bare && len(k.rest) == 1 && k.take(5, 0):
		return "5", nil
	}
	fifth := k.take(5, 0) || k.has(5, 1) || k.has(5, -1)
	dominantEleventh := bare && k.has(7, -1) && k.has(9, 0) && k.has(11, 0) && !k.has(13, 0)
	body = k.extension(minor, bare)
	if minor {
		body = "m" + body
	}
	switch {
	case fourth && second:
		body += "sus2sus4"
	case fourth:
		body += "sus4"
	case second:
		body += "sus2"
	case bare && !dominantEleventh:
		changes = append(changes, "no3")
	}
	if !fifth {
		changes = append(changes, "no5")
	}
	return body, changes
}

func (k *kind) number(number int) bool {
	return slices.ContainsFunc(k.rest, func(d Degree) bool { return d.Number == number })
}

// diminished names a chord with minor third and diminished fifth.
func (k *kind) diminished() string {
	k.take(5, -1)
	switch {
	case k.take(7, -2):
		return "dim7"
	case k.take(7, 0):
		return "dim(maj7)"
	case k.take(7, -1):
		if !k.take(9, 0) {
			return "m7b5"
		}
		if k.take(11, 0) {
			return "m11b5"
		}
		return "m9b5"
	}
	return "dim"
}

// extension names the sixth or seventh with the natural tensions stacked on it.
func (k *kind) extension(minor, bare bool) string {
	switch {
	case k.take(6, 0):
		if k.take(9, 0) {
			return "6/9"
		}
		return "6"
	case k.take(7, -1):
		return k.stack(minor, bare)
	case k.take(7, 0):
		number := k.stack(minor, false)
		if number == "9" && !minor && k.take(11, 0) {
			number = "11"
		}
		if minor {
			return "(maj" + number + ")"
		}
		return "maj" + number
	}
	return ""
}

// stack returns the highest of the natural tensions stacked in thirds.
func (k *kind) stack(minor, bare bool) string {
	if !k.take(9, 0) {
		return "7"
	}
	switch {
	case minor && k.has(11, 0) && k.take(13, 0):
		k.take(11, 0)
		return "13"
	case minor && k.take(11, 0):
		return "11"
	case minor:
		return "9"
	case k.take(13, 0):
		return "13"
	case bare && k.take(11, 0):
		return "11"
	}
	return "9"
}

// remaining names the degrees that are left: altered ones as they are, natural
// ones with "add".
func (k *kind) remaining() []string {
	var altered, added []string
	for _, d := range k.rest {
		if d.Alter == 0 {
			added = append(added, "add"+d.String())
		} else {
			altered = append(altered, d.String())
		}
	}
	return append(altered, added...)
}

// joinKind puts changes after the body, in brackets where they would otherwise be
// misread.
func joinKind(body string, changes []string) string {
	switch {
	case len(changes) == 0:
		return body
	case len(changes) == 1 && strings.HasPrefix(changes[0], "add"):
		return body + changes[0]
	case len(changes) == 1 && !strings.Contains(body, "sus") && body != "" &&
		body[len(body)-1] >= '0' && body[len(body)-1] <= '9':
		return body + changes[0]
	}
	return body + "(" + strings.Join(changes, ",") + ")"
}
