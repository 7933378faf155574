package notefile

import "heddle/pitch"

// spokenName returns a name as people say it.
func spokenName(_ pitch.Naming, n pitch.Name) string { return n.Symbol() }
