package practice

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"strconv"
	"time"

	"heddle/exercise"
	"heddle/pitch"
)

// Sent is what one data folder sends to another: items, and runs of them. Runs
// name their items by UID.
type Sent struct {
	Heddle  string     `json:"heddle"` // what the file is: sentWord
	Version int        `json:"version"`
	Items   []SentItem `json:"items"`
	Runs    []SentRun  `json:"runs"`
}

// A SentItem is an item on its way.
type SentItem struct {
	UID    string        `json:"uid"`
	Kind   Kind          `json:"kind"`
	Title  string        `json:"title"`
	Spec   exercise.Spec `json:"spec"`
	Tags   []string      `json:"tags"`
	Note   string        `json:"note"`
	Made   time.Time     `json:"made"`
	From   string        `json:"from"`
	Scope  Scope         `json:"scope"`
	Target float64       `json:"target"`
}

// A SentRun is a run on its way.
type SentRun struct {
	UID     string    `json:"uid"`
	Item    string    `json:"item"`
	Key     string    `json:"key"`
	Fret    int       `json:"fret"`
	At      time.Time `json:"at"`
	Minutes float64   `json:"minutes"`
	Tempo   float64   `json:"tempo"`
	Went    Went      `json:"went"`
	Take    string    `json:"take"`
	Struck  bool      `json:"struck"`
	Marks   *Marks    `json:"marks"`
}

// What a file says it is, and the version of its form. Fields are only added.
const (
	sentWord    = "practice"
	sentVersion = 1
)

// Send makes a file of items and of those of the runs that belong to them.
func Send(items []Item, runs []Run) *Sent {
	s := &Sent{Heddle: sentWord, Version: sentVersion, Items: []SentItem{}, Runs: []SentRun{}}
	uids := make(map[int64]string)
	for _, it := range items {
		uids[it.ID] = it.UID
		s.Items = append(s.Items, SentItem{it.UID, it.Kind, it.Title, it.Spec, append([]string{}, it.Tags...), it.Note, it.Made, it.From, it.Scope, it.Target})
	}
	for _, r := range runs {
		if uid := uids[r.Unit.Item]; uid != "" {
			s.Runs = append(s.Runs, SentRun{r.UID, uid, r.Unit.Key, r.Unit.Fret, r.At, r.Seconds / 60, r.Tempo, r.Went, r.Take, r.Struck, r.Marks})
		}
	}
	return s
}

// ReadSent reads what Send made. Everything in it is checked.
func ReadSent(r io.Reader, now time.Time) (*Sent, error) {
	var s Sent
	if err := json.NewDecoder(r).Decode(&s); err != nil {
		return nil, notSent(err.Error())
	}
	if s.Heddle != sentWord || s.Version != sentVersion {
		return nil, notSent(fmt.Sprintf("%s, version %d", s.Heddle, s.Version))
	}
	known := make(map[string]bool)
	for i, it := range s.Items {
		item := it.Item()
		if err := item.Check(); err != nil {
			return nil, fmt.Errorf("item %d: %w", i+1, err)
		}
		if it.UID == "" {
			return nil, notSent(fmt.Sprintf("item %d without a uid", i+1))
		}
		known[it.UID] = true
	}
	for i, r := range s.Runs {
		run := r.Run(0)
		if err := run.Check(now); err != nil {
			return nil, fmt.Errorf("run %d: %w", i+1, err)
		}
		if _, err := pitch.ParseName(r.Key); err != nil || r.UID == "" || !known[r.Item] || r.Fret < 0 {
			return nil, notSent(fmt.Sprintf("run %d without its item, key or uid", i+1))
		}
	}
	return &s, nil
}

func notSent(value string) error {
	return &pitch.InputError{What: "file", Value: value, Want: "a file that shelf send or log send wrote, version 1"}
}

// Item returns the item as it is put on a shelf.
func (it SentItem) Item() Item {
	return Item{UID: it.UID, Kind: it.Kind, Title: it.Title, Spec: it.Spec, Tags: it.Tags, Note: it.Note, Made: it.Made, From: it.From, Scope: it.Scope, Target: it.Target}
}

// Run returns the run of an item that is on the shelf under an id.
func (r SentRun) Run(item int64) Run {
	return Run{UID: r.UID, Unit: Unit{Item: item, Key: r.Key, Fret: r.Fret}, At: r.At, Seconds: r.Minutes * 60, Tempo: r.Tempo, Went: r.Went, Take: r.Take, Struck: r.Struck, Marks: r.Marks}
}

// WriteCSV writes the runs as a table that any spreadsheet reads, and that
// ReadLog reads.
func (s *Sent) WriteCSV(w io.Writer) error {
	titles := make(map[string]string)
	for _, it := range s.Items {
		titles[it.UID] = it.Title
	}
	rows := [][]string{{"date", "title", "minutes", "tempo", "went", "key", "fret", "right", "wrong", "missed", "take", "struck"}}
	for _, r := range s.Runs {
		row := []string{r.At.Format(time.RFC3339), titles[r.Item], strconv.FormatFloat(r.Minutes, 'f', 2, 64), strconv.FormatFloat(r.Tempo, 'f', -1, 64),
			r.Went.String(), r.Key, strconv.Itoa(r.Fret), "", "", "", r.Take, strconv.FormatBool(r.Struck)}
		if r.Marks != nil {
			row[7], row[8], row[9] = strconv.Itoa(r.Marks.Right), strconv.Itoa(r.Marks.Wrong), strconv.Itoa(r.Marks.Missed)
		}
		rows = append(rows, row)
	}
	c := csv.NewWriter(w)
	return c.WriteAll(rows)
}
