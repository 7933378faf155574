package practice

import (
	"crypto/sha256"
	"encoding/csv"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"

	"heddle/pitch"
)

// A Refused row of an imported log, and why it was not imported.
type Refused struct {
	Row int    `json:"row"` // counted from 1, the header included
	Why string `json:"why"`
}

// mostRows bounds an imported log.
const mostRows = 200_000

// ReadLog reads a log kept elsewhere: a table with a header that names its
// columns, in any order. date, title, minutes and tempo are needed; went, key
// and fret may be there; others are passed over. A row without went counts as
// clean: who writes a tempo down has played it. Titles are matched with those of
// items, in either case. Dates without a time are noon in the zone of now.
//
// Rows that can't be imported are returned with a reason. The same row gives
// the same UID again, so that a log can be imported twice without harm.
func ReadLog(r io.Reader, items []Item, now time.Time) (runs []Run, refused []Refused, err error) {
	table := csv.NewReader(r)
	table.FieldsPerRecord, table.TrimLeadingSpace = -1, true
	header, err := table.Read()
	if err != nil {
		return nil, nil, &pitch.InputError{What: "log", Value: "", Want: "a CSV file whose first row names the columns date, title, minutes and tempo"}
	}
	columns := make(map[string]int)
	for i, name := range header {
		columns[strings.ToLower(strings.TrimSpace(strings.TrimPrefix(name, "\ufeff")))] = i
	}
	for _, name := range []string{"date", "title", "minutes", "tempo"} {
		if _, ok := columns[name]; !ok {
			return nil, nil, &pitch.InputError{What: "log", Value: strings.Join(header, ","), Want: "the columns date, title, minutes and tempo, and there is no " + name}
		}
	}
	seen := make(map[string]int)
	for row := 2; ; row++ {
		fields, err := table.Read()
		switch {
		case errors.Is(err, io.EOF):
			return runs, refused, nil
		case row > mostRows:
			return nil, nil, &pitch.InputError{What: "log", Value: fmt.Sprintf("more than %d rows", mostRows), Want: "fewer; split the file"}
		case err != nil:
			refused = append(refused, Refused{row, "not a row of a CSV file"})
			continue
		}
		run, err := readRow(func(name string) string {
			if i, ok := columns[name]; ok && i < len(fields) {
				return strings.TrimSpace(fields[i])
			}
			return ""
		}, items, now)
		if err != nil {
			refused = append(refused, Refused{row, err.Error()})
			continue
		}
		same := strings.Join(fields, "\x00")
		seen[same]++
		sum := sha256.Sum256([]byte(fmt.Sprintf("%s\x00%d", same, seen[same])))
		run.UID = "csv-" + hex.EncodeToString(sum[:12])
		runs = append(runs, run)
	}
}

// readRow reads one row.
func readRow(field func(name string) string, items []Item, now time.Time) (r Run, err error) {
	i := slices.IndexFunc(items, func(it Item) bool { return strings.EqualFold(it.Title, field("title")) })
	if i < 0 {
		return r, &pitch.InputError{What: "title", Value: field("title"), Want: "the title of an item on the shelf"}
	}
	it := items[i]
	if r.At, err = readDate(field("date"), now); err != nil {
		return r, err
	}
	minutes, err := strconv.ParseFloat(field("minutes"), 64)
	if err != nil {
		return r, &pitch.InputError{What: "minutes", Value: field("minutes"), Want: "a number"}
	}
	if r.Tempo, err = strconv.ParseFloat(field("tempo"), 64); err != nil {
		return r, &pitch.InputError{What: "tempo", Value: field("tempo"), Want: "a number"}
	}
	r.Seconds, r.Went = minutes*60, Clean
	if went := field("went"); went != "" {
		if r.Went, err = ParseWent(strings.ToLower(went)); err != nil {
			return r, err
		}
	}
	if field("struck") == "true" {
		r.Struck = true
	}
	if r.Unit, err = UnitOf(it, field("key"), field("fret")); err != nil {
		return r, err
	}
	return r, r.Check(now)
}

// UnitOf returns the unit of an item in a key at a fret; empty values are the
// item's own.
func UnitOf(it Item, key, fret string) (u Unit, err error) {
	units, err := Units(it.Spec, One)
	if err != nil {
		return u, err
	}
	u = units[0]
	u.Item = it.ID
	own := u
	if key != "" {
		name, err := pitch.ParseName(key)
		if err != nil {
			return u, &pitch.InputError{What: "key", Value: key, Want: "a note name, such as C, F# or Ab"}
		}
		keys, err := it.Spec.Keys() // one name for each key, whatever was typed
		if err != nil {
			return u, err
		}
		u.Key = keys[name.Class()].String()
		u.Fret = along(own.Fret, (name.Class()-own.class()+12)%12, longestNeck)
	}
	if fret != "" {
		if u.Fret, err = strconv.Atoi(fret); err != nil {
			return u, &pitch.InputError{What: "fret", Value: fret, Want: "a whole number"}
		}
	}
	if u != own && !playable(it.Spec, u) {
		return u, &pitch.InputError{What: "fret", Value: strconv.Itoa(u.Fret), Want: "a place where " + it.Title + " can be played in " + u.Key}
	}
	return u, nil
}

// longestNeck is how many frets a neck has at most.
const longestNeck = 22

// dateLayouts are the forms of a date that are read.
var dateLayouts = []string{time.RFC3339, "2006-01-02 15:04", "2006-01-02T15:04", DayLayout}

func readDate(text string, now time.Time) (time.Time, error) {
	for _, layout := range dateLayouts {
		at, err := time.ParseInLocation(layout, text, now.Location())
		if err != nil {
			continue
		}
		if layout == DayLayout {
			at = at.Add(12 * time.Hour)
			if at.After(now) && Day(at) == Day(now) {
				at = now
			}
		}
		return at, nil
	}
	return time.Time{}, &pitch.InputError{What: "date", Value: text, Want: "2026-11-26, 2026-11-26 19:30 or 2026-11-26T19:30:00+01:00"}
}
