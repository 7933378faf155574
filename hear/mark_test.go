package hear

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"heddle/exercise"
	"heddle/hear/internal/listen"
	"heddle/line"
	"heddle/neck"
	"heddle/pitch"
	"pgregory.net/rapid"
)

// markedLine is a falling line of so many eighths in threes and a flawless
// take of it at 120, from half a second on.
func markedLine(n int) (*exercise.Exercise, []Heard) {
	ex := &exercise.Exercise{Tempo: 120, Rhythm: line.Rhythm{Value: line.Eighth, Meter: line.CommonTime}}
	var heard []Heard
	for i := range n {
		key := 77 - i%3*2 - i/3%9
		note := exercise.Note{Index: i, Note: line.Note{Pitch: spelled(key), Group: i / 3, Start: line.Beat(480 * i), Duration: 480}}
		note.Spot = neck.Spot{String: 1 + i/3%3, Fret: 5}
		ex.Notes = append(ex.Notes, note)
		on := 0.5 + 0.25*float64(i)
		heard = append(heard, Heard{OnsetS: on, OffsetS: on + 0.2, MIDI: float64(key), Confidence: 0.99, Level: -20})
	}
	return ex, heard
}

// verdicts writes a report as one letter a note: r, w or m.
func verdicts(r *Report) string {
	var s strings.Builder
	for _, m := range r.Marks {
		s.WriteByte(string(m.Verdict)[0])
	}
	return s.String()
}

// A sound a beat before the line is not part of the take; one an eighth before it is
// extra.
func TestWhatComesBeforeTheLineIsNotExtra(t *testing.T) {
	ex, flawless := markedLine(12)
	for _, c := range []struct {
		beforeS float64
		extra   int
	}{{1.5, 0}, {0.5, 0}, {0.25, 1}} {
		on := flawless[0].OnsetS - c.beforeS
		heard := append([]Heard{{OnsetS: on, OffsetS: on + 0.1, MIDI: 83.2, Confidence: 0.97, Level: -20}}, flawless...)
		r := Mark(heard, 0, ex, TakeOptions{})
		if len(r.Extra) != c.extra || len(r.Before) != 1-c.extra || r.Summary.Right != 12 || len(r.Heard) != 13 {
			t.Errorf("%.2f s before: %d extra, %d right of %d heard, want %d extra", c.beforeS, len(r.Extra), r.Summary.Right, len(r.Heard), c.extra)
		}
	}
}

// shifted moves notes in time.
func shifted(heard []Heard, byS float64) []Heard {
	heard = slices.Clone(heard)
	for i := range heard {
		heard[i].OnsetS += byS
		heard[i].OffsetS += byS
	}
	return heard
}

func TestTakesAreMarked(t *testing.T) {
	ex, flawless := markedLine(12)
	with := func(change func(h []Heard) []Heard) []Heard { return change(slices.Clone(flawless)) }
	for _, c := range []struct {
		name  string
		heard []Heard
		want  string
		extra int
	}{
		{"flawless", flawless, "rrrrrrrrrrrr", 0},
		{"nothing", nil, "mmmmmmmmmmmm", 0},
		{"a fret too high", with(func(h []Heard) []Heard { h[4].MIDI++; return h }), "rrrrwrrrrrrr", 0},
		{"an octave too low", with(func(h []Heard) []Heard { h[7].MIDI -= 12; return h }), "rrrrrrrwrrrr", 0},
		{"one missed", with(func(h []Heard) []Heard { return slices.Delete(h, 5, 6) }), "rrrrrmrrrrrr", 0},
		{"first missed", with(func(h []Heard) []Heard { return h[1:] }), "mrrrrrrrrrrr", 0},
		{"three missed", with(func(h []Heard) []Heard { return slices.Delete(h, 5, 8) }), "rrrrrmmmrrrr", 0},
		{"one extra", with(func(h []Heard) []Heard {
			return slices.Insert(h, 6, Heard{OnsetS: 1.87, MIDI: 60, Confidence: 0.9, Level: -22})
		}), "rrrrrrrrrrrr", 1},
		{"a ghost note", with(func(h []Heard) []Heard {
			return slices.Insert(h, 6, Heard{OnsetS: 1.87, MIDI: 60, Confidence: 0.9, Level: -40})
		}), "rrrrrrrrrrrr", 0},
		{"a doubt that is none", with(func(h []Heard) []Heard {
			return slices.Insert(h, 6, Heard{OnsetS: 1.87, MIDI: 60, Confidence: 0.2, Level: -22})
		}), "rrrrrrrrrrrr", 0},
		{"a doubtful right note", with(func(h []Heard) []Heard { h[3].Confidence = 0.2; return h }), "rrrrrrrrrrrr", 0},
		{"a doubtful wrong note", with(func(h []Heard) []Heard { h[3].Confidence = 0.2; h[3].MIDI -= 3; return h }), "rrrmrrrrrrrr", 0},
		{"a pitch that may as well be the written one", with(func(h []Heard) []Heard {
			h[3].evidence.Rivals = []listen.Rival{{MIDI: h[3].MIDI, LogOdds: 0.4}}
			h[3].MIDI, h[3].Confidence = h[3].MIDI-5, listen.Probability(0.9)
			return h
		}), "rrrrrrrrrrrr", 0},
		{"a pitch that is hardly the written one", with(func(h []Heard) []Heard {
			h[3].evidence.Rivals = []listen.Rival{{MIDI: h[3].MIDI, LogOdds: 0.4}}
			h[3].MIDI, h[3].Confidence = h[3].MIDI-5, listen.Probability(4)
			return h
		}), "rrrwrrrrrrrr", 0},
		{"a repeated note", with(func(h []Heard) []Heard {
			again := h[5]
			again.OnsetS += 0.125
			return slices.Insert(h, 6, again)
		}), "rrrrrrrrrrrr", 1},
		{"a wide vibrato", with(func(h []Heard) []Heard {
			bent := h[5]
			bent.OnsetS, bent.MIDI, bent.evidence.Slid = bent.OnsetS+0.125, bent.MIDI+0.6, true
			return slices.Insert(h, 6, bent)
		}), "rrrrrrrrrrrr", 0},
		{"a hammer-on that is not written", with(func(h []Heard) []Heard {
			hammered := h[5]
			hammered.OnsetS, hammered.MIDI, hammered.evidence.Slid = hammered.OnsetS+0.125, hammered.MIDI+1, true
			return slices.Insert(h, 6, hammered)
		}), "rrrrrrrrrrrr", 1},
		{"very late", with(func(h []Heard) []Heard { h[6].OnsetS += 0.1; return h }), "rrrrrrrrrrrr", 0},
		{"stops midway", flawless[:7], "rrrrrrrmmmmm", 0},
		{"restarts from the top", append(flawless[:5:5], shifted(flawless, 2.5)...), "rrrrrrrrrrrr", 0},
		{"goes back a group to correct a note", with(func(h []Heard) []Heard {
			first := slices.Clone(h[:6])
			first[5].MIDI += 2
			return append(first, shifted(h[3:], 1.5)...)
		}), "rrrrrrrrrrrr", 0},
		{"goes back and begins with another slip", with(func(h []Heard) []Heard {
			again := shifted(h[2:], 2)
			again[0].MIDI += 12
			return append(slices.Clone(h[:6]), again...)
		}), "rrwrrrrrrrrr", 0},
		{"goes back after a stray note", with(func(h []Heard) []Heard {
			stray := Heard{OnsetS: 2.4, MIDI: 60, Confidence: 0.9, Level: -22}
			return append(append(slices.Clone(h[:6]), stray), shifted(h[3:], 2)...)
		}), "rrrrrrrrrrrr", 1},
		{"sharp by 40 cents in one note", with(func(h []Heard) []Heard { h[2].MIDI += 0.4; return h }), "rrrrrrrrrrrr", 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := Mark(c.heard, 0, ex, TakeOptions{})
			if got := verdicts(r); got != c.want {
				t.Errorf("marked %s, want %s", got, c.want)
			}
			if len(r.Extra) != c.extra {
				t.Errorf("extra %v, want %d", r.Extra, c.extra)
			}
		})
	}
}

func TestTempoAndStartAreFound(t *testing.T) {
	ex, flawless := markedLine(24)
	for _, factor := range []float64{0.5, 0.8, 1, 1.3, 2} {
		t.Run(fmt.Sprintf("played at %.0f", 120/factor), func(t *testing.T) {
			heard := slices.Clone(flawless)
			for i := range heard {
				heard[i].OnsetS = 0.7 + (heard[i].OnsetS-0.5)*factor
			}
			r := Mark(heard, 0, ex, TakeOptions{})
			if math.Abs(r.Tempo-120/factor) > 0.2 || math.Abs(r.OffsetS-0.7) > 0.002 || r.Summary.Right != 24 {
				t.Errorf("tempo %.1f from %.3f s, %d right", r.Tempo, r.OffsetS, r.Summary.Right)
			}
		})
	}
}

// A player who stops to think, and goes on where the line was left, keeps the
// tempo and the timing of what was played.
func TestAHaltIsNotBadTiming(t *testing.T) {
	ex, heard := markedLine(24)
	heard = append(heard[:10:10], shifted(heard[10:], 4)...)
	r := Mark(heard, 0, ex, TakeOptions{})
	if r.Summary.Right != 24 || math.Abs(r.Tempo-120) > 0.2 || math.Abs(r.OffsetS-0.5) > 0.002 || r.Summary.TimingMSSpread > 1 {
		t.Errorf("tempo %.1f from %.3f s, %+v", r.Tempo, r.OffsetS, r.Summary)
	}
}

func TestTimingIsAgainstTheClickWhenThereIsOne(t *testing.T) {
	ex, flawless := markedLine(12)
	r := Mark(shifted(flawless, 0.03), 0, ex, TakeOptions{Clicked: true, ClickS: 0.5})
	if r.Summary.TimingMSMedian != 30 || r.Tempo != 120 || r.OffsetS != 0.5 {
		t.Errorf("median %v ms at %v from %v s", r.Summary.TimingMSMedian, r.Tempo, r.OffsetS)
	}
	r = Mark(shifted(flawless, 0.03), 0, ex, TakeOptions{})
	if r.Summary.TimingMSMedian != 0 || r.OffsetS != 0.53 {
		t.Errorf("without a click: median %v ms from %v s", r.Summary.TimingMSMedian, r.OffsetS)
	}
}

func TestEarlyAndLateAreTheSignOfTiming(t *testing.T) {
	ex, heard := markedLine(24)
	heard[7].OnsetS -= 0.04
	heard[15].OnsetS += 0.03
	r := Mark(heard, 0, ex, TakeOptions{})
	for i, want := range map[int]float64{7: -40, 15: 30, 3: 0, 20: 0} {
		if got := r.Marks[i].TimingMS; math.Abs(got-want) > 3 {
			t.Errorf("note %d is %+.0f ms, want %+.0f", i, got, want)
		}
	}
}

func TestDetunedGuitarIsMarkedOnItsOwnTuning(t *testing.T) {
	ex, heard := markedLine(12)
	for i := range heard {
		heard[i].MIDI -= 0.38
	}
	heard[4].MIDI += 0.1
	heard[5].MIDI--
	r := Mark(heard, -38, ex, TakeOptions{})
	if got := verdicts(r); got != "rrrrrwrrrrrr" {
		t.Errorf("marked %s", got)
	}
	if r.Marks[4].Cents != 10 || r.Marks[3].Cents != 0 || r.TuningCents != -38 {
		t.Errorf("cents %v and %v, tuning %v", r.Marks[4].Cents, r.Marks[3].Cents, r.TuningCents)
	}
}

func TestAdviceNamesWhatToWorkOn(t *testing.T) {
	ex, flawless := markedLine(24)
	with := func(change func(h []Heard) []Heard) []Heard { return change(slices.Clone(flawless)) }
	for _, c := range []struct {
		name   string
		heard  []Heard
		tuning float64
		opts   TakeOptions
		want   string
	}{
		{"flawless", flawless, 0, TakeOptions{}, "Every note is right, most of them within 1 ms of the beat."},
		{"nothing", nil, 0, TakeOptions{}, "No note of the line was heard."},
		{"missed", with(func(h []Heard) []Heard { return slices.Delete(h, 4, 5) }), 0, TakeOptions{}, "The D5 on string 2 is missed (note 5)."},
		{"wrong", with(func(h []Heard) []Heard { h[6].MIDI++; return h }), 0, TakeOptions{}, "Note 7 is the Eb5 on string 3: you played it a fret too high."},
		{"octave", with(func(h []Heard) []Heard { h[6].MIDI -= 12; return h }), 0, TakeOptions{}, "it sounded an octave too low"},
		{"rushed", with(func(h []Heard) []Heard {
			for i := 3; i < 6; i++ {
				h[i].OnsetS -= 0.045
			}
			return h
		}), 0, TakeOptions{}, "You rush the second group."},
		{"stopped", flawless[:10], 0, TakeOptions{}, "You stopped after note 10"},
		{"behind the click", shifted(flawless, 0.04), 0, TakeOptions{Clicked: true, ClickS: 0.5}, "You play 40 ms behind the click."},
		{"out of tune", flawless, -12, TakeOptions{}, "Your guitar is 12 cents flat."},
		{"faster and faster", with(func(h []Heard) []Heard {
			for i := range h {
				h[i].OnsetS = 0.5 + 0.25*float64(i) - 0.001*float64(i*i)
			}
			return h
		}), 0, TakeOptions{}, "You speed up"},
		{"lazy third note", with(func(h []Heard) []Heard {
			for i := 2; i < 24; i += 3 {
				h[i].OnsetS += 0.03
			}
			return h
		}), 0, TakeOptions{}, "The third note of a group comes late"},
	} {
		t.Run(c.name, func(t *testing.T) {
			advice := strings.Join(Mark(c.heard, c.tuning, ex, c.opts).Advice, " ")
			if !strings.Contains(plainAccidentals(advice), c.want) {
				t.Errorf("says %q, want %q", advice, c.want)
			}
		})
	}
}

func spelled(key int) pitch.Pitch {
	names := []string{"C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B"}
	p, err := pitch.Parse(names[key%12] + string(rune('0'+key/12-1)))
	if err != nil {
		panic(err)
	}
	return p
}

func plainAccidentals(s string) string { return strings.NewReplacer("♭", "b", "♯", "#").Replace(s) }

// The shape of the report is the one the program promises.
func TestReportHasThePromisedShape(t *testing.T) {
	ex, heard := markedLine(3)
	heard[1].MIDI = 60
	heard[1].OnsetS += 0.004
	b, err := json.Marshal(Mark(heard[:2], 0, ex, TakeOptions{Clicked: true, ClickS: 0.5}))
	if err != nil {
		t.Fatal(err)
	}
	want := `{"tempo":120,"offset_s":0.5,"tuning_cents":0,` +
		`"heard":[{"onset_s":0.5,"offset_s":0.7,"midi":77,"confidence":0.99,"level":-20},{"onset_s":0.754,"offset_s":0.95,"midi":60,"confidence":0.99,"level":-20}],` +
		`"marks":[{"index":0,"verdict":"right","heard":0,"timing_ms":0,"cents":0},{"index":1,"verdict":"wrong","heard":1,"timing_ms":4,"cents":-1500},{"index":2,"verdict":"missed"}],` +
		`"extra":[],"retried":[],"before":[],"summary":{"right":1,"wrong":1,"missed":1,"extra":0,"timing_ms_median":2,"timing_ms_spread":1.4},` +
		`"marked_to_click":true,"behind_ms":2,"advice":["The D♭5 on string 1 is missed (note 3).","Note 2 is the E♭5 on string 1: you played it 15 semitones too low."]}`
	if string(b) != want {
		t.Errorf("got  %s\nwant %s", b, want)
	}
}

// Whatever is heard, every written note has one verdict, no heard note
// is matched twice, and the counts agree.
func TestMarkingIsConsistent(t *testing.T) {
	ex, _ := markedLine(15)
	rapid.Check(t, func(rt *rapid.T) {
		var heard []Heard
		at := 0.0
		for range rapid.IntRange(0, 40).Draw(rt, "notes") {
			at += rapid.Float64Range(0, 1.5).Draw(rt, "gap")
			heard = append(heard, Heard{
				OnsetS: at, MIDI: rapid.Float64Range(28, 88).Draw(rt, "midi"),
				Confidence: rapid.Float64Range(0, 1).Draw(rt, "confidence"), Level: rapid.Float64Range(-90, 0).Draw(rt, "level"),
			})
		}
		r := Mark(heard, 0, ex, TakeOptions{})
		used := map[int]bool{}
		for i, m := range r.Marks {
			if m.Index != i || (m.Verdict == Missed) != (m.Heard < 0) {
				rt.Fatalf("mark %d is %+v", i, m)
			}
			if m.Heard >= 0 && used[m.Heard] {
				rt.Fatalf("heard note %d is matched twice", m.Heard)
			}
			used[m.Heard] = true
		}
		if s := r.Summary; s.Right+s.Wrong+s.Missed != len(ex.Notes) || s.Extra != len(r.Extra) {
			rt.Fatalf("counts %+v", s)
		}
		if math.IsNaN(r.Tempo) || math.IsInf(r.Tempo, 0) || r.Tempo <= 0 {
			rt.Fatalf("tempo %v", r.Tempo)
		}
		if _, err := json.Marshal(r); err != nil {
			rt.Fatal(err)
		}
	})
}

// In a slow line, a note that comes two beats late is not the one that was
// missed there, though it has its pitch.
func TestANoteBeatsAwayIsNotTheWrittenOne(t *testing.T) {
	ex, flawless := markedLine(12)
	for i := range ex.Notes {
		ex.Notes[i].Start *= 8 // whole notes, 2 s each
		flawless[i].OnsetS = 0.5 + 2*float64(i)
	}
	const missing = 5
	flawless[missing].OnsetS++
	for name, opts := range map[string]TakeOptions{"to a click": {Clicked: true, ClickS: 0.5}, "without": {}} {
		r := Mark(flawless, 0, ex, opts)
		if want := "rrrrrmrrrrrr"; verdicts(r) != want || r.Summary.Extra != 1 {
			t.Errorf("%s: marked %s with %d extra, want %s with 1", name, verdicts(r), r.Summary.Extra, want)
		}
	}
}
