package notefile

import (
	"bytes"
	"fmt"
	"math/big"
	"strings"
	"testing"

	"heddle/exercise"
	"heddle/line"
	"heddle/notefile/sheet"
)

// vttOf writes captions.
func vttOf(t testing.TB, ex *exercise.Exercise) string {
	t.Helper()
	var out bytes.Buffer
	if err := WriteVTT(&out, ex, 0); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func TestCaptionsOfTheWorkedExample(t *testing.T) {
	s := workedExample()
	s.Tempo, s.Names, s.Bars, s.Feel = 60, "german", 2, "swing 2:1"
	got := vttOf(t, built(t, s))
	// At 60, swung, an on-beat eighth lasts two thirds of a second.
	want := `WEBVTT

NOTE G minor pentatonic with As minor pentatonic over Gm7

group-0
00:00:00.000 --> 00:00:01.667 line:-2
<c.home>G minor pentatonic</c>

note-0
00:00:00.000 --> 00:00:00.667 line:-1
<c.home>F</c>

note-1
00:00:00.667 --> 00:00:01.000 line:-1
<c.home>D</c>

note-2
00:00:01.000 --> 00:00:01.667 line:-1
<c.home>C</c>

group-1
00:00:01.667 --> 00:00:03.000 line:-2
<c.superimposed>As minor pentatonic</c>

note-3
00:00:01.667 --> 00:00:02.000 line:-1
<c.superimposed>Es</c>

note-4
00:00:02.000 --> 00:00:02.667 line:-1
<c.superimposed>Des</c>

note-5
00:00:02.667 --> 00:00:03.000 line:-1
<c.superimposed>Ces</c>
`
	if !strings.HasPrefix(got, want) {
		t.Errorf("got\n%s\nwant\n%s", got[:min(len(got), len(want)+100)], want)
	}
}

func TestSubRipCaptionsOfTheWorkedExample(t *testing.T) {
	s := workedExample()
	s.Tempo, s.Names, s.Bars, s.Feel = 60, "german", 2, "swing 2:1"
	var out bytes.Buffer
	if err := WriteSRT(&out, built(t, s), 1.5); err != nil {
		t.Fatal(err)
	}
	want := `1
00:00:01,500 --> 00:00:02,167
G minor pentatonic
F

2
00:00:02,167 --> 00:00:02,500
G minor pentatonic
D

3
00:00:02,500 --> 00:00:03,167
G minor pentatonic
C

4
00:00:03,167 --> 00:00:03,500
As minor pentatonic
Es

`
	if got := out.String(); !strings.HasPrefix(got, want) {
		t.Errorf("got\n%s\nwant\n%s", got[:min(len(got), len(want)+100)], want)
	}
}

// Milliseconds are compared with exact fractions, halves rounded up.
func TestMillisecondsAreExact(t *testing.T) {
	for _, tempo := range []int64{20, 37, 60, 84, 120, 127, 400} {
		for b := int64(0); b < 400_000; b += 997 {
			exact := big.NewRat(b*60_000, 960*tempo)
			exact.Add(exact, big.NewRat(1, 2))
			want := new(big.Int).Quo(exact.Num(), exact.Denom()).Int64()
			if got := milliseconds(line.Beat(b), float64(tempo)); int64(got) != want {
				t.Fatalf("beat %d at %d is %d ms, want %d", b, tempo, got, want)
			}
		}
	}
}

// WebVTT asks that cues follow in order of their beginnings and end after
// them (W3C WebVTT, section 4.1).
func TestCuesFollowInTime(t *testing.T) {
	for i, ex := range samples(t) {
		before, cues := "", 0
		for _, row := range strings.Split(vttOf(t, ex), "\n") {
			from, to, ok := strings.Cut(row, " --> ")
			if !ok {
				continue
			}
			cues++
			to, _, _ = strings.Cut(to, " ")
			if from < before || to <= from {
				t.Fatalf("%s: %s after %s", sampleName(i, ex), row, before)
			}
			before = from
		}
		if want := len(ex.Notes) + len(sheet.Runs(ex.Notes)); cues != want {
			t.Fatalf("%s: %d cues, want %d", sampleName(i, ex), cues, want)
		}
	}
}

func TestCueTextIsEscaped(t *testing.T) {
	if got := cueText("a <b> & c\n--> d"); got != "a &lt;b&gt; &amp; c --&gt; d" {
		t.Error(got)
	}
}

func TestExercisesThatCannotBeWrittenAreRefused(t *testing.T) {
	change := func(how func(*exercise.Exercise)) *exercise.Exercise {
		ex := built(t, workedExample())
		how(ex)
		return ex
	}
	for name, c := range map[string]struct {
		ex   *exercise.Exercise
		want string
	}{
		"overlap":   {change(func(ex *exercise.Exercise) { ex.Notes[1].Start -= 10 }), `note "2 (D5 at beat 0.489583)": want notes that have a length and do not overlap`},
		"no length": {change(func(ex *exercise.Exercise) { ex.Notes[0].Duration = 0 }), `note "1 (F5 at beat 0)"`},
		"no tempo":  {change(func(ex *exercise.Exercise) { ex.Tempo = 0 }), `tempo "0": want 4 to 1000`},
	} {
		for _, w := range writers {
			err := w.write(new(bytes.Buffer), c.ex)
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%s as %s: %v", name, w.name, err)
			}
		}
	}
	for name, ex := range map[string]*exercise.Exercise{
		"meter":      change(func(ex *exercise.Exercise) { ex.Rhythm.Meter = line.Meter{Beats: 4} }),
		"length":     change(func(ex *exercise.Exercise) { ex.Length = 1 << 40 }),
		"last write": built(t, workedExample()),
	} {
		for _, w := range writers[:2] {
			var out failingWriter
			if err := w.write(&out, ex); err == nil {
				t.Errorf("%s as %s: no error", name, w.name)
			}
		}
	}
}

// A failingWriter has no room.
type failingWriter struct{}

func (*failingWriter) Write([]byte) (int, error) { return 0, fmt.Errorf("no room") }
