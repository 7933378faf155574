package line

import (
	"fmt"
	"strings"
	"testing"
)

// Common practice; 5 in quarters and eighths as 3+2 is ours to choose.
func TestBarsAreFeltInBeats(t *testing.T) {
	for _, row := range []struct{ meter, want string }{
		{"4/4", "4 4 | 4 4"},
		{"3/4", "4 4 4"},
		{"5/4", "4 4 4 | 4 4"},
		{"6/4", "4 4 4 | 4 4 4"},
		{"7/4", "4 4 4 | 4 4 | 4 4"},
		{"8/4", "4 4 | 4 4 | 4 4 | 4 4"},
		{"2/2", "8 8"},
		{"4/2", "8 8 | 8 8"},
		{"6/8", "6 6"},
		{"12/8", "6 6 | 6 6"},
		{"5/8", "6 | 4"},
		{"7/8", "4 4 | 6"},
		{"8/8", "4 4 | 4 4"},
		{"11/8", "4 4 | 4 4 | 6"},
		{"3/8", "6"},
		{"1/8", "2"},
		{"2/16", "2"},
		{"5/16", "3 | 2"},
		{"7/16", "4 | 3"},
		{"9/16", "3 3 3"},
		{"13/16", "4 4 | 3 | 2"},
		{"0/0", "4 4 | 4 4"},
	} {
		m, err := ParseMeter(row.meter)
		if err != nil && row.meter != "0/0" {
			t.Fatal(err)
		}
		p := PulseOf(m)
		var words []string
		for beat, strong := range p.strong {
			if strong {
				words = append(words, "|")
			}
			from, to := p.Span(beat)
			words = append(words, fmt.Sprint(int((to-from)/(Quarter/4))))
		}
		if got := strings.Join(words, " "); got != row.want {
			t.Errorf("%s in sixteenths: %s, want %s", row.meter, got, row.want)
		}
	}
}
