package bench

import (
	"context"
	"encoding/json"
	"io"
	"net/http"
	"strconv"
	"strings"

	"heddle/audio"
	"heddle/exercise"
	"heddle/notefile"
	"heddle/score"
	"heddle/sound"
)

// A format is one kind of file that an exercise can be downloaded as.
type format struct {
	Ending  string
	Label   string
	kind    string
	write   func(io.Writer, *http.Request, *exercise.Exercise) error
	sounded bool // takes long enough to wait for a turn
}

// formats lists the kinds of file in the order that the page offers them.
func formats() []format {
	return []format{
		{Ending: "pdf", Label: "Handout (PDF)", kind: "application/pdf", write: writePDF},
		{Ending: "svg", Label: "Picture (SVG)", kind: "image/svg+xml", write: writeSVG},
		{Ending: "png", Label: "Picture (PNG)", kind: "image/png", write: writePNG},
		{Ending: "musicxml", Label: "MusicXML", kind: "application/vnd.recordare.musicxml+xml", write: plain(notefile.WriteMusicXML)},
		{Ending: "mid", Label: "MIDI", kind: "audio/midi", write: plain(notefile.WriteMIDI)},
		{Ending: "mp3", Label: "Sound (MP3)", kind: "audio/mpeg", sounded: true, write: sounded(func(w io.Writer, t audio.Tags) (audio.Sink, error) { return audio.NewMP3(context.Background(), w, t) })},
		{Ending: "flac", Label: "Sound (FLAC)", kind: "audio/flac", sounded: true, write: sounded(func(w io.Writer, t audio.Tags) (audio.Sink, error) { return audio.NewFLAC(w, audio.Bits16, t) })},
		{Ending: "wav", Label: "Sound (WAV)", kind: "audio/wav", sounded: true, write: sounded(func(w io.Writer, t audio.Tags) (audio.Sink, error) { return audio.NewWAV(w, audio.Bits16, t) })},
		{Ending: "vtt", Label: "Captions (WebVTT)", kind: "text/vtt; charset=utf-8", write: plain(writeVTT)},
		{Ending: "json", Label: "Everything (JSON)", kind: "application/json", write: writeJSON},
	}
}

// serveLine writes the exercise as a file.
func (b *Bench) serveLine(f format) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		a, err := readRight(r)
		if err != nil {
			b.refuse(w, r, err)
			return
		}
		if f.sounded {
			if err := (played{exercise: a.exercise}).bounded(); err != nil {
				b.refuse(w, r, err)
				return
			}
		}
		release, err := b.renders.take(r.Context())
		if err != nil {
			b.refuse(w, r, err)
			return
		}
		defer release()
		w.Header().Set("Content-Type", f.kind)
		w.Header().Set("Content-Disposition", `attachment; filename="`+fileName(a.exercise)+"."+f.Ending+`"`)
		w.Header().Set("Cache-Control", "no-store")
		out := &countingWriter{Writer: w}
		if err := f.write(out, r, a.exercise); err != nil {
			if out.n > 0 {
				panic(http.ErrAbortHandler) // half a file must not look like a whole one
			}
			w.Header().Del("Content-Disposition")
			b.refuse(w, r, err)
		}
	}
}

type countingWriter struct {
	io.Writer
	n int64
}

func (c *countingWriter) Write(p []byte) (int, error) {
	n, err := c.Writer.Write(p)
	c.n += int64(n)
	return n, err
}

// fileName says what is in a file: "G-minor-pentatonic-Ab-minor-pentatonic-fret-10".
// It keeps to characters that every file system takes.
func fileName(ex *exercise.Exercise) string {
	words := make([]string, 0, 4)
	for _, s := range ex.Scales[:min(3, len(ex.Scales))] {
		words = append(words, s.Name())
	}
	words = append(words, "fret "+strconv.Itoa(ex.Spec.Fret), strconv.Itoa(int(ex.Tempo+0.5)))
	var b strings.Builder
	for _, r := range strings.Join(words, " ") {
		switch {
		case r == '#':
			b.WriteString("-sharp")
		case r < 128 && (r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9'):
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
	}
	return strings.Trim(b.String(), "-")
}

func plain(write func(io.Writer, *exercise.Exercise) error) func(io.Writer, *http.Request, *exercise.Exercise) error {
	return func(w io.Writer, _ *http.Request, ex *exercise.Exercise) error { return write(w, ex) }
}

// sounded writes the mix with a bar of count-in.
func sounded(encode func(io.Writer, audio.Tags) (audio.Sink, error)) func(io.Writer, *http.Request, *exercise.Exercise) error {
	return func(w io.Writer, r *http.Request, ex *exercise.Exercise) error {
		sink, err := encode(w, audio.Tags{Title: ex.Sentence, Tempo: ex.Tempo})
		if err != nil {
			return err
		}
		_, err = sound.Render(r.Context(), ex, downloadedSound(ex), sink)
		return err
	}
}

// downloadedSound is how the sound files of an exercise sound.
func downloadedSound(ex *exercise.Exercise) sound.Options {
	options := sound.DefaultOptions()
	options.Vamp = sound.Vamp(vampFor(ex.Rhythm))
	return options
}

// writeVTT times the captions to the sound files.
func writeVTT(w io.Writer, ex *exercise.Exercise) error {
	timeline, err := sound.Plan(ex, downloadedSound(ex))
	if err != nil {
		return err
	}
	return notefile.WriteVTT(w, ex, float64(timeline.Notes[0].Start)/float64(timeline.SampleRate))
}

func writePDF(w io.Writer, _ *http.Request, ex *exercise.Exercise) error {
	pages, err := score.Pages(ex, score.Options{})
	if err != nil {
		return err
	}
	return score.WritePDF(w, pages)
}

func writeSVG(w io.Writer, _ *http.Request, ex *exercise.Exercise) error {
	d, err := score.Poster(ex, score.Options{})
	if err != nil {
		return err
	}
	return score.WriteStandaloneSVG(w, d)
}

// pictureDPI is fine enough to print and small enough to send.
const pictureDPI = 200

func writePNG(w io.Writer, _ *http.Request, ex *exercise.Exercise) error {
	d, err := score.Poster(ex, score.Options{})
	if err != nil {
		return err
	}
	return score.WritePNG(w, d, pictureDPI)
}

func writeJSON(w io.Writer, _ *http.Request, ex *exercise.Exercise) error {
	encoder := json.NewEncoder(w)
	encoder.SetIndent("", "  ")
	return encoder.Encode(ex)
}
