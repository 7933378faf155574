package bench_test

import (
	"strings"
	"testing"
)

// The set classes, interval vectors and names are those of the handbooks
// (Forte 1973); the card says each name once.
func TestTheCardSaysWhatTheScalesMakeTogether(t *testing.T) {
	h := handler(t)
	for _, c := range []struct {
		query string
		want  []string
	}{
		{"home=G+minor+pentatonic&superimpose=semitone+up", []string{"10-5", "⟨888894⟩", "nothing with a name of its own"}},
		{"home=C+octatonic+half-whole", []string{"8-28", "⟨448444⟩", "3: Messiaen’s mode 2", "octatonic half-whole from C, E♭, F♯ or A; octatonic whole-half from D♭, E, G or B♭"}},
		{"home=A+octatonic&superimpose=minor+third+up", []string{"<p>C octatonic half-whole, a minor third up, adds no note to A octatonic half-whole.</p>"}},
		{"home=C+major&superimpose=tritone", []string{"12-1", "⟨12 12 12 12 12 6⟩", "chromatic from any of them"}},
	} {
		page := ask(h, "GET", "/?"+c.query).Body.String()
		for _, want := range c.want {
			if !strings.Contains(page, want) {
				t.Errorf("%s: the page lacks %s", c.query, want)
			}
		}
	}
}
