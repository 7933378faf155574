package sound

import (
	"math"
	"slices"
	"testing"

	"heddle/exercise"
	"heddle/line"
	"heddle/sound/drumkit"
	"heddle/sound/dsp"
	"heddle/sound/pluck"
)

// bandFor returns the band of an exercise over a vamp.
func bandFor(t testing.TB, ex *exercise.Exercise, vamp Vamp, loops int) *band {
	t.Helper()
	o := DefaultOptions()
	o.Vamp, o.Loops = vamp, loops
	b, err := newBand(ex, o)
	must(t, err)
	return b
}

// fourChords goes round four chords, twice as fast in the second bar of each
// pair, so that voices have somewhere to go.
func fourChords(t testing.TB) *exercise.Exercise {
	return build(t, exercise.Spec{Changes: "Dm7 | G7 | Cmaj7 | A7 | Dm7 | G7 | Em7b5 | A7b9", Home: "D dorian", Tempo: 120, Bars: 8, Direction: "down-up"})
}

func TestTheBandFollowsChordsInsideABar(t *testing.T) {
	ex := build(t, exercise.Spec{Changes: "A7 F#7 | Bm7 / / E7", Home: "A mixolydian", Bars: 2, Direction: "up-down"})
	b := bandFor(t, ex, SwingVamp, 1)
	want := []struct {
		at     line.Beat
		symbol string
		root   int
	}{{0, "A7", 9}, {2 * line.Quarter, "F#7", 6}, {4 * line.Quarter, "Bm7", 11}, {7 * line.Quarter, "E7", 4}}
	if len(b.comp.spans) != len(want) {
		t.Fatalf("%d chords, want %d", len(b.comp.spans), len(want))
	}
	d := dsp.Dice(1)
	steps := b.walk(&d)
	for i, w := range want {
		if h := b.comp.spans[i]; h.start != w.at || h.chord.Symbol != w.symbol {
			t.Errorf("chord %d is %s at %v, want %s at %v", i, h.chord.Symbol, h.start, w.symbol, w.at)
		}
		at := slices.IndexFunc(steps, func(s bassStep) bool { return s.at == w.at })
		if at < 0 || steps[at].key%12 != w.root {
			t.Errorf("the bass does not play the root of %s at %v", w.symbol, w.at)
		}
	}
}

// The comping hand's voices move by small steps (common practice of voice
// leading), stay in their range, and hold the chord's third and seventh.
func TestVoicesMoveByStepAndHoldTheChord(t *testing.T) {
	b := bandFor(t, fourChords(t), SwingVamp, 1)
	d := dsp.Dice(1)
	led := b.comp.lead(&d)
	if len(led) != len(b.comp.spans) || len(led) < 8 {
		t.Fatalf("%d voicings for %d chords", len(led), len(b.comp.spans))
	}
	moved, voices := 0, 0
	for i, v := range led {
		if v[0] < compLowest-3 || v[len(v)-1] > compHighest {
			t.Errorf("bar %d: %v is out of range", i+1, v)
		}
		chord := b.comp.spans[i].chord
		for _, deg := range chord.Degrees {
			class := deg.Above(chord.Root).Class()
			if (deg.Number == 3 || deg.Number == 7) && !slices.ContainsFunc(v, func(k int) bool { return k%12 == class }) {
				t.Errorf("bar %d: %v lacks the %s of %s", i+1, v, deg, chord.Symbol)
			}
		}
		if i == 0 {
			continue
		}
		before := led[i-1]
		for k := range min(len(v), len(before)) {
			step := v[k] - before[k]
			moved += max(step, -step)
			voices++
		}
	}
	if mean := float64(moved) / float64(voices); mean > 3 {
		t.Errorf("voices move by %.1f semitones on average, want at most 3", mean)
	}
}

// Viterbi's way is the best of all ways (tried out one by one where there are
// few chords) when chance has no say.
func TestTheVoicingsAreTheBestOfAll(t *testing.T) {
	b := bandFor(t, build(t, exercise.Spec{Changes: "Dm7 | G7 | Cmaj7", Home: "D dorian"}), SwingVamp, 1)
	c := &comping{spans: b.comp.spans[:3], voicing: b.comp.voicing[:3]}
	for seed := range dsp.Dice(10) {
		rolls := seed
		cost := make([][]float64, 3)
		for i, ways := range c.voicing {
			for _, v := range ways {
				cost[i] = append(cost[i], standing(v)+chancePlay*rolls.Unit())
			}
		}
		best := math.Inf(1)
		for i, u := range c.voicing[0] {
			for j, v := range c.voicing[1] {
				for k, w := range c.voicing[2] {
					best = min(best, cost[0][i]+cost[1][j]+cost[2][k]+movement(u, v)+movement(v, w))
				}
			}
		}
		d := seed
		led := c.lead(&d)
		got := movement(led[0], led[1]) + movement(led[1], led[2])
		for i, v := range led {
			at := slices.IndexFunc(c.voicing[i], func(w []int) bool { return slices.Equal(v, w) })
			got += cost[i][at]
		}
		if math.Abs(got-best) > 1e-9 {
			t.Errorf("seed %d: the voicings cost %.3f, the best %.3f", seed, got, best)
		}
	}
}

func TestBassLinesMoveAndBeginEachChordOnItsBassNote(t *testing.T) {
	for vamp := range grooves {
		for _, ex := range []*exercise.Exercise{gMinorVamp(t), fourChords(t)} {
			b := bandFor(t, ex, vamp, 1)
			notes := b.bassNotes(b.form.passes[0])
			keys := map[int]bool{}
			for _, n := range notes {
				key := int(n.Key())
				keys[key] = true
				if key < bassLowest || key > bassHighest || n.Fret < 0 {
					t.Errorf("%s: the bass plays key %d on fret %g", vamp, key, n.Fret)
				}
				if n.Off <= n.At {
					t.Errorf("%s: a bass note at %d ends at %d", vamp, n.At, n.Off)
				}
			}
			if len(keys) < 3 {
				t.Errorf("%s: the bass plays only %d notes", vamp, len(keys))
			}
			for _, h := range b.comp.spans {
				at := b.form.at(b.form.passes[0], h.start)
				i := slices.IndexFunc(notes, func(n pluck.Note) bool { return math.Abs(float64(n.At)-at) < 0.012*48000 })
				if i < 0 || int(notes[i].Key())%12 != h.chord.Bass.Class() {
					t.Errorf("%s: bar %d of %s does not begin on its bass note", vamp, h.bar+1, h.chord.Symbol)
				}
			}
		}
	}
}

// A walking bass goes in quarters and comes to each chord from a semitone or a
// tone away.
func TestAWalkingBassApproachesEachChord(t *testing.T) {
	b := bandFor(t, fourChords(t), SwingVamp, 1)
	d := dsp.Dice(3)
	steps := slices.DeleteFunc(b.walk(&d), func(s bassStep) bool { return s.dead })
	if want := 4 * b.form.bars; len(steps) != want {
		t.Fatalf("the bass walks %d steps, want a quarter each: %d", len(steps), want)
	}
	for i, s := range steps {
		if i == 0 || s.at%b.form.meter.Bar() != 0 {
			continue
		}
		step := ((s.key-steps[i-1].key)%12 + 12) % 12
		if step != 1 && step != 2 && step != 10 && step != 11 {
			t.Errorf("bar %d is reached by %d semitones", int(s.at/b.form.meter.Bar())+1, step)
		}
	}
}

// A long loop is not a stamp: no two of eight passes are played alike, and yet
// most of the drummer's strokes are the groove's own.
func TestNoTwoPassesAreAlike(t *testing.T) {
	for vamp := range grooves {
		b := bandFor(t, gMinorVamp(t), vamp, 8)
		grid := func(p pass) map[[2]int]bool { // which piece on which sixteenth
			m := map[[2]int]bool{}
			for _, h := range b.drumHits(p) {
				slot := math.Round((float64(h.At) - p.start) / b.form.samples(line.Quarter/4, p.tempo))
				m[[2]int{h.Sound / drumkit.Takes, int(slot)}] = true
			}
			return m
		}
		for i, p := range b.form.passes {
			for _, q := range b.form.passes[:i] {
				a, c := grid(p), grid(q)
				shared := 0
				for k := range a {
					if c[k] {
						shared++
					}
				}
				if shared == len(a) && shared == len(c) {
					t.Errorf("%s: the drums play passes %d and %d alike", vamp, q.number, p.number)
				}
				if 2*shared < len(a) {
					t.Errorf("%s: passes %d and %d share only %d of %d strokes", vamp, q.number, p.number, shared, len(a))
				}
				if slices.Equal(b.keyNotes(p), b.keyNotes(q)) {
					t.Errorf("%s: the keys play passes %d and %d alike", vamp, q.number, p.number)
				}
			}
		}
	}
}

// Strokes stand within a few milliseconds of where they are written, the
// snare behind the beat.
func TestTheDrummerIsLooseButNotLost(t *testing.T) {
	b := bandFor(t, gMinorVamp(t), FunkVamp, 4)
	late, n := 0.0, 0.0
	for _, p := range b.form.passes {
		for _, h := range b.drumHits(p) {
			slot := b.form.samples(line.Quarter/4, p.tempo)
			at := (float64(h.At) - p.start) / slot
			off := (at - math.Round(at)) * slot / 48
			if math.Abs(off) > 9 {
				t.Errorf("a stroke is %.1f ms off", off)
			}
			if drumkit.Piece(h.Sound/drumkit.Takes) == drumkit.Snare {
				late += off
				n++
			}
		}
	}
	if mean := late / n; mean < 3 || mean > 7 {
		t.Errorf("the snare is %.1f ms behind on average, want about 5", mean)
	}
}

// The feel and the written tempo choose the vamp. A tempo to practise at keeps
// the same band.
func TestAnotherTempoKeepsTheVamp(t *testing.T) {
	for _, c := range []struct {
		ex   *exercise.Exercise
		want Vamp
	}{{gMinorVamp(t), FunkVamp}, {bluesInA(t), SwingVamp}, {slowBlues(t), BalladVamp}} {
		for _, tempo := range []float64{0, 40, 200} {
			b, err := newBand(c.ex, Options{Tempo: tempo})
			must(t, err)
			if b.opt.Vamp != c.want || VampFor(c.ex) != c.want {
				t.Errorf("at %g the vamp is %s, want %s", tempo, b.opt.Vamp, c.want)
			}
		}
	}
}
