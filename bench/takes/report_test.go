package takes_test

import (
	"encoding/json"
	"errors"
	"slices"
	"strings"
	"testing"

	"heddle/bench/takes"
	"heddle/pitch"
)

func TestAReportThatDoesNotHoldTogetherIsRefused(t *testing.T) {
	text, err := json.Marshal(played(t))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := takes.Parse(text); err != nil {
		t.Fatal(err)
	}
	for name, change := range map[string][2]string{
		"another version":       {`"version":1`, `"version":2`},
		"a note nobody heard":   {`"heard":4,`, `"heard":400,`},
		"a mark for no note":    {`{"index":1,`, `{"index":100,`},
		"an unknown verdict":    {`"verdict":"wrong"`, `"verdict":"fine"`},
		"an extra nobody heard": {`"extra":[`, `"extra":[-1,`},
		"no tempo":              {`"report":{"tempo":80,`, `"report":{"tempo":0,`},
		"a note too few":        {`"written_midi":[`, `"written_midi":[60,`},
		"a spec of nothing":     {`"home":"`, `"home":7,"was":"`},
		"two lines of label":    {`"label":"`, `"label":"\n`},
		"a tempo without end":   {`"report":{"tempo":80,`, `"report":{"tempo":1e308,`},
		"a time without end":    {`"timing_ms":`, `"timing_ms":1e308,"was":`},
		"a pitch without end":   {`"midi":`, `"midi":1e308,"was":`},
		"too many extras":       {`"extra":[`, `"extra":[` + strings.Repeat("0,", 1000)},
		"half a file":           {`"advice":`, `"adv`},
	} {
		changed := strings.Replace(string(text), change[0], change[1], 1)
		if changed == string(text) {
			t.Errorf("%s: %q is not there to be changed", name, change[0])
		}
		var input *pitch.InputError
		if _, err := takes.Parse([]byte(changed)); !errors.As(err, &input) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// The first versions wrote these three only next to the report.
func TestATakeOfAnEarlierVersionIsRead(t *testing.T) {
	want := played(t)
	text, err := json.Marshal(want)
	if err != nil {
		t.Fatal(err)
	}
	added := strings.LastIndex(string(text), `,"marked_to_click":true,"behind_ms":0,"advice":`)
	if before := strings.Index(string(text), `"report":`); before < 0 || added < before {
		t.Fatalf("the report does not end with its new fields: %s", text)
	}
	got, err := takes.Parse([]byte(string(text[:added]) + "}}"))
	if err != nil {
		t.Fatal(err)
	}
	if r := got.Report; !r.Clicked || r.Summary != want.Report.Summary || !slices.Equal(r.Advice, want.Report.Advice) || !slices.Equal(r.Marks, want.Report.Marks) {
		t.Errorf("read %+v, want %+v", r, want.Report)
	}
}

func TestALineThatIsBuiltDifferentlyIsReported(t *testing.T) {
	take := played(t)
	take.Written[2]++
	if _, err := take.Exercise(); !errors.Is(err, takes.ErrOtherLine) {
		t.Errorf("got %v", err)
	}
}

func FuzzParse(f *testing.F) {
	text, err := json.Marshal(played(f))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(text)
	f.Add([]byte(`{"version":1,"report":{"tempo":1,"marks":[{"index":0,"verdict":"right"}]},"written_midi":[60]}`))
	f.Add([]byte(`{"version":1,"report":null}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		take, err := takes.Parse(text)
		if err != nil {
			return
		}
		again, err := json.Marshal(take)
		if err != nil {
			t.Fatalf("%s is read but not written: %v", text, err)
		}
		if _, err := takes.Parse(again); err != nil {
			t.Fatalf("%s is written as %s: %v", text, again, err)
		}
	})
}
