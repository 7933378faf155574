package take

import (
	"context"
	"errors"
	"io"
	"mime"
	"net/http"
	"strings"
	"time"

	"heddle/audio"
	"heddle/bench/site"
	"heddle/bench/takes"
	"heddle/hear"
	"heddle/pitch"
)

// serveMark marks a recording sent as the body itself or as the file of a form.
// It is heard while it is read: memory never holds more than hear's window, and
// nothing is written to disk.
func (ps *Pages) serveMark(w http.ResponseWriter, r *http.Request) {
	t, p, ok := ps.read(w, r)
	if !ok {
		return
	}
	// The server's usual read limit is too short for ten minutes of sound that
	// are heard as they arrive. Where the limit can't be moved, it stays.
	_ = http.NewResponseController(w).SetReadDeadline(time.Now().Add(readTime))
	report, err := ps.marked(r, t)
	status := http.StatusOK
	if err != nil {
		if r.Context().Err() != nil {
			return // the client has gone
		}
		status, p.Fault = fault(err)
	} else {
		p.Report = newReport(t.Exercise, report, site.RoomOf(r).Music)
	}
	ps.write(w, r, partOf(r, "take.html"), status, p)
}

// fault returns the status and the text for a take that can't be marked.
func fault(err error) (status int, says string) {
	var input *pitch.InputError
	var large *http.MaxBytesError
	switch {
	case errors.As(err, &large):
		return http.StatusRequestEntityTooLarge, "This recording is too large: want " + wantTake + "."
	case errors.As(err, &input):
		return http.StatusBadRequest, input.Error()
	case errors.Is(err, site.ErrBusy):
		return http.StatusServiceUnavailable, err.Error()
	}
	return http.StatusBadRequest, "The recording did not arrive completely: " + err.Error()
}

const wantTake = "a WAV, FLAC or MP3 file of one guitar, at most ten minutes long"

func (ps *Pages) marked(r *http.Request, t *request) (*hear.Report, error) {
	sent, err := sentIn(r)
	if err != nil {
		return nil, err
	}
	recording := &site.TurnReader{Reader: sent.recording, Context: r.Context(), Turns: ps.site.Renders}
	defer recording.Done()
	return markTake(r.Context(), recording, t)
}

// markTake decodes a recording and marks it.
func markTake(ctx context.Context, recording io.Reader, t *request) (*hear.Report, error) {
	source, err := audio.Decode(recording)
	if err != nil {
		return nil, err
	}
	return hear.MarkTake(ctx, source, t.Exercise, hear.TakeOptions{Clicked: t.clicked, ClickS: t.firstBarS})
}

// An upload is the recording of a request and its label.
type upload struct {
	recording io.Reader
	label     string // of a form
}

func sentIn(r *http.Request) (upload, error) {
	kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type"))
	switch {
	case err == nil && kind == "multipart/form-data":
		return sentInForm(r)
	case err == nil && (strings.HasPrefix(kind, "audio/") || kind == "application/octet-stream"):
		return upload{recording: r.Body}, nil
	}
	return upload{}, &pitch.InputError{What: "recording", Value: r.Header.Get("Content-Type"), Want: wantTake}
}

// sentInForm finds the file of a form, and the label before it, without reading
// the rest.
func sentInForm(r *http.Request) (sent upload, err error) {
	form, err := r.MultipartReader()
	if err != nil {
		return sent, &pitch.InputError{What: "recording", Want: wantTake}
	}
	for range fieldsRead {
		part, err := form.NextPart()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return sent, err
		}
		switch {
		case part.FormName() == "label":
			if sent.label, err = readLabel(part); err != nil {
				return sent, err
			}
		case part.FormName() == "recording" && part.FileName() != "":
			sent.recording = part
			return sent, nil
		}
	}
	return sent, &pitch.InputError{What: "recording", Value: "no file", Want: wantTake}
}

func readLabel(field io.Reader) (string, error) {
	text, err := io.ReadAll(io.LimitReader(field, mostLabelBytes))
	if err != nil {
		return "", err
	}
	label := strings.TrimSpace(string(text))
	return label, takes.CheckLabel(label)
}
