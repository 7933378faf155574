package main

import (
	"fmt"
	"io"
	"math"
	"strings"
)

// head explains the tables.
const head = `# How the instruments sound, measured

Made by ` + "`go run ./sound/internal/measure -o doc/sound.md`" + `. Don't edit it.

Single notes of our tones next to recorded ones: sets of npm (samples CC BY 3.0,
a reference only, never shipped) and FluidR3 as fluidsynth plays it, dry. Where a
set lacks a note, the nearest within a tone is taken. Decays are those of each
partial from 0.08 to 0.58 s after the stroke; a minus sign is a partial that
grows. Levels are RMS over 50 ms, against the level at 0.05 s. The centroid is the
mean frequency by amplitude up to 10 kHz. The attack is the time from 20 dB to
3 dB below the highest level over 5 ms. B is the inharmonicity: partial k lies at
k·f₀·√(1+B·k²).

Where recorded sets differ widely from one another, ours lie between them. What
remains apart: our attacks on acoustic strings are 4 to 10 ms shorter than in
recordings, where the player's finger or pick is heard before the string is let go.

Before the strings had these losses, two planes and stiffness, the electric guitar's
figures were:

| | decay of partials 1–9, dB/s | level at 0.25, 0.5, 1, 2 s, dB | centroid at 0.03, 0.25, 0.5, 1 s, Hz | attack, ms | B, 10⁻⁴ |
| --- | --- | --- | --- | --- | --- |
| A2 | 7 7 8 8 8 9 9 9 10 | -2 -3 -7 -15 | 879 712 597 470 | 2.0 | 0.0 |
| C4 | 11 11 12 14 16 18 21 24 27 | -2 -5 -11 -23 | 1072 898 784 664 | 4.0 | 0.0 |
| A4 | 15 17 20 24 29 35 43 52 62 | -3 -8 -16 -32 | 1170 1000 894 790 | 2.5 | 0.0 |

and the classifier told it from the recorded guitar in 97 %, from FluidR3's in 97 and
94 % of notes; the steel- and nylon-string guitar, which sounded the same, in 98 to
100 %; the bass in 95, 100 and 95 %.
`

// writePage writes every table.
func writePage(w io.Writer, sets []set) {
	fmt.Fprint(w, head)
	for _, f := range families {
		fmt.Fprintf(w, "\n### %s%s\n", strings.ToUpper(f.name[:1]), f.name[1:])
		for _, key := range f.keys {
			fmt.Fprintf(w, "\n%s\n\n| | decay of partials 1–9, dB/s | level at 0.25, 0.5, 1, 2 s, dB | centroid at 0.03, 0.25, 0.5, 1 s, Hz | attack, ms | B, 10⁻⁴ |\n| --- | --- | --- | --- | --- | --- |\n", keyName(key))
			for _, s := range sets {
				if s.family != f.name {
					continue
				}
				if n, ok := nearest(s.notes, key); ok {
					writeRow(w, s, n, key)
				}
			}
		}
	}
	writeClassified(w, sets)
}

// nearest returns the note nearest to a key, at most two semitones away.
func nearest(notes map[int]note, key int) (note, bool) {
	for _, off := range []int{0, 1, -1, 2, -2} {
		if n, ok := notes[key+off]; ok {
			return n, true
		}
	}
	return note{}, false
}

func writeRow(w io.Writer, s set, n note, key int) {
	m := measure(n)
	name := s.name
	if n.key != key {
		name += ", " + keyName(n.key)
	}
	fmt.Fprintf(w, "| %s | %s | %s | %s | %.1f | %.1f |\n", name, numbers(m.decay[:]), numbers(m.level[:]), numbers(m.centroid[:]), m.attackMS, m.b*1e4)
}

// numbers writes whole numbers; a dash for what could not be measured.
func numbers(list []float64) string {
	var words []string
	for _, x := range list {
		if math.IsNaN(x) {
			words = append(words, "–")
			continue
		}
		words = append(words, fmt.Sprintf("%.0f", x))
	}
	return strings.Join(words, " ")
}

// keyName writes a key in sharps, as files of recorded notes are named.
func keyName(key int) string {
	return strings.Fields("C C♯ D D♯ E F F♯ G G♯ A A♯ B")[key%12] + fmt.Sprint(key/12-1)
}
