package exercise

import (
	"slices"

	"heddle/pitch"
)

// remarks says what a player should know about a spec that is not an error: that a
// superimposed scale adds no note to those before it.
func (p *plan) remarks() []string {
	remarks := []string{}
	for _, s := range p.spans {
		for i := range s.laid {
			text := s.nothingAdded(i, p.naming)
			if text != "" && !slices.Contains(remarks, text) {
				remarks = append(remarks, text)
			}
		}
	}
	return remarks
}

// nothingAdded says that superimposed scale i adds no note to home and the scales laid
// over it before. It is empty if it adds one.
func (s span) nothingAdded(i int, naming pitch.Naming) string {
	laid, before := s.laid[i], s.scales[:i+1]
	named := func(class int, scales []pitch.Scale) bool {
		return slices.ContainsFunc(scales, func(s pitch.Scale) bool { _, in := s.Named(class); return in })
	}
	within := func(scales []pitch.Scale) bool {
		return !slices.ContainsFunc(laid.Scale.Notes, func(n pitch.Name) bool { return !named(n.Class(), scales) })
	}
	if !within(before) {
		return ""
	}
	to := "the scales before it"
	for _, s := range before {
		if within([]pitch.Scale{s}) {
			to = naming.Scale(s)
			if s.Name() == laid.Scale.Name() {
				to = "the same scale before it"
			}
			break
		}
	}
	name := naming.Scale(laid.Scale)
	if laid.Away != "" {
		name += ", " + laid.Away + ","
	}
	return name + " adds no note to " + to + "."
}
