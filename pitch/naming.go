package pitch

// A Naming is a way people say note names.
type Naming int

// The namings.
const (
	English Naming = iota // B♭, B
	German                // B, H
	Solfege               // fixed do: Si♭, Si
)
