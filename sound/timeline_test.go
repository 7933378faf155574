package sound

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"heddle/audio/audiotest"
	"heddle/exercise"
)

func plan(t testing.TB, ex *exercise.Exercise, o Options) Timeline {
	t.Helper()
	line, err := Plan(ex, o)
	must(t, err)
	return line
}

// At 84 quarter notes a minute and 48 kHz an eighth is 17142.857… samples.
func TestNotesStandWhereTheyAreWritten(t *testing.T) {
	ex := gMinorVamp(t)
	line := plan(t, ex, DefaultOptions())
	if line.CountInEnd != 137143 || line.LoopStart != 137143 {
		t.Errorf("the line begins at %d, want four beats of 34285.7 samples", line.CountInEnd)
	}
	if len(line.Notes) != len(ex.Notes) {
		t.Fatalf("%d notes are marked of %d", len(line.Notes), len(ex.Notes))
	}
	for i, n := range line.Notes {
		want := 48000 * 60 / 84.0 * (4 + ex.Notes[i].Start.Quarters())
		if n.Index != i || math.Abs(float64(n.Start)-want) > 0.5 {
			t.Errorf("note %d starts at %d, want %.1f", i, n.Start, want)
		}
		if n.End <= n.Start || n.End > line.Samples {
			t.Errorf("note %d ends at %d after %d of %d", i, n.End, n.Start, line.Samples)
		}
	}
}

func TestSwungEighthsComeLate(t *testing.T) {
	ex := bluesInA(t)
	line := plan(t, ex, DefaultOptions())
	beat := 48000 * 60 / 120.0
	for i, n := range line.Notes {
		at := (float64(n.Start) - float64(line.LoopStart)) / beat
		written := ex.Notes[i].Start.Quarters()
		want := written
		if written != math.Floor(written) {
			want = math.Floor(written) + 2.0/3
		}
		if math.Abs(at-want) > 1e-4 {
			t.Errorf("the note written at beat %.2f sounds at %.4f, want %.4f", written, at, want)
		}
	}
}

func TestPracticeShapes(t *testing.T) {
	ex := gMinorVamp(t)
	for _, c := range []struct {
		name  string
		set   func(*Options)
		kinds string
		tempi []float64
	}{
		{"once", func(*Options) {}, "line", []float64{84}},
		{"three times", func(o *Options) { o.Loops = 3 }, "line line line", []float64{84}},
		{"call and response", func(o *Options) { o.Loops, o.CallAndResponse = 2, true }, "line response line response", []float64{84}},
		{"every other silent", func(o *Options) { o.Loops, o.SilentEveryOther = 4, true }, "line silent line silent", []float64{84}},
		{"another tempo", func(o *Options) { o.Tempo = 60 }, "line", []float64{60}},
		{"a ladder", func(o *Options) { o.Ladder = Ladder{60, 75, 10, 2} }, "line line line line line line", []float64{60, 70, 75}},
		{"down a ladder", func(o *Options) { o.Ladder = Ladder{100, 80, 10, 1} }, "line line line", []float64{100, 90, 80}},
		{"all at once", func(o *Options) {
			o.Ladder, o.Loops, o.CallAndResponse, o.SilentEveryOther = Ladder{60, 80, 20, 1}, 3, true, true
		}, "line response silent silent line response", []float64{60, 80}},
	} {
		o := DefaultOptions()
		c.set(&o)
		line := plan(t, ex, o)
		var kinds []string
		for i, p := range line.Passes {
			kinds = append(kinds, p.Kind)
			if i > 0 && p.Start != line.Passes[i-1].End {
				t.Errorf("%s: pass %d starts at %d, the one before ends at %d", c.name, i, p.Start, line.Passes[i-1].End)
			}
		}
		if got := strings.Join(kinds, " "); got != c.kinds {
			t.Errorf("%s: passes are %q, want %q", c.name, got, c.kinds)
		}
		if len(line.Tempi) != len(c.tempi) {
			t.Errorf("%s: tempi are %v, want %v", c.name, line.Tempi, c.tempi)
			continue
		}
		for i, m := range line.Tempi {
			if m.Tempo != c.tempi[i] {
				t.Errorf("%s: tempi are %v, want %v", c.name, line.Tempi, c.tempi)
			}
		}
		for i, p := range line.Passes {
			tempo := 0.0
			for _, m := range line.Tempi {
				if m.Sample <= p.Start {
					tempo = m.Tempo
				}
			}
			want := ex.Length.Quarters() * 60 / tempo * 48000
			if got := float64(p.End - p.Start); math.Abs(got-want) > 1 {
				t.Errorf("%s: pass %d lasts %g samples, want %g", c.name, i, got, want)
			}
		}
	}
}

func TestTheLineIsHeardInItsPassesAndTheVampFallsSilentWhereAsked(t *testing.T) {
	ex := gMinorVamp(t)
	o := DefaultOptions()
	o.Loops, o.CallAndResponse, o.SilentEveryOther, o.SampleRate = 2, true, true, 24000
	heard := func(p Part) []float64 {
		b := &audiotest.Buffer{}
		line, err := RenderPart(t.Context(), ex, o, p, b)
		must(t, err)
		var levels []float64
		for _, ps := range line.Passes {
			// from a second in, so that what rings over from the pass before is gone
			stretch := b.Samples[2*(ps.Start+24000) : 2*(ps.End-2400)]
			levels = append(levels, float64(highest(stretch)))
		}
		return levels
	}
	for _, c := range []struct {
		part  Part
		heard [4]bool // line, response, and both silent
	}{
		{Line, [4]bool{true, false, false, false}},
		{Drums, [4]bool{true, true, false, false}},
		{Bass, [4]bool{true, true, false, false}},
		{Chords, [4]bool{true, true, false, false}},
		{Click, [4]bool{false, false, true, true}},
	} {
		for i, level := range heard(c.part) {
			if (level > 0.01) != c.heard[i] {
				t.Errorf("%s in pass %d is at %g, heard should be %v", c.part, i, level, c.heard[i])
			}
		}
	}
}

// Each click's first sample is found in the audio where the timeline says.
func TestClicksSoundToTheSample(t *testing.T) {
	for _, demo := range demos(t) {
		o := DefaultOptions()
		o.ClickOn, o.Loops = EveryBeat, 2
		b := &audiotest.Buffer{}
		line, err := RenderPart(t.Context(), demo.ex, o, Click, b)
		must(t, err)
		left := b.Left()
		var onsets []int64
		quiet := 0
		for i, x := range left {
			if math.Abs(float64(x)) < 1e-6 {
				quiet++
				continue
			}
			if quiet > 2000 || len(onsets) == 0 {
				onsets = append(onsets, int64(i))
			}
			quiet = 0
		}
		if len(onsets) != len(line.Clicks) || len(onsets) == 0 {
			t.Fatalf("%s: %d clicks are heard, %d on the timeline", demo.name, len(onsets), len(line.Clicks))
		}
		for i, at := range onsets {
			if off := at - line.Clicks[i]; off < 0 || off > 1 {
				t.Errorf("%s: click %d is heard at %d, on the timeline at %d", demo.name, i, at, line.Clicks[i])
			}
		}
	}
}

func TestClicksFallOnTheBeatsAsked(t *testing.T) {
	ex := gMinorVamp(t)
	for _, c := range []struct {
		on   ClickOn
		vamp Vamp
		want int // after four of count-in, in five bars of four
	}{
		{"", FunkVamp, 0}, {"", DroneVamp, 20}, {EveryBeat, FunkVamp, 20}, {TwoFour, SwingVamp, 10}, {OnceABar, FunkVamp, 5},
	} {
		o := DefaultOptions()
		o.ClickOn, o.Vamp = c.on, c.vamp
		if got := len(plan(t, ex, o).Clicks) - 4; got != c.want {
			t.Errorf("%q over %s gives %d clicks, want %d", c.on, c.vamp, got, c.want)
		}
	}
}

func TestAPickupSoundsBeforeTheFirstBarLine(t *testing.T) {
	ex := build(t, exercise.Spec{Home: "A minor pentatonic", Fret: 5, Bars: 2, Pickup: 0.5, Tempo: 120})
	o := DefaultOptions()
	line := plan(t, ex, o)
	if got := line.CountInEnd - line.Notes[0].Start; got != 12000 {
		t.Errorf("the pickup sounds %d samples before the bar line, want half a beat: 12000", got)
	}
	o.CountIn = 0
	if line := plan(t, ex, o); line.Notes[0].Start != 0 {
		t.Errorf("without count-in the pickup sounds at %d, want 0", line.Notes[0].Start)
	}
	o.Seamless = true
	line = plan(t, ex, o)
	last := line.Notes[len(line.Notes)-1]
	if last.Index != 0 || last.Start != line.Samples-12000 {
		t.Errorf("in a loop of %d the pickup is note %d at %d, want note 0 at its end", line.Samples, last.Index, last.Start)
	}
}

func TestNamesAreSpokenOnTheirBeatsAsFarAsTheyFit(t *testing.T) {
	ex := build(t, exercise.Spec{Home: "A minor pentatonic", Fret: 5, Bars: 2, Tempo: 60, Groups: []int{4}})
	o := DefaultOptions()
	o.Voice = true
	each := plan(t, ex, o)
	if len(each.Names) != len(ex.Notes) {
		t.Errorf("at 60 %d names are spoken of %d", len(each.Names), len(ex.Notes))
	}
	for i, n := range each.Names {
		if n.Text != ex.Naming.Spoken(ex.Notes[n.Index].Pitch.Name) {
			t.Errorf("note %d is named %q", n.Index, n.Text)
		}
		if note := each.Notes[i].Start; n.Start > note || n.End < note {
			t.Errorf("name %d is spoken from %d to %d, its note sounds at %d", i, n.Start, n.End, note)
		}
	}
	o.Tempo = 300
	fast := plan(t, ex, o)
	if len(fast.Names) == 0 || len(fast.Names) > (len(ex.Notes)+3)/4 {
		t.Errorf("at 300 %d names are spoken of %d notes in fours", len(fast.Names), len(ex.Notes))
	}
	for i, n := range fast.Names {
		if ex.Notes[n.Index].Step != 1 {
			t.Errorf("at 300 the name of step %d is spoken", ex.Notes[n.Index].Step)
		}
		if i > 0 && n.Start < fast.Names[i-1].End-int64(crowdS*48000) {
			t.Errorf("name %d begins at %d, the one before ends at %d", i, n.Start, fast.Names[i-1].End)
		}
	}
}

func TestTheTimelineIsJSON(t *testing.T) {
	text, err := json.Marshal(plan(t, gMinorVamp(t), DefaultOptions()))
	must(t, err)
	for _, field := range []string{`"sample_rate":48000`, `"loop_start":137143`, `"notes":[{"index":0,"pass":0,"start":137143,`, `"tempi":[{"sample":0,"tempo":84}]`} {
		if !strings.Contains(string(text), field) {
			t.Errorf("the timeline lacks %s", field)
		}
	}
}
