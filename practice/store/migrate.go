package store

import (
	"context"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"time"

	"github.com/pressly/goose/v3"
)

//go:embed migrations/*.sql
var migrations embed.FS

// attempts is how often bringing a file up to date is tried. Two programs that
// start at once may try to do it together; then one finds it done.
const attempts = 5

// migrate brings the database up to date. Versions only go forward. A copy of
// an older file is made next to it first.
func (s *SQLite) migrate(ctx context.Context) (err error) {
	for try := range attempts {
		if err = s.up(ctx); err == nil || errors.Is(err, errNewer) || ctx.Err() != nil {
			return err
		}
		select {
		case <-ctx.Done():
		case <-time.After(time.Duration(try+1) * 50 * time.Millisecond):
		}
	}
	return err
}

// errNewer says that a later heddle wrote the file.
var errNewer = errors.New("it was written by a newer heddle; install that one, or choose another folder with --data")

func (s *SQLite) up(ctx context.Context) error {
	folder, err := fs.Sub(migrations, "migrations")
	if err != nil {
		return err
	}
	steps, err := goose.NewProvider(goose.DialectSQLite3, s.db, folder)
	if err != nil {
		return err
	}
	var latest int64
	for _, source := range steps.ListSources() {
		latest = max(latest, source.Version)
	}
	version, err := s.version(ctx)
	switch {
	case err != nil:
		return err
	case version == latest:
		return nil
	case version > latest:
		return errNewer
	case version > 0:
		if err := s.copyBefore(ctx, version); err != nil {
			return err
		}
	}
	_, err = steps.Up(ctx)
	return err
}

// version returns the file's version, 0 for a new one. It does not go through
// the migrations, so that opening an up-to-date file costs one query.
func (s *SQLite) version(ctx context.Context) (version int64, err error) {
	var tables int
	if err := s.db.QueryRowContext(ctx, "SELECT count(*) FROM sqlite_master WHERE name = 'goose_db_version'").Scan(&tables); err != nil || tables == 0 {
		return 0, err
	}
	err = s.db.QueryRowContext(ctx, "SELECT coalesce(max(version_id), 0) FROM goose_db_version WHERE is_applied").Scan(&version)
	return version, err
}

// copyBefore copies the file as its version left it.
func (s *SQLite) copyBefore(ctx context.Context, version int64) error {
	name := fmt.Sprintf("%s.version%d", s.path, version)
	if _, err := os.Stat(name); err == nil {
		return nil // from an attempt that did not get further
	}
	draft := name + ".new"
	_ = os.Remove(draft)
	if _, err := s.db.ExecContext(ctx, "VACUUM INTO ?", draft); err != nil {
		return err
	}
	return os.Rename(draft, name)
}
