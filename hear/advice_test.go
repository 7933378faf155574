package hear

import (
	"strings"
	"testing"
)

func TestAdviceOnTheWholeTake(t *testing.T) {
	ex, flawless := markedLine(24)
	var other []Heard
	for i, h := range flawless {
		h.MIDI = []float64{50, 53, 48, 45, 52}[i%5]
		other = append(other, h)
	}
	again := append(append([]Heard(nil), flawless[:9]...), shifted(flawless, 4)...)
	for _, c := range []struct {
		name  string
		heard []Heard
		want  string
	}{
		{"another line", other, "notes heard none is right. Is this the line that was played"},
		{"one note by mistake", other[:1], "Note 1 is the F5"},
		{"begun in mid-line", flawless[10:], "You began at note 11, "},
		{"played again", again, "You went back: 9 notes were played again, and the last attempt counts."},
	} {
		t.Run(c.name, func(t *testing.T) {
			advice := strings.Join(Mark(c.heard, 0, ex, TakeOptions{}).Advice, " ")
			if !strings.Contains(advice, c.want) {
				t.Errorf("says %q, want %q", advice, c.want)
			}
		})
	}
	ex.Notes[2].Pitch, ex.Notes[5].Pitch = spelled(89), spelled(91)
	if got, want := Mark(flawless, 0, ex, TakeOptions{}).Advice[0], "Only E1 to E6 can be heard: 2 notes lie outside and can't be marked."; got != want {
		t.Errorf("says %q, want %q", got, want)
	}
}
