package practice

import (
	"bytes"
	"encoding/json"
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"heddle/exercise"
	"heddle/pitch"
)

func sentDemo() ([]Item, []Run) {
	items := []Item{{ID: 4, UID: "a", Kind: Line, Title: "Thursday's vamp", Tags: []string{"vamp"}, Made: thursday.UTC(), Scope: One, Target: 100,
		Spec: exercise.Spec{Home: "G minor pentatonic", Superimpose: []string{"semitone up"}, Fret: 10, Tempo: 100}}}
	runs := []Run{
		{UID: "r1", Unit: Unit{4, "G", 10}, At: thursday.UTC(), Seconds: 90, Tempo: 60, Went: Clean, Marks: &Marks{Right: 3, Notes: []NoteMark{{Right: true}}}},
		{UID: "r2", Unit: Unit{5, "G", 10}, At: thursday.UTC(), Seconds: 90, Tempo: 60, Went: Clean}, // of another item
	}
	return items, runs
}

func TestWhatIsSentArrives(t *testing.T) {
	items, runs := sentDemo()
	text, err := json.Marshal(Send(items, runs))
	if err != nil {
		t.Fatal(err)
	}
	got, err := ReadSent(bytes.NewReader(text), thursday)
	if err != nil {
		t.Fatal(err)
	}
	item := got.Items[0].Item()
	item.ID = 4
	if diff := cmp.Diff(items[0], item); diff != "" {
		t.Error(diff)
	}
	if len(got.Runs) != 1 {
		t.Fatalf("%d runs", len(got.Runs))
	}
	if diff := cmp.Diff(runs[0], got.Runs[0].Run(4)); diff != "" {
		t.Error(diff)
	}
	for _, spoiled := range []string{"", "[]", `{"heddle":"practice","version":2}`, strings.Replace(string(text), `"tempo":60`, `"tempo":1`, 1), strings.Replace(string(text), `"item":"a"`, `"item":"b"`, 1),
		strings.Replace(string(text), "Thursday", "Thurs\\u0007day", 1)} {
		var input *pitch.InputError
		if _, err := ReadSent(strings.NewReader(spoiled), thursday); !errors.As(err, &input) {
			t.Errorf("%.60s: %v", spoiled, err)
		}
	}
}

// A log that was sent as CSV can be read again.
func TestASentLogCanBeImported(t *testing.T) {
	items, runs := sentDemo()
	var table bytes.Buffer
	if err := Send(items, runs).WriteCSV(&table); err != nil {
		t.Fatal(err)
	}
	got, refused, err := ReadLog(&table, items, thursday)
	if err != nil || len(refused) > 0 || len(got) != 1 {
		t.Fatalf("%+v %+v %v", got, refused, err)
	}
	if r := got[0]; r.Unit != runs[0].Unit || !r.At.Equal(runs[0].At) || r.Seconds != 90 || r.Went != Clean {
		t.Errorf("%+v", r)
	}
}

func TestALogKeptElsewhereIsReadRowByRow(t *testing.T) {
	items, _ := sentDemo()
	log := "\ufeffTitle,Date,Tempo,Minutes,Went,Key,Remark\n" +
		"thursday's VAMP,2026-11-20,72,5,,,x\n" +
		"Thursday's vamp,2026-11-21 08:15,72,5,shaky,A,\n" +
		"Thursday's vamp,2026-11-20,72,5,,,x\n" +
		"Unknown,2026-11-20,72,5,,,\n" +
		"Thursday's vamp,20.11.2026,72,5,,,\n" +
		"Thursday's vamp,2026-11-20,fast,5,,,\n" +
		"Thursday's vamp,2030-01-01,72,5,,,\n" +
		"Thursday's vamp,2026-11-20,72,0,,,\n" +
		"Thursday's vamp,2026-11-20,72,5,fine,,\n" +
		"\"broken,2026\n"
	runs, refused, err := ReadLog(strings.NewReader(log), items, thursday)
	if err != nil || len(runs) != 3 || len(refused) != 7 {
		t.Fatalf("%d runs, %+v, %v", len(runs), refused, err)
	}
	if r := runs[0]; r.Went != Clean || !r.At.Equal(time.Date(2026, 11, 20, 12, 0, 0, 0, thursday.Location())) || r.Unit.Key != "G" {
		t.Errorf("%+v", r)
	}
	if r := runs[1]; r.Went != Shaky || r.Unit != (Unit{4, "A", 12}) {
		t.Errorf("%+v", r)
	}
	if runs[0].UID == runs[2].UID {
		t.Error("two equal rows are one run")
	}
	again, _, _ := ReadLog(strings.NewReader(log), items, thursday)
	if again[0].UID != runs[0].UID || again[2].UID != runs[2].UID {
		t.Error("the same rows have other names the second time")
	}
	for i, want := range []int{5, 6, 7, 8, 9, 10, 11} {
		if refused[i].Row != want || refused[i].Why == "" {
			t.Errorf("%+v, want row %d", refused[i], want)
		}
	}
	if _, _, err := ReadLog(strings.NewReader("date,title\n"), items, thursday); err == nil {
		t.Error("read without minutes")
	}
}
