package sound

import (
	"context"
	"errors"
	"math"
	"runtime"
	"testing"

	"heddle/audio"
	"heddle/audio/audiotest"
	"heddle/exercise"
	"heddle/sound/mixer"
)

// rendered plays an exercise into a buffer.
func rendered(t testing.TB, ex *exercise.Exercise, o Options) (*audiotest.Buffer, Timeline) {
	t.Helper()
	b := &audiotest.Buffer{}
	line, err := Render(t.Context(), ex, o, b)
	must(t, err)
	return b, line
}

func TestTheSameOptionsGiveTheSameSamplesAndAnotherSeedOthers(t *testing.T) {
	ex, o := gMinorVamp(t), DefaultOptions()
	a, _ := rendered(t, ex, o)
	b, _ := rendered(t, ex, o)
	o.Seed = 1
	c, _ := rendered(t, ex, o)
	same := 0
	for i := range a.Samples {
		if a.Samples[i] != b.Samples[i] {
			t.Fatalf("sample %d is %g, then %g", i, a.Samples[i], b.Samples[i])
		}
		if a.Samples[i] == c.Samples[i] {
			same++
		}
	}
	if same > len(a.Samples)/4 {
		t.Errorf("another seed leaves %d of %d samples as they were", same, len(a.Samples))
	}
}

func TestPartsAddUpToTheMix(t *testing.T) {
	ex, o := gMinorVamp(t), DefaultOptions()
	o.Voice, o.Seamless, o.CountIn, o.ClickOn = true, true, 0, TwoFour
	mix, _ := rendered(t, ex, o)
	sum := make([]float64, len(mix.Samples))
	for _, p := range Parts() {
		part := &audiotest.Buffer{}
		_, err := RenderPart(t.Context(), ex, o, p, part)
		must(t, err)
		if len(part.Samples) != len(sum) {
			t.Fatalf("%s has %d samples, the mix %d", p, len(part.Samples), len(sum))
		}
		if highest(part.Samples) < 0.01 {
			t.Errorf("%s is not heard", p)
		}
		for i, x := range part.Samples {
			sum[i] += float64(x)
		}
	}
	worst, lowered, lowest := 0.0, 0, 0.0
	for i, x := range mix.Samples {
		off := math.Abs(float64(x) - sum[i])
		if math.Abs(sum[i]) < 0.01 {
			worst = max(worst, off)
			continue
		}
		dB := 20 * math.Log10(float64(x)/sum[i])
		lowest = min(lowest, dB)
		if dB > 0.001 {
			t.Fatalf("sample %d of the mix is %g, the parts add up to %g", i, x, sum[i])
		}
		if dB < -0.25 {
			lowered++
		}
	}
	share := 100 * float64(lowered) / float64(len(sum))
	t.Logf("the limiter lowers %.2f %% of the samples by more than a quarter dB, none by more than %.2f dB", share, -lowest)
	if worst > 3e-3 || share > 5 || lowest < -guardDB-0.2 {
		t.Errorf("the parts are off the mix by %g, %.1f %% lowered, %.1f dB at most: want a guard", worst, share, -lowest)
	}
}

func TestAMutedPartIsNotHeard(t *testing.T) {
	ex, o := gMinorVamp(t), DefaultOptions()
	for p := range o.Mix {
		o.Mix[p].Mute = true
	}
	mix, _ := rendered(t, ex, o)
	if top := highest(mix.Samples); top > 1e-9 {
		t.Errorf("with every part muted the highest sample is %g", top)
	}
}

// energy returns the sum of squares.
func energy(s []float32) (sum float64) {
	for _, x := range s {
		sum += float64(x) * float64(x)
	}
	return sum
}

// partOf plays one part.
func partOf(t testing.TB, ex *exercise.Exercise, o Options, p Part) *audiotest.Buffer {
	t.Helper()
	b := &audiotest.Buffer{}
	_, err := RenderPart(t.Context(), ex, o, p, b)
	must(t, err)
	return b
}

func TestPanAndLevelMoveAPart(t *testing.T) {
	ex, o := gMinorVamp(t), DefaultOptions()
	o.Mix[Bass].Pan = -1
	left := partOf(t, ex, o, Bass)
	if l, r := energy(left.Left()), energy(left.Right()); r > 1e-9*l {
		t.Errorf("panned left, the right channel has %g of the left's energy", r/l)
	}
	over := func() float64 {
		return 10 * math.Log10(energy(partOf(t, ex, o, Bass).Samples)/energy(partOf(t, ex, o, Line).Samples))
	}
	before := over()
	o.Mix[Bass].LevelDB = -6
	if drop := before - over(); math.Abs(drop-6) > 0.01 {
		t.Errorf("turned down by 6 dB the bass falls by %.2f dB against the line", drop)
	}
}

// A seamless loop goes on as it began: played on past its end, the engine
// makes the loop again, sample for sample to −90 dB, and the step across the
// seam is no larger than steps next to it.
func TestASeamlessLoopComesRoundToTheSample(t *testing.T) {
	for _, demo := range demos(t) {
		for _, vamp := range Vamps() {
			o := DefaultOptions()
			o.Vamp, o.Voice, o.Seamless, o.CountIn, o.SampleRate = vamp, true, true, 0, 24000
			b, err := newBand(demo.ex, o)
			must(t, err)
			var left []float32
			start := -int64(warmS * float64(b.form.rate))
			s, err := b.newStudio()
			must(t, err)
			e := b.newEngine(s, start, Parts()...)
			must(t, e.run(t.Context(), 2*b.form.total, func(bl *mixer.Block) error {
				left = append(left, bl.Left...)
				return nil
			}))
			left = left[-start:]
			n := int(b.form.total)
			once, again := left[:n], left[n:]
			worst, where := 0.0, 0
			for i := range once {
				if off := math.Abs(float64(once[i] - again[i])); off > worst {
					worst, where = off, i
				}
			}
			if worst > 3e-5 {
				t.Errorf("%s, %s: the second time round sample %d of %d is off by %g", demo.name, vamp, where, n, worst)
			}
		}
	}
}

func TestAnEndingDiesAway(t *testing.T) {
	mix, line := rendered(t, bluesInA(t), DefaultOptions())
	last := mix.Samples[len(mix.Samples)-200:]
	if highest(last) > 1e-3 {
		t.Errorf("the file ends at %g", highest(last))
	}
	if highest(mix.Samples[2*line.LoopEnd:]) < 0.05 {
		t.Error("there is no last chord")
	}
}

// A counting sink stops the render after so many blocks, or fails itself.
type stopping struct {
	after  int
	stop   func()
	fail   error
	blocks int
	ended  bool
}

func (s *stopping) Start(audio.Format) error { return nil }
func (s *stopping) Finish() error            { s.ended = true; return nil }
func (s *stopping) Write([]float32) error {
	if s.blocks++; s.blocks == s.after {
		s.stop()
		return s.fail
	}
	return nil
}

func TestARenderStopsWhenItIsCancelledOrItsSinkFails(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	s := &stopping{after: 3, stop: cancel}
	if _, err := Render(ctx, gMinorVamp(t), DefaultOptions(), s); !errors.Is(err, context.Canceled) || s.ended || s.blocks > 4 {
		t.Errorf("cancelled after 3 blocks it returned %v after %d, finished %v", err, s.blocks, s.ended)
	}
	full := errors.New("disk full")
	s = &stopping{after: 2, stop: func() {}, fail: full}
	if _, err := Render(t.Context(), gMinorVamp(t), DefaultOptions(), s); !errors.Is(err, full) || s.blocks != 2 {
		t.Errorf("with a full disk it returned %v after %d blocks", err, s.blocks)
	}
}

// A heap is a sink that watches how much memory is in use.
type heap struct {
	writes int
	most   uint64
}

func (h *heap) Start(audio.Format) error { return nil }
func (h *heap) Finish() error            { return nil }

func (h *heap) Write([]float32) error {
	if h.writes++; h.writes%500 == 0 {
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		h.most = max(h.most, m.HeapAlloc)
	}
	return nil
}

func TestMemoryDoesNotGrowWithLength(t *testing.T) {
	use := func(loops int) uint64 {
		o := DefaultOptions()
		o.Loops, o.SampleRate = loops, 24000
		h := &heap{}
		_, err := Render(t.Context(), gMinorVamp(t), o, h)
		must(t, err)
		return h.most
	}
	const some, many = 4, 16
	short, long := use(some), use(many)
	if long > short+short/3+1<<20 {
		t.Errorf("%d loops take %d kB, %d take %d", many, long>>10, some, short>>10)
	}
	t.Logf("%d loops take %d kB, %d take %d kB", some, short>>10, many, long>>10)
}

// highest returns the size of the largest sample.
func highest(s []float32) float32 {
	top := float32(0)
	for _, x := range s {
		top = max(top, x, -x)
	}
	return top
}
