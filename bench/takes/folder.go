package takes

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"syscall"
	"time"
)

// The files of a take.
const (
	RecordingFile = "take.flac"
	ReportFile    = "take.json"
)

// Names beside those of takes: what is being written, and what is being
// deleted. A program that was killed leaves them behind.
const (
	draftPrefix   = ".new-"
	deletedPrefix = ".deleted-"
)

// abandoned is the age from which a draft's program must have ended: the longest
// take is ten minutes long and takes less to write.
const abandoned = 24 * time.Hour

// A Folder is the folder that takes are kept in.
type Folder struct{ dir string }

// In returns the folder of takes in a data folder. Neither has to exist.
func In(data string) *Folder { return &Folder{filepath.Join(data, "takes")} }

// Dir is where the folder is.
func (f *Folder) Dir() string { return f.dir }

// nameForm is the form of a take's name: the second in which it was taken, in UTC,
// and a number if it was not the first in that second.
var nameForm = regexp.MustCompile(`^[0-9]{8}-[0-9]{6}(-[0-9]{2})?$`)

const nameLayout = "20060102-150405"

// mostInASecond bounds the takes of one second.
const mostInASecond = 99

// nameAt is the name of the nth take of a second, from 1.
func nameAt(taken time.Time, n int) string {
	name := taken.UTC().Format(nameLayout)
	if n > 1 {
		name += fmt.Sprintf("-%02d", n)
	}
	return name
}

// A NotKeptError reports that the disk refused a write.
type NotKeptError struct {
	Dir string
	Err error // of the system: no space, no permission
}

// Error names the folder and the system's reason in one line.
func (e *NotKeptError) Error() string {
	return fmt.Sprintf("takes can't be kept in %s: %v", e.Dir, rootOf(e.Err))
}

// Unwrap returns the system's error.
func (e *NotKeptError) Unwrap() error { return e.Err }

// rootOf returns the system's own error, without the names of temporary files.
func rootOf(err error) error {
	var system syscall.Errno
	if errors.As(err, &system) {
		return system
	}
	return err
}

func (f *Folder) notKept(err error) error { return &NotKeptError{f.dir, err} }

// Names returns up to most names of takes older than before (of all takes, if it
// is empty), newest first. More reports whether there are older ones.
func (f *Folder) Names(before string, most int) (names []string, more bool, err error) {
	entries, err := os.ReadDir(f.dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, false, nil
	}
	if err != nil {
		return nil, false, err
	}
	for _, entry := range slices.Backward(entries) { // ReadDir sorts by name
		name := entry.Name()
		if !entry.IsDir() || !nameForm.MatchString(name) || before != "" && name >= before {
			continue
		}
		if len(names) == most {
			return names, true, nil
		}
		names = append(names, name)
	}
	return names, false, nil
}

// file is the path of one of a take's files; an unknown name is
// [fs.ErrNotExist].
func (f *Folder) file(name, file string) (string, error) {
	if !nameForm.MatchString(name) {
		return "", fs.ErrNotExist
	}
	return filepath.Join(f.dir, name, file), nil
}

// Has reports whether there is a take of that name.
func (f *Folder) Has(name string) bool {
	path, err := f.file(name, "")
	if err != nil {
		return false
	}
	about, err := os.Stat(path)
	return err == nil && about.IsDir()
}

// OpenFile opens RecordingFile or ReportFile of a take.
func (f *Folder) OpenFile(name, file string) (*os.File, error) {
	if file != RecordingFile && file != ReportFile {
		return nil, fs.ErrNotExist
	}
	path, err := f.file(name, file)
	if err != nil {
		return nil, err
	}
	about, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	if !about.Mode().IsRegular() { // opening a pipe could wait for ever
		return nil, fmt.Errorf("%s is not a regular file", file)
	}
	return os.Open(path)
}

// Delete deletes a take for good. It leaves the list at once, even if its files
// can't all be removed.
func (f *Folder) Delete(name string) error {
	from, err := f.file(name, "")
	if err != nil {
		return err
	}
	away, err := os.MkdirTemp(f.dir, deletedPrefix)
	if err == nil {
		err = os.Rename(from, filepath.Join(away, name))
	}
	if away != "" {
		err = errors.Join(err, os.RemoveAll(away))
	}
	if err != nil {
		return err
	}
	return syncDir(f.dir)
}

// Sweep removes what programs left behind when they were killed while writing or
// deleting, if it is a day old. What can't be removed does no harm.
func (f *Folder) Sweep(now time.Time) {
	entries, err := os.ReadDir(f.dir)
	if err != nil {
		return
	}
	for _, entry := range entries {
		left := strings.HasPrefix(entry.Name(), draftPrefix) || strings.HasPrefix(entry.Name(), deletedPrefix)
		if about, err := entry.Info(); left && err == nil && now.Sub(about.ModTime()) > abandoned {
			_ = os.RemoveAll(filepath.Join(f.dir, entry.Name()))
		}
	}
}

// syncDir makes sure that a folder's entries are on the disk. Windows has no call
// for that and needs none.
func syncDir(dir string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	return errors.Join(d.Sync(), d.Close())
}
