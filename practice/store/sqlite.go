package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"time"

	"modernc.org/sqlite" // registers the driver, in pure Go
	sqlite3 "modernc.org/sqlite/lib"
)

// FileName is the database's name in the data folder.
const FileName = "practice.db"

// A SQLite is a database file in a data folder. Several processes may have it
// open at once: it is in WAL mode, a writer waits for another for up to ten
// seconds, and every commit is synced.
type SQLite struct {
	db   *sql.DB
	dir  string
	path string

	// SetAside names the damaged file that was found and set aside when the
	// folder was opened; empty where there was none.
	SetAside string
}

// Open opens the database of a data folder, which is made where there is none.
// It checks the file, sets a damaged one aside under a name with the time in it,
// and brings an older version up to date after copying it.
func Open(ctx context.Context, dir string, now time.Time) (*SQLite, error) {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, fmt.Errorf("the practice log can't be opened: %w", err)
	}
	s := &SQLite{dir: dir, path: filepath.Join(dir, FileName)}
	err := s.open(ctx)
	for try := 1; busy(err) && try < openings && ctx.Err() == nil; try++ {
		time.Sleep(time.Duration(try) * 10 * time.Millisecond)
		err = s.open(ctx)
	}
	if damaged(err) {
		if s.SetAside, err = s.setAside(now); err == nil {
			err = s.open(ctx)
		}
	}
	if err != nil {
		return nil, fmt.Errorf("the practice log in %s can't be opened: %w", dir, plainly(err))
	}
	return s, nil
}

// openings is how often opening is tried while another program makes the file:
// turning WAL mode on does not wait for the other as a write does.
const openings = 30

func busy(err error) bool {
	var fault *sqlite.Error
	return errors.As(err, &fault) && fault.Code()&0xff == sqlite3.SQLITE_BUSY
}

// Close closes the database.
func (s *SQLite) Close() error { return s.db.Close() }

// Of returns the store of one owner.
func (s *SQLite) Of(owner string) Store { return &owned{s, owner} }

// connections is how many there are at most: readers beside the one writer.
const connections = 4

func (s *SQLite) open(ctx context.Context) error {
	if about, err := os.Stat(s.path); err == nil && about.Mode().IsRegular() && about.Size() > 0 {
		file, err := os.OpenFile(s.path, os.O_RDWR, 0)
		if err != nil {
			return err // SQLite would say "unable to open database file"
		}
		file.Close()
	}
	query := url.Values{"_txlock": {"immediate"}, "_pragma": {"busy_timeout(10000)", "journal_mode(WAL)", "synchronous(FULL)", "foreign_keys(1)", "trusted_schema(0)"}}
	db, err := sql.Open("sqlite", "file:"+(&url.URL{Path: filepath.ToSlash(s.path)}).EscapedPath()+"?"+query.Encode())
	if err != nil {
		return err
	}
	db.SetMaxOpenConns(connections)
	db.SetMaxIdleConns(connections)
	s.db = db
	if err = s.check(ctx); err == nil {
		err = s.migrate(ctx)
	}
	if err != nil {
		db.Close()
	}
	return err
}

// errDamaged says that the file's content does not hold together.
var errDamaged = errors.New("the file is damaged")

// check looks for damage.
func (s *SQLite) check(ctx context.Context) error {
	var verdict string
	if err := s.db.QueryRowContext(ctx, "PRAGMA quick_check(1)").Scan(&verdict); err != nil {
		return err
	}
	if verdict != "ok" {
		return fmt.Errorf("%w: %s", errDamaged, verdict)
	}
	return nil
}

func damaged(err error) bool {
	var fault *sqlite.Error
	if errors.As(err, &fault) {
		code := fault.Code() & 0xff
		return code == sqlite3.SQLITE_CORRUPT || code == sqlite3.SQLITE_NOTADB
	}
	return errors.Is(err, errDamaged)
}

// setAside renames the database and what belongs to it. Nothing is overwritten.
func (s *SQLite) setAside(now time.Time) (string, error) {
	base := filepath.Join(s.dir, "practice-damaged-"+now.UTC().Format("20060102-150405"))
	to := base + ".db"
	for n := 2; ; n++ {
		if _, err := os.Lstat(to); errors.Is(err, fs.ErrNotExist) {
			break
		}
		to = fmt.Sprintf("%s-%d.db", base, n)
	}
	if err := os.Rename(s.path, to); err != nil {
		return "", err
	}
	for _, end := range []string{"-wal", "-shm"} {
		if err := os.Rename(s.path+end, to+end); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return "", err
		}
	}
	return to, nil
}

// plainly words the driver's errors for a player.
func plainly(err error) error {
	var fault *sqlite.Error
	if !errors.As(err, &fault) {
		return err
	}
	switch fault.Code() & 0xff {
	case sqlite3.SQLITE_FULL:
		return errors.New("the disk is full")
	case sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_PERM:
		return errors.New("the folder or the file can't be written to")
	case sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED:
		return errors.New("another program has been writing to it for more than ten seconds")
	case sqlite3.SQLITE_IOERR:
		return errors.New("the disk does not take what is written: it may be full")
	}
	return errors.New(strings.TrimSpace(fault.Error()))
}

// write runs do in a transaction that is on the disk when write returns.
func (s *SQLite) write(ctx context.Context, do func(*sql.Tx) error) error {
	tx, err := s.db.BeginTx(ctx, nil)
	if err != nil {
		return s.failed(err)
	}
	if err := do(tx); err != nil {
		_ = tx.Rollback() // on a full disk the connection has rolled back by itself
		return s.failed(err)
	}
	return s.failed(tx.Commit())
}

// failed says that nothing was saved, where the disk is at fault.
func (s *SQLite) failed(err error) error {
	var fault *sqlite.Error
	if errors.As(err, &fault) {
		return fmt.Errorf("nothing was saved in %s: %w", s.dir, plainly(err))
	}
	return err
}
