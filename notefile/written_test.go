package notefile

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"heddle/line"
)

// barOf returns a whole bar of a metre.
func barOf(m line.Meter) bar { return bar{End: m.Bar(), Meter: m} }

// spansFrom lays notes and rests end to end: "480 r240 240".
func spansFrom(text string) []span {
	var spans []span
	at := line.Beat(0)
	for i, word := range strings.Fields(text) {
		note := i
		if strings.HasPrefix(word, "r") {
			note, word = rest, word[1:]
		}
		var length line.Beat
		if _, err := fmt.Sscan(word, &length); err != nil {
			panic(err)
		}
		spans = append(spans, span{at, at + length, note})
		at += length
	}
	return spans
}

// shorthand writes symbols briefly: rests in brackets, dots as dots, tuplets
// as 3:2, ties as ~, one word for each symbol.
func shorthand(symbols []symbol) string {
	var words []string
	for _, s := range symbols {
		word := s.Type + strings.Repeat(".", s.Dots)
		if s.Actual > 0 {
			word += fmt.Sprintf("(%d:%d)", s.Actual, s.Normal)
		}
		if s.Note == rest {
			word = "[" + word + "]"
		}
		if s.TieTo {
			word += "~"
		}
		words = append(words, word)
	}
	return strings.Join(words, " ")
}

func TestBarsAreWrittenAsAPlayerReadsThem(t *testing.T) {
	for _, c := range []struct{ meter, spans, want string }{
		{"4/4", "480 480 480 480 480 480 480 480", "eighth eighth eighth eighth eighth eighth eighth eighth"},
		{"4/4", "960 1920 960", "quarter half quarter"},
		{"4/4", "1440 480 1920", "quarter. eighth half"},
		{"4/4", "480 1440 1920", "eighth eighth~ quarter half"},
		{"4/4", "480 960 960 960 480", "eighth eighth~ eighth eighth~ eighth eighth~ eighth eighth"},
		{"4/4", "3840", "whole"},
		{"4/4", "2880 960", "half. quarter"},
		{"4/4", "960 2880", "quarter quarter~ half"},
		{"4/4", "r3840", "[whole]"},
		{"4/4", "480 r3360", "eighth [eighth] [quarter] [half]"},
		{"4/4", "r1440 480 1920", "[quarter] [eighth] eighth half"},
		{"4/4", "720 240 240 480 240 r1920", "eighth. 16th 16th eighth 16th [half]"},
		{"4/4", "1200 720 1920", "quarter~ 16th eighth. half"},
		{"3/4", "2880", "half."},
		{"3/4", "960 r1920", "quarter [quarter] [quarter]"},
		{"3/4", "320 320 320 r1920", "eighth(3:2) eighth(3:2) eighth(3:2) [quarter] [quarter]"},
		{"3/4", "640 320 1920", "quarter(3:2) eighth(3:2) half"},
		{"2/4", "160 160 160 160 160 160 960", "16th(3:2) 16th(3:2) 16th(3:2) 16th(3:2) 16th(3:2) 16th(3:2) quarter"},
		{"2/4", "192 192 192 192 192 960", "16th(5:4) 16th(5:4) 16th(5:4) 16th(5:4) 16th(5:4) quarter"},
		{"2/4", "r480 320 320 r800", "[eighth] eighth(3:2) 16th(3:2)~ 16th(3:2) [eighth(3:2)] [eighth]"},
		{"6/8", "480 480 480 1440", "eighth eighth eighth quarter."},
		{"6/8", "960 480 480 960", "quarter eighth eighth quarter"},
		{"6/8", "2880", "half."},
		{"6/8", "480 960 r1440", "eighth quarter [quarter.]"},
		{"6/8", "320 320 320 320 320 320 320 320 320", strings.Repeat("eighth(3:2) ", 9)},
		{"12/8", "5760", "whole."},
		{"7/8", "480 480 480 480 480 480 480", "eighth eighth eighth eighth eighth eighth eighth"},
		{"7/8", "960 960 1440", "quarter quarter quarter."},
		{"2/2", "1920 1920", "half half"},
		{"4/4", "528 432 2880", "eighth(20:16)~ 32nd.(20:16) eighth(20:16)~ 64th(20:16) quarter~ half"},
	} {
		m, err := line.ParseMeter(c.meter)
		if err != nil {
			t.Fatal(err)
		}
		got := shorthand(writeBar(barOf(m), spansFrom(c.spans)))
		if got != strings.TrimSpace(c.want) {
			t.Errorf("%s %s:\n got %s\nwant %s", c.meter, c.spans, got, c.want)
		}
	}
}

// values of the trade in 1/960 of a quarter, and lengths that no value has.
var lengths = []int{60, 96, 120, 160, 192, 240, 320, 360, 384, 480, 640, 720, 960, 1440, 1920, 3840, 7, 53, 416}

func TestSymbolsAddUpToWhatTheyStandFor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := line.Meter{Beats: rapid.IntRange(1, 13).Draw(t, "beats"), Unit: rapid.SampledFrom([]int{2, 4, 8, 16}).Draw(t, "unit")}
		b := barOf(m)
		var spans []span
		for at, i := line.Beat(0), 0; at < b.End; i++ {
			note := i
			if rapid.Bool().Draw(t, "rest") {
				note = rest
			}
			end := at + line.Beat(rapid.SampledFrom(lengths).Draw(t, "length"))
			spans = join(spans, []span{{at, end, note}})
			at = end
		}
		symbols := writeBar(b, spans)
		checkSymbols(t, b, spans, symbols)
	})
}

// checkSymbols holds what is true of every bar: the symbols follow one another
// from bar line to bar line, each lasts as long as it is drawn, pieces of one
// note are tied, and tuplets and beams open and close.
func checkSymbols(t *rapid.T, b bar, spans []span, symbols []symbol) {
	at := b.Start
	tuplet, beamed := false, 0
	for i, s := range symbols {
		if s.Start != at {
			t.Fatalf("symbol %d begins at %d, want %d in %s", i, s.Start, at, shorthand(symbols))
		}
		at = s.End
		if !s.WholeBar && !lasts(s) {
			t.Fatalf("symbol %d lasts %d in %s", i, s.End-s.Start, shorthand(symbols))
		}
		for _, whole := range spans {
			if s.Note == whole.Note && s.Note != rest && (s.TieFrom != (s.Start > whole.Start) || s.TieTo != (s.End < whole.End)) {
				t.Fatalf("symbol %d is tied wrongly in %s", i, shorthand(symbols))
			}
		}
		if s.TupletOpens == tuplet && s.Actual > 0 && s.TupletOpens {
			t.Fatalf("a tuplet opens in a tuplet at symbol %d", i)
		}
		tuplet = (tuplet || s.TupletOpens) && !s.TupletCloses
		if (s.Actual > 0) != (tuplet || s.TupletCloses) {
			t.Fatalf("symbol %d is in a tuplet without ends", i)
		}
		if len(s.Beams) > 0 {
			switch s.Beams[0] {
			case "begin":
				beamed++
			case "end":
				beamed--
			}
		}
		if beamed < 0 || beamed > 1 {
			t.Fatalf("beams do not match at symbol %d", i)
		}
	}
	if at != b.End || tuplet || beamed != 0 {
		t.Fatalf("the bar ends at %d, want %d; tuplet open %v, beams open %d", at, b.End, tuplet, beamed)
	}
}

// lasts reports whether a symbol's drawn value is its length: the type, a half
// more for a dot, times normal over actual.
func lasts(s symbol) bool {
	for i, kind := range valueTypes {
		if kind != s.Type {
			continue
		}
		actual, normal := max(1, s.Actual), max(1, s.Normal)
		drawn := int(longestType) * normal * (2 + s.Dots)
		return drawn == int(s.End-s.Start)*actual*2<<i
	}
	return false
}
