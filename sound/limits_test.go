package sound

import (
	"errors"
	"strings"
	"testing"

	"heddle/audio"
	"heddle/exercise"
	"heddle/pitch"
)

// Each piece of bad input is refused by name, with what would be accepted, on
// one line, before any sound is made.
func TestBadOptionsAreRefusedByName(t *testing.T) {
	ex := gMinorVamp(t)
	for _, c := range []struct {
		name string
		set  func(*Options)
		says []string
	}{
		{"rate", func(o *Options) { o.SampleRate = 11025 }, []string{"sample rate", `"11025"`, "44100"}},
		{"tempo", func(o *Options) { o.Tempo = 500 }, []string{"tempo", `"500"`, "20 to 400"}},
		{"negative tempo", func(o *Options) { o.Tempo = -80 }, []string{"tempo", `"-80"`}},
		{"vamp", func(o *Options) { o.Vamp = "polka" }, []string{"vamp", `"polka"`, "funk"}},
		{"click", func(o *Options) { o.ClickOn = "three" }, []string{"click", "2 and 4"}},
		{"count-in", func(o *Options) { o.CountIn = 99 }, []string{"count-in", `"99"`, "0 to 8"}},
		{"negative loops", func(o *Options) { o.Loops = -1 }, []string{"loops", `"-1"`}},
		{"a thousand and one loops", func(o *Options) { o.Loops = 1001 }, []string{"loops", "1000"}},
		{"hours of loops", func(o *Options) { o.Loops = 1000 }, []string{"loops", `"1000"`, "60 minutes", "3h58m"}},
		{"hours of ladder", func(o *Options) { o.Ladder = Ladder{20, 120, 1, 10} }, []string{"ladder", `"20-120 by 1 every 10"`, "60 minutes"}},
		{"a ladder nowhere", func(o *Options) { o.Ladder = Ladder{60, 90, 0, 1} }, []string{"ladder", "step above 0"}},
		{"a ladder too fine", func(o *Options) { o.Ladder = Ladder{60, 90, 0.001, 1} }, []string{"ladder", "400 rungs"}},
		{"a ladder too fast", func(o *Options) { o.Ladder = Ladder{60, 900, 10, 1} }, []string{"ladder", "20 to 400"}},
		{"a ladder never", func(o *Options) { o.Ladder = Ladder{60, 90, 10, 0} }, []string{"ladder", "every 1"}},
		{"a loop counted in", func(o *Options) { o.Seamless = true }, []string{"count-in", "seamless"}},
		{"level", func(o *Options) { o.Mix[Bass].LevelDB = 100 }, []string{"bass level", `"100"`, "-60 to 24"}},
		{"pan", func(o *Options) { o.Mix[Drums].Pan = -2 }, []string{"drums pan", `"-2"`}},
	} {
		o := DefaultOptions()
		c.set(&o)
		_, err := Render(t.Context(), ex, o, &failing{t})
		var input *pitch.InputError
		if !errors.As(err, &input) {
			t.Errorf("%s: %v, want an input error", c.name, err)
			continue
		}
		for _, word := range c.says {
			if !strings.Contains(err.Error(), word) {
				t.Errorf("%s: %q does not say %q", c.name, err, word)
			}
		}
		if strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %q has two lines", c.name, err)
		}
	}
}

// A failing sink must never be called.
type failing struct{ t *testing.T }

func (f *failing) Start(audio.Format) error { f.t.Error("sound began"); return nil }
func (f *failing) Write([]float32) error    { f.t.Error("sound was made"); return nil }
func (f *failing) Finish() error            { f.t.Error("sound ended"); return nil }

func TestALineOfMoreThanTenMinutesIsRefused(t *testing.T) {
	ex := gMinorVamp(t)
	ex.Length *= 100
	_, err := Plan(ex, DefaultOptions())
	if err == nil || !strings.Contains(err.Error(), "10 minutes") {
		t.Errorf("it says %v", err)
	}
}

func TestANoteOffTheNeckOrTooHighIsRefused(t *testing.T) {
	ex := gMinorVamp(t)
	ex.Notes[3].String = 9
	if _, err := Plan(ex, DefaultOptions()); err == nil || !strings.Contains(err.Error(), "note 3") {
		t.Errorf("string 9 of a guitar: %v", err)
	}
	ex = gMinorVamp(t)
	ex.Notes[3].Fret = 80
	o := DefaultOptions()
	o.SampleRate = 22050
	if _, err := Plan(ex, o); err == nil || !strings.Contains(err.Error(), "sample rate") {
		t.Errorf("fret 80: %v", err)
	}
}

// A name that has no recording (three flats) is refused when it is to be
// spoken, and only then.
func TestAMissingVoiceIsRefused(t *testing.T) {
	ex := gMinorVamp(t)
	ex.Notes[0].Pitch.Name.Accidental = -3
	o := DefaultOptions()
	if _, err := Plan(ex, o); err != nil {
		t.Errorf("without a voice: %v", err)
	}
	o.Voice = true
	if _, err := Plan(ex, o); err == nil || !strings.Contains(err.Error(), "double") {
		t.Errorf("with a voice: %v", err)
	}
}

// An exercise without chords or notes is played as far as it goes.
func TestAnEmptyExerciseIsSilentButForItsClick(t *testing.T) {
	ex := &exercise.Exercise{Tempo: 120}
	for _, vamp := range Vamps() {
		o := DefaultOptions()
		o.Vamp = vamp
		mix, line := rendered(t, ex, o)
		if len(line.Notes) != 0 || line.LoopEnd-line.LoopStart != 96000 {
			t.Errorf("%s: %d notes in %d samples", vamp, len(line.Notes), line.LoopEnd-line.LoopStart)
		}
		if highest(mix.Samples) < 0.01 {
			t.Errorf("%s: not even the click is heard", vamp)
		}
	}
}
