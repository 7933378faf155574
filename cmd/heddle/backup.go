package main

import (
	"context"
	"fmt"
	"io"

	"heddle/deliver"
	"heddle/practice/store"
)

// backupCommand writes a backup.
type backupCommand struct {
	File     string `arg:"" help:"The file to write, such as heddle.zip."`
	dataFlag `embed:""`
}

// Help comes before the flags.
func (backupCommand) Help() string {
	return `Writes shelf, log, answers and kept takes to one zip file. It may be written while
heddle is open elsewhere.`
}

// Run writes it.
func (c *backupCommand) Run(ctx context.Context, s streams, now clock) error {
	return c.with(ctx, s, now, func(db *store.SQLite, _ store.Store) error {
		if err := deliver.WriteFile(ctx, c.File, func(w io.Writer) error { return db.Backup(ctx, w) }); err != nil {
			return err
		}
		fmt.Fprintln(s.err, "wrote", c.File)
		return nil
	})
}

// restoreCommand restores a backup.
type restoreCommand struct {
	File     string `arg:"" help:"A file that heddle backup wrote."`
	dataFlag `embed:""`
}

// Help comes before the flags.
func (restoreCommand) Help() string {
	return `Restores into a data folder that holds nothing of heddle's yet. Nothing is ever
overwritten: name another folder with --data where there is something.`
}

// Run restores it.
func (c *restoreCommand) Run(ctx context.Context, s streams, now clock) error {
	dir, err := c.folder()
	if err != nil {
		return err
	}
	if err := store.Restore(ctx, c.File, dir, now()); err != nil {
		return err
	}
	fmt.Fprintln(s.err, "restored into", dir)
	return nil
}
