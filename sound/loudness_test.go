package sound

import (
	"bytes"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"heddle/audio"
	"heddle/audio/audiotest"
	"heddle/internal/need"
)

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// ebur128 returns what ffmpeg's meter says of a file.
func ebur128(t *testing.T, file []byte) (loudness, peak float64) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "mix.wav")
	must(t, os.WriteFile(path, file, 0o600))
	program := need.Program(t, "no second meter to compare with", "ffmpeg")
	text, err := exec.Command(program, "-nostats", "-hide_banner", "-i", path, "-af", "ebur128=peak=true", "-f", "null", os.DevNull).CombinedOutput()
	must(t, err)
	said := string(text)
	at := strings.LastIndex(said, "Summary")
	number := func(pattern string) float64 {
		m := regexp.MustCompile(pattern).FindStringSubmatch(said[max(at, 0):])
		if m == nil {
			t.Fatalf("ffmpeg says nothing of %s: %s", pattern, said)
		}
		f, err := strconv.ParseFloat(m[1], 64)
		must(t, err)
		return f
	}
	return number(`I:\s+(-?[\d.]+) LUFS`), number(`Peak:\s+(-?[\d.]+) dBFS`)
}

// Every vamp under the demo exercises is near −16 LUFS with true peaks below
// −1 dBTP.
func TestMixesAreNearTheirLoudness(t *testing.T) {
	for _, demo := range demos(t) {
		for _, vamp := range Vamps() {
			o := DefaultOptions()
			o.Vamp, o.Loops, o.Voice = vamp, 2, vamp == FunkVamp
			mix := &audiotest.Buffer{}
			_, err := Render(t.Context(), demo.ex, o, mix)
			must(t, err)
			m := audio.NewMeter(mix.SampleRate)
			m.Write(mix.Left(), mix.Right())
			t.Logf("%s, %s: %.2f LUFS, %.2f dBTP", demo.name, vamp, m.Loudness(), m.TruePeak())
			if math.Abs(m.Loudness()-targetLUFS) > 0.5 {
				t.Errorf("%s, %s: %.2f LUFS, want near %g", demo.name, vamp, m.Loudness(), targetLUFS)
			}
			if m.TruePeak() > -1 {
				t.Errorf("%s, %s: true peak %.2f dBTP, want below −1", demo.name, vamp, m.TruePeak())
			}
		}
	}
}

// The same figures by ffmpeg's meter (libavfilter's ebur128).
func TestFFmpegsMeterAgrees(t *testing.T) {
	for _, demo := range demos(t) {
		mix := &audiotest.Buffer{}
		_, err := Render(t.Context(), demo.ex, DefaultOptions(), mix)
		must(t, err)
		m := audio.NewMeter(mix.SampleRate)
		m.Write(mix.Left(), mix.Right())
		var file bytes.Buffer
		w, err := audio.NewWAV(&file, audio.Float32, audio.Tags{})
		must(t, err)
		must(t, w.Start(audio.Format{SampleRate: mix.SampleRate, Frames: int64(len(mix.Samples) / 2)}))
		must(t, w.Write(mix.Samples))
		must(t, w.Finish())
		theirs, theirPeak := ebur128(t, file.Bytes())
		t.Logf("%s: %.2f LUFS, %.2f dBTP (ffmpeg %.1f, %.1f)", demo.name, m.Loudness(), m.TruePeak(), theirs, theirPeak)
		if math.Abs(m.Loudness()-theirs) > 0.11 || theirPeak > -1 || math.Abs(m.TruePeak()-theirPeak) > 0.3 {
			t.Errorf("%s: %.2f LUFS and %.2f dBTP here, %.1f and %.1f by ffmpeg", demo.name, m.Loudness(), m.TruePeak(), theirs, theirPeak)
		}
	}
}
