package practice

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"heddle/exercise"
	"heddle/pitch"
)

// checkRun holds what is true of every run that was read.
func checkRun(t *testing.T, r Run) {
	t.Helper()
	if err := r.Check(thursday); err != nil {
		t.Fatalf("a run that does not check was read: %+v: %v", r, err)
	}
	if math.IsNaN(r.Tempo) || math.IsInf(r.Seconds, 0) || math.IsNaN(r.Seconds) || r.UID == "" {
		t.Fatalf("%+v", r)
	}
	if _, err := pitch.ParseName(r.Unit.Key); err != nil {
		t.Fatalf("key %q", r.Unit.Key)
	}
}

func FuzzReadLog(f *testing.F) {
	f.Add("date,title,minutes,tempo\n2026-07-16,Thursday's vamp,3,72\n")
	f.Add("title,tempo,date,minutes,went,key,fret\n\"thursday's vamp\",NaN,2026-07-16T18:00:00Z,1e308,clean,Ab,11\n")
	f.Add("date;title\n")
	items, _ := sentDemo()
	f.Fuzz(func(t *testing.T, table string) {
		runs, refused, err := ReadLog(strings.NewReader(table), items, thursday)
		if err != nil && strings.ContainsAny(err.Error(), "\n\r") {
			t.Fatalf("error %q", err)
		}
		for _, r := range runs {
			checkRun(t, r)
		}
		for _, r := range refused {
			if r.Row < 2 || r.Why == "" {
				t.Fatalf("%+v", r)
			}
		}
	})
}

func FuzzReadSent(f *testing.F) {
	items, runs := sentDemo()
	text, err := json.Marshal(Send(items, runs))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(text)
	f.Add([]byte(`{"heddle":"practice","version":1,"items":null,"runs":[]}`))
	f.Fuzz(func(t *testing.T, file []byte) {
		sent, err := ReadSent(bytes.NewReader(file), thursday)
		if err != nil {
			return
		}
		for _, it := range sent.Items {
			item := it.Item()
			if err := item.Check(); err != nil {
				t.Fatalf("an item that does not check was read: %v", err)
			}
		}
		for _, r := range sent.Runs {
			checkRun(t, r.Run(1))
		}
	})
}

// Whatever is answered is right, wrong, or refused in one line.
func FuzzAnAnswerIsJudged(f *testing.F) {
	for _, answer := range []string{"2 10", "b7", "Ab b3", "Cb", "Db Cb", "H", "Si♭", "99999999999999999999 1", "-1 -1"} {
		f.Add(answer, 3)
	}
	items, _ := sentDemo()
	ex, err := exercise.Build(items[0].Spec)
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, answer string, seed int) {
		for _, q := range Ask([]*exercise.Exercise{ex}, nil, 8, thursday, uint64(seed)) {
			if reply, err := q.Check(answer); err == nil && reply.Text == "" {
				t.Fatalf("%q to %s gets no text", answer, q.Ask)
			}
		}
	})
}
