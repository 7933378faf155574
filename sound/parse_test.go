package sound

import (
	"heddle/audio"
	"strings"
	"testing"
)

func TestWordsAreReadInAnyCaseAndWithHyphens(t *testing.T) {
	if v, err := ParseVamp(" Funk "); err != nil || v != FunkVamp {
		t.Errorf("Funk reads %q, %v", v, err)
	}
	for _, s := range []string{"2 and 4", "2-and-4", "2  AND 4"} {
		if c, err := ParseClickOn(s); err != nil || c != TwoFour {
			t.Errorf("%q reads %q, %v", s, c, err)
		}
	}
	if p, err := ParsePart("Drums"); err != nil || p != Drums {
		t.Errorf("Drums reads %v, %v", p, err)
	}
	if d, err := audio.ParseDepth("32f"); err != nil || d != audio.Float32 {
		t.Errorf("32f reads %v, %v", d, err)
	}
	if r, err := ParseSampleRate("44100"); err != nil || r != 44100 {
		t.Errorf("44100 reads %v, %v", r, err)
	}
}

func TestASlipOfTheFingerIsAnsweredWithTheWord(t *testing.T) {
	_, err := ParseVamp("swnig")
	if err == nil || !strings.Contains(err.Error(), `did you mean "swing"?`) {
		t.Errorf("swnig says %v", err)
	}
}

func TestLaddersAreRead(t *testing.T) {
	for s, want := range map[string]Ladder{
		"60-96 by 6 every 2":    {60, 96, 6, 2},
		"60–96 BY 6":            {60, 96, 6, 1},
		"120-90 by 7.5 every 4": {120, 90, 7.5, 4},
		"":                      {},
	} {
		if got, err := ParseLadder(s); err != nil || got != want {
			t.Errorf("%q reads %+v, %v", s, got, err)
		}
	}
	for _, s := range []string{"60", "60-", "60-96", "60-96 by", "60-96 in 6", "60-96 by 6 every", "60-96 by 6 each 2", "60-96 by six", "NaN-96 by 6", "60-96 by 6 every 2.5", "0-96 by 6"} {
		if l, err := ParseLadder(s); err == nil {
			t.Errorf("%q reads %+v", s, l)
		}
	}
}

func TestALadderEndsOnItsLastTempo(t *testing.T) {
	l := Ladder{60, 75, 10, 2}
	if l.loops() != 6 || l.at(5, 0) != 75 || l.at(100, 0) != 75 || l.at(3, 0) != 70 {
		t.Errorf("%s has %d loops, the sixth at %g, the fourth at %g", l, l.loops(), l.at(5, 0), l.at(3, 0))
	}
}

func FuzzParseLadder(f *testing.F) {
	for _, s := range []string{"60-96 by 6 every 2", "60-96 by 6", "", "60–96 by 1e309", "1-2 by 3 every -4"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		l, err := ParseLadder(s)
		if err != nil {
			if strings.Count(err.Error(), "\n") > 0 {
				t.Errorf("%q says two lines: %v", s, err)
			}
			return
		}
		again, err := ParseLadder(l.String())
		if err != nil || again != l {
			t.Errorf("%q reads %+v, which is written %q and reads %+v, %v", s, l, l.String(), again, err)
		}
		if l != (Ladder{}) && (l.loops() < 1 || !inTempoRange(l.at(0, 0)) || !inTempoRange(l.at(l.loops(), 0))) {
			t.Errorf("%q has %d loops from %g to %g", s, l.loops(), l.at(0, 0), l.at(l.loops(), 0))
		}
	})
}

func FuzzParseWords(f *testing.F) {
	for _, s := range []string{"funk", "2 and 4", "drums", "24", "48000", "once-a-bar", "\xff"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if v, err := ParseVamp(s); err == nil {
			if again, err := ParseVamp(string(v)); err != nil || again != v {
				t.Errorf("vamp %q reads %q, then %q, %v", s, v, again, err)
			}
		}
		if c, err := ParseClickOn(s); err == nil {
			if again, err := ParseClickOn(string(c)); err != nil || again != c {
				t.Errorf("click %q reads %q, then %q, %v", s, c, again, err)
			}
		}
		if p, err := ParsePart(s); err == nil {
			if again, err := ParsePart(p.String()); err != nil || again != p {
				t.Errorf("part %q reads %v, then %v, %v", s, p, again, err)
			}
		}
		if r, err := ParseSampleRate(s); err == nil && r < 22050 {
			t.Errorf("sample rate %q reads %d", s, r)
		}
		if d, err := audio.ParseDepth(s); err == nil && d != audio.Bits16 && d != audio.Bits24 && d != audio.Float32 {
			t.Errorf("depth %q reads %d", s, d)
		}
	})
}
