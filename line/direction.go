package line

// A Direction is which way a line goes.
type Direction string

// The directions. The last two make two passes.
const (
	Down   Direction = "down"
	Up     Direction = "up"
	DownUp Direction = "down-up"
	UpDown Direction = "up-down"
)

// rises reports whether the first pass goes up.
func (d Direction) rises() bool { return d == Up || d == UpDown }

// turns reports whether there is a second pass, back.
func (d Direction) turns() bool { return d == DownUp || d == UpDown }

// ParseDirection reads a direction.
func ParseDirection(s string) (Direction, error) {
	switch word := foldWord(s); word {
	case "down", "up", "down-up", "up-down":
		return Direction(word), nil
	case "falling":
		return Down, nil
	case "rising":
		return Up, nil
	}
	return "", wordError("direction", s, []string{"down", "up", "down-up", "up-down"})
}

// A Follow is the note of a group that the next one starts from.
type Follow string

// The follows.
const (
	FollowFirst Follow = "first"
	FollowLast  Follow = "last"
)

// Repeats is what happens where a group would start with the pitch that the one before
// ended with, under one name or two.
type Repeats string

// The repeats. Kept, each of the two notes has the name that its own scale gives it;
// skipped, the later group starts one note further on.
const (
	KeepRepeats Repeats = "keep"
	SkipRepeats Repeats = "skip"
)

// ParseRepeats reads what happens to repeats.
func ParseRepeats(s string) (Repeats, error) {
	switch word := foldWord(s); word {
	case "keep", "skip":
		return Repeats(word), nil
	}
	return "", wordError("repeats", s, []string{"keep", "skip"})
}

// ParseFollow reads a follow.
func ParseFollow(s string) (Follow, error) {
	switch word := foldWord(s); word {
	case "first", "last":
		return Follow(word), nil
	}
	return "", wordError("follow", s, []string{"first", "last"})
}
