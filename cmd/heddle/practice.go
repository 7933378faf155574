package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"runtime"
	"strconv"
	"time"

	"heddle/pitch"
	"heddle/practice"
	"heddle/practice/store"
)

// dataFlag says where the shelf and the log are.
type dataFlag struct {
	Data string `help:"The folder for what you keep. Default: heddle in XDG_DATA_HOME, or in your system's folder for application data." placeholder:"DIR" type:"path" group:"output"`
}

// folder returns the data folder.
func (f dataFlag) folder() (string, error) {
	dir := dataFolder(f.Data, os.Getenv, runtime.GOOS)
	if dir == "" {
		return "", &pitch.InputError{What: "data", Value: "", Want: "a folder, because the system names none for application data"}
	}
	return dir, nil
}

// with opens the store for as long as do takes.
func (f dataFlag) with(ctx context.Context, s streams, now clock, do func(*store.SQLite, store.Store) error) error {
	dir, err := f.folder()
	if err != nil {
		return err
	}
	db, err := store.Open(ctx, dir, now())
	if err != nil {
		return err
	}
	if db.SetAside != "" {
		fmt.Fprintf(s.err, "heddle: the practice log was damaged; it was set aside as %s, and a new one was begun\n", db.SetAside)
	}
	return errors.Join(do(db, db.Of(store.Player)), db.Close())
}

// none says in place of ErrNone what is not there.
func none(err error, what string, id int64) error {
	if errors.Is(err, store.ErrNone) {
		return &pitch.InputError{What: what, Value: strconv.FormatInt(id, 10), Want: "the number of one that is there"}
	}
	return err
}

// readDay reads a day in the player's zone; empty is today.
func readDay(text string, now time.Time) (time.Time, error) {
	if text == "" {
		return now, nil
	}
	day, err := time.ParseInLocation(practice.DayLayout, text, now.Location())
	if err != nil {
		return now, &pitch.InputError{What: "day", Value: text, Want: "a day such as 2026-11-26"}
	}
	if practice.Day(day) == practice.Day(now) {
		return now, nil
	}
	return day.Add(12 * time.Hour), nil
}

const cautions = "Warm up, raise tempo and minutes gradually, and rest ten minutes in each hour. Stop at pain or numbness, and see a clinician or a teacher. " +
	"Keep headphones moderate: NIOSH's limit at work is 85 dBA for 8 hours, half the time for each 3 dB more. These are general cautions, not medical advice."

const modelNote = "When something is due again comes from a memory model (FSRS) that was fitted on flash cards, not on hands."
