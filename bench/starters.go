package bench

// A starter is an exercise to begin with, for someone who has none of their own yet.
type starter struct {
	Title string
	Says  string
	Query string
}

// starters are those of the Thursday workshop: a G minor vamp and a blues in A.
var starters = []starter{
	{"One scale, slowly", "G minor pentatonic in threes, to learn the shape first", "chord=Gm7&home=G+minor+pentatonic&groups=3&fret=10&tempo=60&land=root"},
	{"Out by a semitone", "two minor pentatonics a fret apart over the Thursday vamp", "chord=Gm7&home=G+minor+pentatonic&superimpose=semitone+up&groups=3%2C3&fret=10&tempo=72&land=third"},
	{"Blues in A, a tritone away", "three notes at home, two far out, swung", "chord=A7&home=A+blues&superimpose=tritone&groups=3%2C2&fret=5&feel=swing+2%3A1&tempo=92&land=root"},
	{"A triad on top", "A minor dorian with a major triad a tone up: further, but still in", "chord=Am7&home=A+dorian&superimpose=whole+tone+up+major+triad&groups=4%2C3&fret=5&tempo=80&direction=up-down&land=fifth"},
}
