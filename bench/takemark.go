package bench

import (
	"context"
	"errors"
	"io"
	"math"
	"mime"
	"net/http"
	"strings"
	"time"

	"heddle/bench/takes"
	"heddle/hear"
	"heddle/pitch"
)

// serveMark marks a recording that is sent: as the body itself or as the file
// of a form. It is heard while it is read, so that no more of it than hear's
// window is ever held, and nothing is written anywhere.
func (b *Bench) serveMark(w http.ResponseWriter, r *http.Request) {
	t, p, ok := b.askedTake(w, r)
	if !ok {
		return
	}
	// A server's usual limit on the time to read a request is too short for ten
	// minutes of sound that are heard as they come.
	_ = http.NewResponseController(w).SetReadDeadline(time.Now().Add(takeReadTime)) // where it can't be set the usual one holds
	report, err := b.marked(r, t)
	status := http.StatusOK
	if err != nil {
		if r.Context().Err() != nil {
			return // nobody is listening any more
		}
		status, p.Fault = takeFault(err)
	} else {
		p.Report = newTakeReport(t.exercise, report, roomOf(r).music)
	}
	b.writeTake(w, r, partOf(r, "take.html"), status, p)
}

// takeFault is how a take that can't be marked is answered.
func takeFault(err error) (status int, says string) {
	var input *pitch.InputError
	var large *http.MaxBytesError
	switch {
	case errors.As(err, &large):
		return http.StatusRequestEntityTooLarge, "This recording is too large: want " + wantTake + "."
	case errors.As(err, &input):
		return http.StatusBadRequest, input.Error()
	case errors.Is(err, errBusy):
		return http.StatusServiceUnavailable, err.Error()
	}
	return http.StatusBadRequest, "The recording did not arrive whole: " + err.Error()
}

const wantTake = "a WAV, FLAC or MP3 file of one guitar, at most ten minutes long"

// marked hears and marks the recording of a request.
func (b *Bench) marked(r *http.Request, t *takeAsked) (*takeMarks, error) {
	sent, err := sentIn(r)
	if err != nil {
		return nil, err
	}
	release, err := b.renders.take(r.Context())
	if err != nil {
		return nil, err
	}
	defer release()
	return markTake(r.Context(), sent.recording, t)
}

// takeMarks is a marked take and what it was marked against.
type takeMarks struct {
	*hear.Report
	advice   []string
	clicked  bool    // against the click, not the player's own beat
	behindMS float64 // how far the take as a whole lies behind the click, where there was one
}

func marksOf(r *hear.Report, behindMS float64) *takeMarks {
	m := &takeMarks{Report: r, advice: r.Advice(), behindMS: behindMS}
	if m.ofAnotherLine() {
		m.advice = []string{"Hardly a note of the line was heard in its place. Is this the line that was played?"}
	}
	return m
}

// A take with hardly a right note and plenty of others was not bad: it was of
// something else, of which nothing can be said note by note.
const (
	anotherRight = 0.2 // of the line's notes, at most
	anotherHeard = 0.5 // as many as the line's notes, at least
)

func (m *takeMarks) ofAnotherLine() bool {
	written := float64(len(m.Marks))
	return float64(m.Summary.Right) < anotherRight*written && float64(len(m.Heard)) >= anotherHeard*written
}

func markTake(ctx context.Context, recording io.Reader, t *takeAsked) (*takeMarks, error) {
	source, err := hear.Decode(recording)
	if err != nil {
		return nil, err
	}
	heard, tuning, err := hear.Hear(ctx, source, hear.OptionsFor(t.exercise))
	if err != nil {
		return nil, err
	}
	free := hear.MarkOptions{Tuning: tuning}
	if !t.clicked {
		return marksOf(hear.Mark(heard, t.exercise, free), 0), nil
	}
	toClick := hear.MarkOptions{Tuning: tuning, Tempo: t.exercise.Tempo, ClickS: t.firstBarS}
	m := marksOf(hear.Mark(heard, t.exercise, toClick), 0)
	m.clicked, m.behindMS = true, m.Summary.TimingMSMedian
	if enoughRight(m.Report) {
		return m, nil
	}
	if own := ownBeat(hear.Mark(heard, t.exercise, free), t); own != nil {
		return own, nil
	}
	return m, nil
}

// A take that is mostly wrong against the click and mostly right by itself
// was played well and recorded through a delay that nobody knew of.
const (
	ownBeatRight = 0.8  // of the notes
	ownBeatTempo = 0.03 // away from the click's tempo, as a part of it
)

func enoughRight(r *hear.Report) bool {
	return float64(r.Summary.Right) >= ownBeatRight*float64(len(r.Marks))
}

// ownBeat takes the marks against the player's own beat where they show that
// the click stood elsewhere than it was said to; nil where they don't.
func ownBeat(r *hear.Report, t *takeAsked) *takeMarks {
	tempo := t.exercise.Tempo
	if !enoughRight(r) || math.Abs(r.Tempo/tempo-1) > ownBeatTempo {
		return nil
	}
	first := t.exercise.Rhythm.Sounding(t.exercise.Notes[0].Start).Quarters()
	return marksOf(r, 1000*(r.OffsetS-t.firstBarS-first*60/tempo))
}

// A sentTake is what a request brings.
type sentTake struct {
	recording io.Reader
	label     string // of a form
}

// sentIn finds the recording in a request's body.
func sentIn(r *http.Request) (sentTake, error) {
	kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type"))
	switch {
	case err == nil && kind == "multipart/form-data":
		return sentInForm(r)
	case err == nil && (strings.HasPrefix(kind, "audio/") || kind == "application/octet-stream"):
		return sentTake{recording: r.Body}, nil
	}
	return sentTake{}, &pitch.InputError{What: "recording", Value: r.Header.Get("Content-Type"), Want: wantTake}
}

// sentInForm finds the file of a form, and the label before it, without taking
// the rest of it in.
func sentInForm(r *http.Request) (sent sentTake, err error) {
	form, err := r.MultipartReader()
	if err != nil {
		return sent, &pitch.InputError{What: "recording", Want: wantTake}
	}
	for range takeFieldsRead {
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
