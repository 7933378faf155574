package pitch

import "strings"

// KnownAs returns the names of the scales with exactly these notes, each type
// once: "G minor pentatonic", or "octatonic half-whole from C, E♭, F♯ or A" if
// several roots give the same notes.
func (c Collection) KnownAs(naming Naming) []string {
	var types []string
	roots := map[string][]string{}
	for _, n := range c.Names {
		if roots[n.Name] == nil {
			types = append(types, n.Name)
		}
		roots[n.Name] = append(roots[n.Name], naming.Name(n.Root))
	}
	names := make([]string, len(types))
	for i, t := range types {
		switch from := roots[t]; {
		case len(from) == 1:
			names[i] = from[0] + " " + t
		case c.Transpositions == 1:
			names[i] = t + " from any of them"
		default:
			last := len(from) - 1
			names[i] = t + " from " + strings.Join(from[:last], ", ") + " or " + from[last]
		}
	}
	return names
}
