package pitch

import "slices"

// A Family is a number of scale types that belong together.
type Family struct {
	Name  string
	Types []Type
}

// families lists the families, the most played first, each by its first type in
// the table of types. A family goes on to where the next one in the table begins.
var families = []struct{ name, first string }{
	{"Pentatonics", "major pentatonic"}, {"Blues and six notes", "minor blues"}, {"Modes of major", "major"},
	{"Modes of melodic minor", "melodic minor"}, {"Modes of harmonic minor", "harmonic minor"}, {"Eight notes and more", "octatonic half-whole"},
	{"Altered pentatonics", "dominant pentatonic"}, {"Sevenths", "major seventh arpeggio"}, {"Triads", "major triad"},
	{"Modes of harmonic major", "harmonic major"}, {"Other scales of seven", "double harmonic"},
	{"Messiaen’s modes and the chromatic scale", "Messiaen mode 3"},
}

// Families returns every type that has a name, by family, the most played family
// first (common practice).
func Families() []Family {
	types := Types()
	begins := make([]int, len(families)) // of each family in the table
	for i, f := range families {
		begins[i] = slices.IndexFunc(types, func(t Type) bool { return t.Name == f.first })
	}
	list := make([]Family, len(families))
	for i, f := range families {
		end := len(types)
		for _, begin := range begins {
			if begin > begins[i] {
				end = min(end, begin)
			}
		}
		list[i] = Family{f.name, types[begins[i]:end]}
	}
	return list
}
