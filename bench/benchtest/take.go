// Package benchtest holds what tests of the bench share: a bench on a free port,
// and takes played on the program's own strings.
package benchtest

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"io"
	"mime/multipart"
	"net"
	"net/http"
	"strings"
	"testing"
	"time"

	"heddle/audio"
	"heddle/audio/audiotest"
	"heddle/bench"
	"heddle/exercise"
	"heddle/sound"
)

// TakeSpec is a short line at a walking pace: four bars of eighths.
const TakeSpec = "home=G+minor+pentatonic&superimpose=semitone+up&groups=3%2C3&fret=10&tempo=96&bars=3"

// LiveSpec is what is played in real time: two bars, four seconds.
const LiveSpec = "home=G+minor+pentatonic&superimpose=semitone+up&groups=3%2C3&fret=10&tempo=120&bars=2"

// A Take is a take made from an exercise on the program's own strings.
type Take struct {
	Exercise *exercise.Exercise
	Rate     int       // Hz
	Samples  []float32 // one channel
	OnsetsS  []float64 // of each note, in the take
	LeadS    float64   // the exercise's first bar line
}

// Play plays a spec after leadS of silence. change may put notes wrong.
func Play(t testing.TB, spec string, leadS float64, change func(notes []exercise.Note)) Take {
	t.Helper()
	p, err := Played(t.Context(), spec, leadS, change)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// Played plays as Play does, outside tests.
func Played(ctx context.Context, spec string, leadS float64, change func(notes []exercise.Note)) (Take, error) {
	s, err := exercise.ParseQuery(spec)
	if err != nil {
		return Take{}, err
	}
	ex, err := exercise.Build(s)
	if err != nil {
		return Take{}, err
	}
	sounding := *ex
	sounding.Notes = append([]exercise.Note(nil), ex.Notes...)
	if change != nil {
		change(sounding.Notes)
	}
	var b audiotest.Buffer
	timeline, err := sound.RenderPart(ctx, &sounding, sound.Options{}, sound.Line, &b)
	if err != nil {
		return Take{}, err
	}
	p := Take{Exercise: ex, Rate: b.SampleRate, LeadS: leadS, OnsetsS: make([]float64, len(ex.Notes))}
	p.Samples = make([]float32, int(leadS*float64(p.Rate)), int(leadS*float64(p.Rate))+len(b.Samples)/2)
	left, right := b.Left(), b.Right()
	for i := range left {
		p.Samples = append(p.Samples, (left[i]+right[i])/2)
	}
	for _, n := range timeline.Notes {
		p.OnsetsS[n.Index] = leadS + float64(n.Start)/float64(p.Rate)
	}
	return p, nil
}

// WAV writes the take as a WAV file.
func (p Take) WAV() []byte { return audiotest.WAV(p.Rate, p.Samples) }

// Opus writes the take as an Ogg Opus file.
func (p Take) Opus(t testing.TB) []byte {
	t.Helper()
	var file bytes.Buffer
	sink, err := audio.NewOpus(&file, audio.Tags{})
	if err != nil {
		t.Fatal(err)
	}
	if err := sink.Start(audio.Format{SampleRate: p.Rate, Channels: 1, Frames: int64(len(p.Samples))}); err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(sink.Write(p.Samples), sink.Finish()); err != nil {
		t.Fatal(err)
	}
	return file.Bytes()
}

// Block packs samples as the live socket takes them.
func Block(samples []float32) []byte {
	var b bytes.Buffer
	_ = binary.Write(&b, binary.LittleEndian, samples) // a buffer takes everything
	return b.Bytes()
}

// Faulty plays the line with what players do: a wrong fret, a note left out.
func Faulty(t testing.TB) Take {
	t.Helper()
	p, err := PlayedFaulty(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// PlayedFaulty plays as Faulty does, outside tests.
func PlayedFaulty(ctx context.Context) (Take, error) {
	const wrong, missed = 5, 11
	p, err := Played(ctx, LiveSpec, 0.5, func(notes []exercise.Note) { notes[wrong].Fret++ })
	if err == nil {
		p.Silence(missed)
	}
	return p, err
}

// Silence leaves a note out. The note before it is damped, as a finger does it: a
// sudden end would be an attack.
func (p Take) Silence(note int) {
	end := len(p.Samples)
	if note+1 < len(p.OnsetsS) {
		end = int(p.OnsetsS[note+1]*float64(p.Rate)) - p.Rate/200
	}
	from, fade := int(p.OnsetsS[note]*float64(p.Rate))-p.Rate/100, p.Rate/25
	for i := range fade {
		if at := from - fade + i; at >= 0 {
			p.Samples[at] *= 1 - float32(i)/float32(fade)
		}
	}
	clear(p.Samples[from:end])
}

// Thursday is an evening of the workshop, two hours ahead of UTC.
var Thursday = time.Date(2026, 7, 16, 20, 22, 11, 0, time.FixedZone("", 2*60*60))

// Keep starts a bench that keeps takes in a folder, on that Thursday.
func Keep(t testing.TB, data string) string {
	t.Helper()
	return Serve(t, bench.Options{Data: data, Now: func() time.Time { return Thursday }})
}

// Serve starts a bench on a free port and returns its address without the last
// slash.
func Serve(t testing.TB, o bench.Options) string {
	t.Helper()
	b, err := bench.New(o)
	if err != nil {
		t.Fatal(err)
	}
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- b.Serve(ctx, listener) }()
	t.Cleanup(func() {
		stop()
		if err := <-done; err != nil {
			t.Errorf("serving ended with %v", err)
		}
	})
	return "http://" + listener.Addr().String()
}

// Post posts a recording to the take page and returns its answer.
func Post(t testing.TB, home, query, kind string, body io.Reader, headers ...[2]string) (status int, page string) {
	t.Helper()
	status, _, page = Call(t, http.MethodPost, home+"/take?"+query, kind, body, headers...)
	return status, page
}

// Counts is the summary as the page writes it.
func Counts(page string) string {
	var list []string
	for _, kind := range []string{"right", "wrong", "missed", "extra"} {
		_, rest, _ := strings.Cut(page, `<li class="`+kind+`">`)
		_, rest, _ = strings.Cut(rest, "<strong>")
		n, _, _ := strings.Cut(rest, "</strong>")
		list = append(list, n+" "+kind)
	}
	return strings.Join(list, ", ")
}

// Form is a recording as a form without scripts sends it.
func Form(name string, file []byte, fields ...[2]string) (kind string, body io.Reader) {
	var b bytes.Buffer // takes everything, so that no write fails
	w := multipart.NewWriter(&b)
	for _, f := range append([][2]string{{"note", "a field that is not the recording"}}, fields...) {
		_ = w.WriteField(f[0], f[1])
	}
	part, _ := w.CreateFormFile("recording", name)
	_, _ = part.Write(file)
	_ = w.Close()
	return w.FormDataContentType(), &b
}

// Call sends a request and returns its answer, following no redirection.
func Call(t testing.TB, method, address, kind string, body io.Reader, headers ...[2]string) (status int, location, page string) {
	t.Helper()
	r, err := http.NewRequestWithContext(t.Context(), method, address, body)
	if err != nil {
		t.Fatal(err)
	}
	if kind != "" {
		r.Header.Set("Content-Type", kind)
	}
	for _, h := range headers {
		r.Header.Set(h[0], h[1])
	}
	client := &http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	answer, err := client.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	return answer.StatusCode, answer.Header.Get("Location"), string(text)
}

// KeptPart is the header that asks for the list of kept takes.
var KeptPart = [2]string{"Heddle-Part", "kept"}
