package practising_test

import (
	"bytes"
	"net/url"
	"strings"
	"testing"

	"heddle/audio"
	"heddle/audio/audiotest"
	"heddle/bench/takes"
	"heddle/exercise"
	"heddle/hear"
)

// A kept take of a line that is on the shelf becomes a run with one press, and
// only one, however often it is pressed.
func TestAKeptTakeBecomesARun(t *testing.T) {
	s := open(t)
	spec, err := exercise.ParseQuery(line)
	if err != nil {
		t.Fatal(err)
	}
	ex, err := exercise.Build(spec)
	if err != nil {
		t.Fatal(err)
	}
	source, err := audio.Decode(bytes.NewReader(audiotest.WAV(48000, make([]float32, 3*48000))))
	if err != nil {
		t.Fatal(err)
	}
	draft, err := takes.In(s.dir).Draft(thursday)
	if err != nil {
		t.Fatal(err)
	}
	defer draft.Drop()
	if err := draft.Record(source); err != nil {
		t.Fatal(err)
	}
	name, err := draft.Keep(&takes.Take{Taken: thursday, Spec: ex.Spec, Sentence: ex.Sentence, Written: takes.Keys(ex), Report: hear.Mark(nil, 0, ex, hear.TakeOptions{})})
	if err != nil {
		t.Fatal(err)
	}
	s.holds(s.get("/takes/"+name), `action="/log/takes/`+name+`"`)
	if at := s.post("/log/takes/"+name, nil); !strings.HasPrefix(at, "/shelf/keep?") {
		t.Errorf("a line that is not on the shelf leads to %s", at)
	}
	item := s.post("/shelf", url.Values{"spec": {line}, "title": {"Thursday's vamp"}, "scope": {"keys"}})
	for range 2 {
		if at := s.post("/log/takes/"+name, nil); at != item {
			t.Errorf("leads to %s, want %s", at, item)
		}
	}
	s.holds(s.get(item), "fell apart", `href="/takes/`+name)
	if r := s.record(); len(r.Days) != 1 || r.Days[0].Runs != 1 || len(r.Moves) == 0 {
		t.Errorf("%+v", r.Days)
	}
}
