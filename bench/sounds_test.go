package bench_test

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"net/http"
	"testing"

	"heddle/sound"
)

const oneBar = "home=A+minor+pentatonic&superimpose=tritone&groups=2,2&bars=1&tempo=120"

// frames counts the frames of 16-bit stereo in a WAV file, from the length of
// its data chunk.
func frames(t *testing.T, wav []byte) int {
	t.Helper()
	at := bytes.Index(wav, []byte("data"))
	if at < 0 || string(wav[:4]) != "RIFF" {
		t.Fatalf("%d bytes are no WAV file", len(wav))
	}
	if channels := binary.LittleEndian.Uint16(wav[22:]); channels != 2 {
		t.Fatalf("%d channels", channels)
	}
	size := int(binary.LittleEndian.Uint32(wav[at+4:]))
	if at+8+size > len(wav) {
		t.Fatalf("%d bytes of sound are announced and %d are there", size, len(wav)-at-8)
	}
	return size / 4
}

func TestAllPartsOfAnExerciseAreOneLoop(t *testing.T) {
	h := handler(t)
	var timeline struct {
		Samples    int
		SampleRate int `json:"sample_rate"`
		Tempo      float64
		Groups     []int
		Notes      []struct{ Index int }
	}
	if err := json.Unmarshal(ask(h, "GET", "/sound/timeline?"+oneBar).Body.Bytes(), &timeline); err != nil {
		t.Fatal(err)
	}
	// One bar of four quarters at 120 lasts two seconds.
	if want := 2 * timeline.SampleRate; timeline.Samples != want {
		t.Errorf("the loop lasts %d samples, want %d", timeline.Samples, want)
	}
	if timeline.Tempo != 120 || len(timeline.Groups) != len(timeline.Notes) || len(timeline.Notes) == 0 {
		t.Errorf("tempo %v, %d groups for %d notes", timeline.Tempo, len(timeline.Groups), len(timeline.Notes))
	}
	for _, part := range sound.Parts() {
		w := ask(h, "GET", "/sound/"+part.String()+"?"+oneBar+"&vamp=funk")
		if w.Code != http.StatusOK || w.Header().Get("Content-Type") != "audio/wav" {
			t.Fatalf("%s: status %d", part, w.Code)
		}
		if n := frames(t, w.Body.Bytes()); n != timeline.Samples {
			t.Errorf("%s lasts %d samples, want %d like all", part, n, timeline.Samples)
		}
	}
	if n := frames(t, ask(h, "GET", "/sound/count?"+oneBar).Body.Bytes()); n != timeline.Samples {
		t.Errorf("a bar of count-in lasts %d samples, want %d like a bar of the loop", n, timeline.Samples)
	}
}

func TestAPartOfASoundCanBeAskedFor(t *testing.T) {
	w := ask(handler(t), "GET", "/sound/click?"+oneBar, "Range", "bytes=0-3")
	if w.Code != http.StatusPartialContent || w.Body.String() != "RIFF" {
		t.Errorf("status %d, %q", w.Code, w.Body.String())
	}
}
