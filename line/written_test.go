package line

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// lay lays notes and rests end to end from a time: "480 r240 240" are lengths
// in Beats, r a rest.
func lay(t testing.TB, start Beat, lengths string) (notes []Span, end Beat) {
	t.Helper()
	at := start
	for i, word := range strings.Fields(lengths) {
		var length Beat
		if _, err := fmt.Sscan(strings.TrimPrefix(word, "r"), &length); err != nil {
			t.Fatal(err)
		}
		if !strings.HasPrefix(word, "r") {
			notes = append(notes, Span{i, at, at + length})
		}
		at += length
	}
	return notes, at
}

// called returns bars as a musician would call them out: 4 a quarter, "8." a
// dotted eighth, ~ a tie to the next note, r a rest, (3: …) a tuplet.
func called(bars [][]Written) string {
	var words []string
	for i, bar := range bars {
		if i > 0 {
			words = append(words, "|")
		}
		for _, w := range bar {
			word := ""
			if w.Opens() {
				word = fmt.Sprintf("(%d:", w.Tuplet.Actual)
			}
			if w.Note == Silence {
				word += "r"
			}
			if w.WholeBar {
				word += "bar"
			} else {
				word += fmt.Sprint(1<<w.Value.Halvings) + strings.Repeat(".", w.Value.Dots)
			}
			if w.TieTo {
				word += "~"
			}
			if w.Closes() {
				word += ")"
			}
			words = append(words, word)
		}
	}
	return strings.Join(words, " ")
}

// write writes what lay lays into the bars it needs.
func write(t testing.TB, meter string, start Beat, lengths string) [][]Written {
	t.Helper()
	m, err := ParseMeter(meter)
	if err != nil {
		t.Fatal(err)
	}
	notes, end := lay(t, start, lengths)
	return Write(m, Bars(m, start, end), notes)
}

// Common practice (Gould 2011, "Grouping of note-values"): beats stay
// visible, the middle of 4/4 is never hidden but by whole beats, rests show
// every beat.
func TestDurationsAreWrittenAsCommonPracticeHasThem(t *testing.T) {
	for _, row := range []struct {
		meter   string
		start   Beat
		lengths string
		want    string
	}{
		{"4/4", 0, "960 960 960 960", "4 4 4 4"},
		{"4/4", 0, "480 480 480 480 1920", "8 8 8 8 2"},
		{"4/4", 0, "3840", "1"},
		{"4/4", 0, "480 960 480 1920", "8 4 8 2"},
		{"4/4", 0, "480 960 960 960 480", "8 4 8~ 8 4 8"},
		{"4/4", 0, "960 1920 960", "4 2 4"},
		{"4/4", 0, "1440 480 1440 480", "4. 8 4. 8"},
		{"4/4", 0, "1440 960 1440", "4. 8~ 8 4."},
		{"4/4", 0, "480 1440 1920", "8 4. 2"},
		{"4/4", 0, "480 1920 1440", "8 4.~ 8 4."},
		{"4/4", 0, "1200 720 1920", "4~ 16 8. 2"},
		{"4/4", 0, "960 2880", "4 2."},
		{"4/4", 0, "2880 1920", "2. 4~ | 4 r4 r2"},
		{"4/4", 0, "480 r480 960 r1920", "8 r8 4 r2"},
		{"4/4", 0, "480", "8 r8 r4 r2"},
		{"4/4", 0, "r1440 480 1920", "r4 r8 8 2"},
		{"4/4", 0, "r3840 960", "rbar | 4 r4 r2"},
		{"4/4", 0, "720 240 240 240 480 1920", "8. 16 16 16 8 2"},
		{"4/4", 0, "30 15 15 900 2880", "128 256 256 32.~ 16~ 8 2."},
		{"4/4", 0, "320 320 320 960 1920", "(3:8 8 8) 4 2"},
		{"4/4", 0, "640 320 960 1920", "(3:4 8) 4 2"},
		{"4/4", 0, "160 160 160 160 160 160 960 1920", "(3:16 16 16) (3:16 16 16) 4 2"},
		{"4/4", 0, "160 320 320 160 2880", "(3:16 8) (3:8 16) 2."},
		{"4/4", 0, "160 160 320 160 160 2880", "(3:16 16 8 16 16) 2."},
		{"4/4", 0, "480 160 160 160 960 1920", "8 (3:16 16 16) 4 2"},
		{"4/4", 0, "192 192 192 192 192 960 1920", "(5:16 16 16 16 16) 4 2"},
		{"4/4", 0, "640 640 640 1920", "(3:4 4 4) 2"},
		{"4/4", 0, "960 640 640 640 960", "4 (3:4 8~) (3:8 4) 4"},
		{"3/4", 0, "960 1280 640", "4 (3:2 4)"},
		{"4/4", 0, "320 320 1280 1920", "(3:8 8 8~) 4 2"},
		{"4/4", 0, "528 432 2880", "(5:8~ 32. 8~ 64) 2."},
		{"3/4", 0, "2880", "2."},
		{"3/4", 0, "960 1920", "4 2"},
		{"3/4", 0, "1440 480 480 480", "4. 8 8 8"},
		{"3/4", 0, "960 r1920", "4 r4 r4"},
		{"2/4", 0, "r480 320 320 r800", "r8 (3:8 16~) (3:16 r8) r8"},
		{"5/4", 0, "4800", "2.~ 2"},
		{"5/4", 0, "3840 960", "2.~ 4 4"},
		{"5/4", 0, "1920 1920 960", "2 4~ 4 4"},
		{"5/4", 0, "r3840 960", "r4 r4 r4 r4 4"},
		{"5/4", -1440, "480 480 480 960", "8 8 8 | 4 r4 r4 r2"},
		{"4/4", -320, "320 3840", "(3:r4 8) | 1"},
		{"6/8", 0, "1440 1440", "4. 4."},
		{"6/8", 0, "480 960 960 480", "8 4 4 8"},
		{"6/8", 0, "2880", "2."},
		{"6/8", 0, "480 r960 1440", "8 r8 r8 4."},
		{"6/8", 0, "480 960 r1440", "8 4 r4."},
		{"6/8", 0, "720 720 1440", "8. 8. 4."},
		{"6/8", 0, "160 160 160 480 480 1440", "(3:16 16 16) 8 8 4."},
		{"6/8", 0, "320 320 320 320 320 320 320 320 320", "(3:8 8 8) (3:8 8 8) (3:8 8 8)"},
		{"6/8", 0, "192 192 192 192 192 480 1440", "(5:16 16 16 16 16) 8 4."},
		{"6/8", 0, "480 640 320 1440", "8 (3:4 8) 4."},
		{"7/8", 0, "480 480 480 480 480 480 480", "8 8 8 8 8 8 8"},
		{"7/8", 0, "960 960 1440", "4 4 4."},
		{"7/8", 0, "3360", "2~ 4."},
		{"7/8", 0, "960 2400", "4 4~ 4."},
		{"7/8", 0, "1440 1920", "4. 8~ 4."},
		{"7/8", 0, "480 2880", "8 4.~ 4."},
		{"7/8", 0, "1440 960 960", "4. 8~ 8 4"},
		{"5/8", 0, "1920 480", "4.~ 8 8"},
		{"7/8", 0, "320 320 320 960 1440", "(3:8 8 8) 4 4."},
		{"12/8", 0, "5760", "1."},
		{"2/2", 0, "1920 1920", "2 2"},
		{"2/2", 0, "640 640 640 320 320 320 960", "(3:4 4 4) (3:8 8 8) 4"},
	} {
		if got := called(write(t, row.meter, row.start, row.lengths)); got != row.want {
			t.Errorf("%s from %d, %s:\n got %s\nwant %s", row.meter, row.start, row.lengths, got, row.want)
		}
	}
}

// oddLengths are values of the trade, and lengths that no value has.
var oddLengths = []int{15, 30, 60, 80, 96, 120, 160, 192, 240, 320, 360, 384, 480, 640, 720, 960, 1440, 1920, 3840, 7, 53, 416}

func TestWhatIsWrittenAddsUpToWhatItStandsFor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := Meter{Beats: rapid.IntRange(1, mostBeats).Draw(t, "beats"), Unit: rapid.SampledFrom([]int{2, 4, 8, 16}).Draw(t, "unit")}
		var notes []Span
		first := -Beat(rapid.SampledFrom(append(oddLengths, 0)).Draw(t, "pickup"))
		at := first
		for i := range rapid.IntRange(1, 40).Draw(t, "spans") {
			end := at + Beat(rapid.SampledFrom(oddLengths).Draw(t, "length"))
			if rapid.IntRange(0, 2).Draw(t, "sounds") > 0 {
				notes = append(notes, Span{i, at, end})
			}
			at = end
		}
		bars := Bars(m, first, at)
		if bars[0].Start > first || bars[len(bars)-1].End < at {
			t.Fatalf("bars from %d to %d do not hold %d to %d", bars[0].Start, bars[len(bars)-1].End, first, at)
		}
		next := bars[0].Start
		for i, written := range Write(m, bars, notes) {
			if bars[i].Start != next {
				t.Fatalf("bar %d begins at %d, not %d", i, bars[i].Start, next)
			}
			next = bars[i].End
			checkBar(t, bars[i], notes, written)
		}
		if next != bars[len(bars)-1].End {
			t.Fatalf("written to %d of %d", next, bars[len(bars)-1].End)
		}
	})
}

// checkBar holds what is true of every bar: the signs follow one another from
// bar line to bar line, each lasts as long as it is drawn, pieces of one note
// are tied, all of a tuplet stands together, and beams open and close at every
// level, inside one beat and never across the end of a tuplet alone.
func checkBar(t *rapid.T, b Bar, notes []Span, written []Written) {
	at := b.Start
	var open *Tuplet
	words := called([][]Written{written})
	byNote := map[int]Span{}
	for _, n := range notes {
		byNote[n.Note] = n
	}
	for i := range written {
		w := &written[i]
		if w.Start != at || w.End <= at {
			t.Fatalf("sign %d lasts from %d to %d, want from %d in %s", i, w.Start, w.End, at, words)
		}
		at = w.End
		if !w.WholeBar && !lastsAsDrawn(w) {
			t.Fatalf("sign %d lasts %d in %s", i, w.End-w.Start, words)
		}
		if n := byNote[w.Note]; w.Note != Silence && (w.Start < n.Start || w.End > n.End || w.TieFrom != (w.Start > n.Start) || w.TieTo != (w.End < n.End)) {
			t.Fatalf("sign %d is tied wrongly in %s", i, words)
		}
		if open == nil && w.Opens() {
			open = w.Tuplet
		}
		if w.Tuplet != open {
			t.Fatalf("sign %d is in a tuplet without ends in %s", i, words)
		}
		if w.Closes() {
			open = nil
		}
	}
	if at != b.End || open != nil {
		t.Fatalf("the bar ends at %d, want %d; tuplet open %v in %s", at, b.End, open != nil, words)
	}
	checkBeams(t, written, words)
}

// checkBeams follows the beams of a bar from sign to sign.
func checkBeams(t *rapid.T, written []Written, words string) {
	joined := map[int]bool{}
	var first *Written
	for i := range written {
		w := &written[i]
		if len(w.Beams) > 0 && (w.Note == Silence || len(w.Beams) != w.Value.Flags()) {
			t.Fatalf("sign %d has %d beams in %s", i, len(w.Beams), words)
		}
		for level := range max(len(joined), len(w.Beams), 11) {
			comes := level < len(w.Beams) && (w.Beams[level] == BeamContinues || w.Beams[level] == BeamEnds)
			if joined[level] != comes {
				t.Fatalf("the beam at level %d before sign %d has one end in %s", level, i, words)
			}
			joined[level] = level < len(w.Beams) && (w.Beams[level] == BeamBegins || w.Beams[level] == BeamContinues)
		}
		if len(w.Beams) == 0 {
			continue
		}
		if w.Beams[0] == BeamBegins {
			first = w
		}
		if w.Beat != first.Beat && (w.Value.Flags() > 1 || w.Tuplet != nil) {
			t.Fatalf("a beam other than of plain eighths crosses a beat at sign %d in %s", i, words)
		}
		if w.Beams[0] == BeamEnds && w.Tuplet != first.Tuplet &&
			(first.Tuplet != nil && !first.Opens() || w.Tuplet != nil && !w.Closes()) {
			t.Fatalf("a beam tears a tuplet at sign %d in %s", i, words)
		}
	}
	for level, open := range joined {
		if open {
			t.Fatalf("the beam at level %d goes on over the bar line in %s", level, words)
		}
	}
}

// lastsAsDrawn reports whether a sign's value is its length: a whole note
// halved, a half more for a dot, times normal over actual.
func lastsAsDrawn(w *Written) bool {
	actual, normal := 1, 1
	if w.Tuplet != nil {
		actual, normal = w.Tuplet.Actual, w.Tuplet.Normal
	}
	drawn := int(4*Quarter) * (2 + w.Value.Dots) * normal
	return w.Value.Halvings >= 0 && drawn == int(w.End-w.Start)*actual*2<<w.Value.Halvings
}

func TestBarsAreCountedFromTheFirstWholeOne(t *testing.T) {
	for _, row := range []struct {
		meter       string
		first, last Beat
		want        string
	}{
		{"4/4", 0, 0, "1: 0-3840"},
		{"4/4", 0, 3841, "1: 0-3840, 2: 3840-7680"},
		{"4/4", -480, 960, "0: -480-0, 1: 0-3840"},
		{"4/4", -320, 960, "0: -960-0, 1: 0-3840"}, // a whole tuplet
		{"3/4", -4800, 0, "-1: -4800--2880, 0: -2880-0, 1: 0-2880"},
		{"6/8", -160, 0, "0: -1440-0, 1: 0-2880"},
	} {
		m, err := ParseMeter(row.meter)
		if err != nil {
			t.Fatal(err)
		}
		var words []string
		for _, b := range Bars(m, row.first, row.last) {
			words = append(words, fmt.Sprintf("%d: %d-%d", b.Number, b.Start, b.End))
		}
		if got := strings.Join(words, ", "); got != row.want {
			t.Errorf("%s from %d to %d: %s, want %s", row.meter, row.first, row.last, got, row.want)
		}
	}
}
