package bench_test

import (
	"bytes"
	"net/http"
	"strings"
	"testing"

	"heddle/internal/need"
)

// formats are the files that can be downloaded, by their first bytes: the
// signatures of PDF 1.7 (ISO 32000-1), PNG (ISO/IEC 15948), Standard MIDI
// Files, RIFF WAVE, FLAC (RFC 9639), Ogg (RFC 3533), WebVTT, and text formats by
// their heads.
var formats = []struct{ ending, kind, head string }{
	{"pdf", "application/pdf", "%PDF-1.7"},
	{"svg", "image/svg+xml", "<svg "},
	{"png", "image/png", "\x89PNG\r\n\x1a\n"},
	{"musicxml", "application/vnd.recordare.musicxml+xml", "<?xml "},
	{"mid", "audio/midi", "MThd"},
	{"opus", "audio/ogg", "OggS"},
	{"mp3", "audio/mpeg", ""},
	{"m4a", "audio/mp4", "\x00\x00\x00"},
	{"flac", "audio/flac", "fLaC"},
	{"wav", "audio/wav", "RIFF"},
	{"vtt", "text/vtt; charset=utf-8", "WEBVTT"},
	{"srt", "application/x-subrip; charset=utf-8", "1\n00:00:"},
	{"json", "application/json", "{"},
}

func TestEveryFormatIsADownloadWithAReadableName(t *testing.T) {
	need.Program(t, "MP3 and M4A are written through it", "ffmpeg")
	h := handler(t)
	page := ask(h, "GET", "/?home=F%23+minor+pentatonic&superimpose=semitone+up&groups=2,2&bars=1&tempo=160").Body.String()
	for _, f := range formats {
		if !strings.Contains(page, `href="/line.`+f.ending+`?`) {
			t.Errorf("the page offers no %s", f.ending)
		}
		w := ask(h, "GET", "/line."+f.ending+"?home=F%23+minor+pentatonic&superimpose=semitone+up&groups=2,2&bars=1&tempo=160")
		if w.Code != http.StatusOK || w.Header().Get("Content-Type") != f.kind {
			t.Errorf("%s: status %d, kind %q", f.ending, w.Code, w.Header().Get("Content-Type"))
			continue
		}
		name := w.Header().Get("Content-Disposition")
		if !strings.HasPrefix(name, `attachment; filename="F-sharp-minor-pentatonic-G-minor-pentatonic-fret-`) || !strings.HasSuffix(name, "."+f.ending+`"`) {
			t.Errorf("%s: named %s", f.ending, name)
		}
		if body := w.Body.Bytes(); len(body) < 100 || !bytes.HasPrefix(body, []byte(f.head)) {
			t.Errorf("%s: %d bytes that begin %q", f.ending, len(body), body[:min(12, len(body))])
		}
	}
}

func TestTheSameAddressGivesTheSameBytes(t *testing.T) {
	for _, address := range []string{"/", "/line.pdf?home=A+blues", "/line.mid?home=A+blues", "/sound/line?home=A+blues&bars=1"} {
		first, again := ask(handler(t), "GET", address).Body.Bytes(), ask(handler(t), "GET", address).Body.Bytes()
		if len(first) == 0 || !bytes.Equal(first, again) {
			t.Errorf("%s: %d bytes, then %d others", address, len(first), len(again))
		}
	}
}

func TestWhatNeedsFFmpegSaysSoWhereItIsMissing(t *testing.T) {
	t.Setenv("PATH", t.TempDir())
	w := ask(handler(t), "GET", "/line.mp3?home=A+blues&bars=1")
	if w.Code != http.StatusNotImplemented || !strings.Contains(w.Body.String(), "install it") || strings.Count(w.Body.String(), "\n") != 1 {
		t.Errorf("status %d, %q; want 501 and one line that says what to install", w.Code, w.Body.String())
	}
}
