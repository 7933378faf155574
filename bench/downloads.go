package bench

import (
	"context"
	"io"
	"net/http"
	"os"
	"slices"
	"strconv"
	"strings"
	"time"

	"heddle/audio"
	"heddle/bench/site"
	"heddle/deliver"
	"heddle/exercise"
)

// offered lists the formats that can be downloaded here.
func offered() []deliver.Format {
	return slices.DeleteFunc(deliver.Formats(), func(f deliver.Format) bool { return f.FFmpeg && !audio.HasFFmpeg() })
}

// serveLine writes the exercise as a file. The file is complete before its
// first byte is sent: a client that reads slowly holds up nobody, and half a
// file never looks like a whole one.
func (b *Bench) serveLine(f deliver.Format) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		a, err := site.Valid(r)
		if err == nil && f.Sound {
			err = (played{exercise: a.Exercise}).bounded()
		}
		if err != nil {
			site.Refuse(w, r, err)
			return
		}
		file, err := os.CreateTemp("", "heddle-*")
		if err != nil {
			site.Refuse(w, r, err)
			return
		}
		// Without a name it can't outlive the program. Windows keeps the name of
		// an open file.
		if os.Remove(file.Name()) != nil {
			defer os.Remove(file.Name())
		}
		defer file.Close()
		if err := b.writeLine(r.Context(), file, f, a); err != nil {
			site.Refuse(w, r, err)
			return
		}
		w.Header().Set("Content-Type", f.MediaType)
		w.Header().Set("Content-Disposition", `attachment; filename="`+fileName(a.Exercise)+"."+f.Name+`"`)
		w.Header().Set("Cache-Control", "no-store")
		http.ServeContent(site.SteadyWriter{ResponseWriter: w}, r, "", time.Time{}, file)
	}
}

// writeLine waits for its turn and writes the file.
func (b *Bench) writeLine(ctx context.Context, w io.Writer, f deliver.Format, a *site.Asked) error {
	release, err := b.site.Renders.Take(ctx)
	if err != nil {
		return err
	}
	defer release()
	return f.Write(ctx, w, a.Exercise, a.View, nil)
}

// fileName says what is in a file: "G-minor-pentatonic-Ab-minor-pentatonic-fret-10".
// It keeps to characters that every file system takes.
func fileName(ex *exercise.Exercise) string {
	words := make([]string, 0, 4)
	for _, s := range ex.Scales[:min(3, len(ex.Scales))] {
		words = append(words, s.Name())
	}
	words = append(words, "fret "+strconv.Itoa(max(0, ex.Spec.Fret)), strconv.Itoa(int(ex.Tempo+0.5)))
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
