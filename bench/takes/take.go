package takes

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"heddle/exercise"
	"heddle/hear"
	"heddle/pitch"
)

// version is the version of take.json's format. Fields are only ever added.
const version = 1

// mostReportBytes bounds the JSON that is read: ten minutes of the densest
// playing take under two megabytes.
const mostReportBytes = 8 << 20

// A Take is what is known of a recording: what was to be played, and what was
// heard.
type Take struct {
	Taken     time.Time     // with the zone it was taken in
	Spec      exercise.Spec // canonical
	Sentence  string
	Label     string       // what the player calls it, up to MostLabel characters; may be empty
	Written   []int        // the MIDI keys of the exercise's notes, to be compared with the line that a later version builds
	FirstBarS *float64     // where in the recording the click's first bar line fell; nil where there was no click
	Report    *hear.Report // the marks
	Rate      int          // of the recording, in samples a second
	LengthS   float64      // of the recording
}

// MostLabel is how many characters a take's label may have: a line of a list.
const MostLabel = 80

// CheckLabel refuses a label that is too long or not plain text.
func CheckLabel(label string) error {
	broken := func(r rune) bool { return r == utf8.RuneError || unicode.IsControl(r) }
	if utf8.RuneCountInString(label) > MostLabel || strings.ContainsFunc(label, broken) {
		return &pitch.InputError{What: "label", Value: label, Want: "plain text of at most 80 characters"}
	}
	return nil
}

// document is take.json.
type document struct {
	Version   int           `json:"version"`
	Taken     time.Time     `json:"taken"`
	Label     string        `json:"label"`
	Sentence  string        `json:"sentence"`
	Spec      exercise.Spec `json:"spec"`
	Written   []int         `json:"written_midi"`
	Recording recording     `json:"recording"`
	Clicked   bool          `json:"marked_to_click"`
	BehindMS  float64       `json:"behind_ms"`
	Advice    []string      `json:"advice"`
	Report    *hear.Report  `json:"report"` // as `heddle mark --json` prints it
}

type recording struct {
	File      string   `json:"file"`
	Rate      int      `json:"rate"`
	LengthS   float64  `json:"length_s"`
	FirstBarS *float64 `json:"first_bar_s"`
}

// MarshalJSON writes the form of take.json.
func (t *Take) MarshalJSON() ([]byte, error) {
	return json.Marshal(document{
		Version: version, Taken: t.Taken, Label: t.Label, Sentence: t.Sentence, Spec: t.Spec, Written: t.Written,
		Recording: recording{RecordingFile, t.Rate, t.LengthS, t.FirstBarS},
		Clicked:   t.Report.Clicked, BehindMS: t.Report.BehindMS, Advice: t.Report.Advice, Report: t.Report,
	})
}

// Open reads a take.
func (f *Folder) Open(name string) (*Take, error) {
	file, err := f.OpenFile(name, ReportFile)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	text, err := io.ReadAll(io.LimitReader(file, mostReportBytes+1))
	if err != nil {
		return nil, err
	}
	return Parse(text)
}

// Parse reads take.json. Content that contradicts itself is a
// [*pitch.InputError].
func Parse(text []byte) (*Take, error) {
	if len(text) > mostReportBytes {
		return nil, notTake("more than 8 MiB")
	}
	var d document
	if err := json.Unmarshal(text, &d); err != nil {
		return nil, notTake(err.Error())
	}
	if d.Version != version {
		return nil, notTake(fmt.Sprintf("version %d", d.Version))
	}
	if d.Report == nil {
		return nil, notTake("no report")
	}
	t := &Take{
		Taken: d.Taken, Spec: d.Spec, Sentence: d.Sentence, Label: d.Label, Written: d.Written, FirstBarS: d.Recording.FirstBarS,
		Report: d.Report, Rate: d.Recording.Rate, LengthS: d.Recording.LengthS,
	}
	// The first versions wrote these next to the report, not in it.
	t.Report.Clicked, t.Report.BehindMS, t.Report.Advice = d.Clicked, d.BehindMS, d.Advice
	return t, t.check()
}

func notTake(value string) error {
	return &pitch.InputError{What: ReportFile, Value: value, Want: "a report in version 1 of the format"}
}

// check verifies what the pages that show a take rely on.
func (t *Take) check() error {
	r := t.Report
	if len(r.Marks) != len(t.Written) {
		return notTake(fmt.Sprintf("%d marks on %d notes", len(r.Marks), len(t.Written)))
	}
	if err := CheckLabel(t.Label); err != nil {
		return err
	}
	if err := t.checkRanges(); err != nil {
		return err
	}
	known := func(i int) bool { return i >= 0 && i < len(r.Heard) }
	for i, m := range r.Marks {
		switch {
		case m.Index != i:
			return notTake(fmt.Sprintf("mark %d on note %d", i, m.Index))
		case m.Verdict == hear.Missed:
		case m.Verdict != hear.Right && m.Verdict != hear.Wrong:
			return notTake(fmt.Sprintf("verdict %q", m.Verdict))
		case !known(m.Heard):
			return notTake(fmt.Sprintf("heard note %d of %d", m.Heard, len(r.Heard)))
		}
	}
	for _, i := range slices.Concat(r.Extra, r.Retried, r.Before) {
		if !known(i) {
			return notTake(fmt.Sprintf("heard note %d of %d", i, len(r.Heard)))
		}
	}
	return nil
}

// ErrOtherLine reports that this version builds a different line from a spec
// than the one that a take was marked against.
var ErrOtherLine = errors.New("this version of heddle builds a different line from this exercise, so the marks no longer fit it")

// Exercise builds the exercise that was to be played, or returns ErrOtherLine.
func (t *Take) Exercise() (*exercise.Exercise, error) {
	ex, err := exercise.Build(t.Spec)
	if err != nil {
		return nil, err
	}
	if !slices.Equal(Keys(ex), t.Written) {
		return nil, ErrOtherLine
	}
	return ex, nil
}

// Keys are the MIDI keys of an exercise's notes.
func Keys(ex *exercise.Exercise) []int {
	keys := make([]int, len(ex.Notes))
	for i, n := range ex.Notes {
		keys[i] = n.Pitch.MIDI()
	}
	return keys
}
