package deliver

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"syscall"
)

// WriteFile writes a file so that it appears whole or not at all: write fills
// a draft in the same folder, which is synced and renamed. When the context
// ends, the draft goes at once, whatever write does.
//
// A new file has the mode that the umask allows. A file that was there keeps
// its mode and owner, and is refused where it may not be written to. Behind a
// symbolic link, the target is replaced. A device, a pipe and whatever else is
// not a regular file is written to as it is. Errors name the file.
func WriteFile(ctx context.Context, name string, write func(io.Writer) error) error {
	err := writeFile(ctx, name, write)
	if err == nil {
		return nil
	}
	if ctx.Err() != nil {
		return ctx.Err()
	}
	var path *fs.PathError
	var link *os.LinkError
	switch { // the system's own error names the draft
	case errors.As(err, &path):
		err = path.Err
	case errors.As(err, &link):
		err = link.Err
	}
	return fmt.Errorf("%s: %w", name, err)
}

func writeFile(ctx context.Context, name string, write func(io.Writer) error) error {
	name, err := behindLinks(name)
	if err != nil {
		return err
	}
	was, err := os.Stat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		was = nil
	case err != nil:
		return err
	case was.IsDir():
		return syscall.EISDIR
	case !was.Mode().IsRegular():
		file, err := os.OpenFile(name, os.O_WRONLY, 0)
		if err != nil {
			return err
		}
		return errors.Join(fill(file, write), file.Close())
	default:
		if err := writable(name, was); err != nil {
			return err
		}
	}
	return replace(ctx, name, was, write)
}

// mostLinks is how many symbolic links are followed, as many as Linux does.
const mostLinks = 40

// behindLinks follows symbolic links to the name of a file that may not exist
// yet. What lies behind a link in a file system of the kernel is no name, such
// as "pipe:[4711]": then the link itself is what can be opened.
func behindLinks(name string) (string, error) {
	for range mostLinks {
		target, err := os.Readlink(name)
		if err != nil {
			return name, nil
		}
		if !filepath.IsAbs(target) {
			target = filepath.Join(filepath.Dir(name), target)
		}
		_, err = os.Stat(name)
		if _, targetErr := os.Lstat(target); err == nil && targetErr != nil {
			return name, nil
		}
		name = target
	}
	return name, syscall.ELOOP
}

// writable refuses a file that nobody may write to, which the superuser could
// open all the same, and one that this user may not.
func writable(name string, was fs.FileInfo) error {
	if was.Mode().Perm()&0o222 == 0 {
		return syscall.EACCES
	}
	file, err := os.OpenFile(name, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	return file.Close()
}

// replace puts a new file in the place of the one that was there, if any.
func replace(ctx context.Context, name string, was fs.FileInfo, write func(io.Writer) error) error {
	draft, err := newDraft(name)
	if err != nil {
		return err
	}
	remove := func() { os.Remove(draft.Name()) } // once renamed, it is not there
	defer remove()
	defer context.AfterFunc(ctx, remove)()
	err = fill(draft, write)
	if err == nil {
		err = draft.Sync()
	}
	if err == nil && was != nil {
		if keepOwner(draft, was) != nil { // another user's file, which this one may write to but not give away
			return errors.Join(overwrite(name, draft), draft.Close())
		}
		err = draft.Chmod(was.Mode())
	}
	if err = errors.Join(err, draft.Close(), ctx.Err()); err != nil {
		return err
	}
	if err := os.Rename(draft.Name(), name); err != nil {
		return err
	}
	syncFolder(filepath.Dir(name))
	return nil
}

func overwrite(name string, draft *os.File) error {
	if _, err := draft.Seek(0, io.SeekStart); err != nil {
		return err
	}
	file, err := os.OpenFile(name, os.O_WRONLY|os.O_TRUNC, 0)
	if err != nil {
		return err
	}
	_, err = io.Copy(file, draft)
	return errors.Join(err, file.Sync(), file.Close())
}

// newDraft makes a file next to the one to be written. os.CreateTemp would
// give it a mode of its own instead of the umask's.
func newDraft(name string) (*os.File, error) {
	for {
		draft := filepath.Join(filepath.Dir(name), fmt.Sprintf(".heddle-%x", rand.Uint64()))
		file, err := os.OpenFile(draft, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o666)
		if !errors.Is(err, fs.ErrExist) {
			return file, err
		}
	}
}

func fill(file *os.File, write func(io.Writer) error) error {
	buffered := bufio.NewWriterSize(file, 1<<16)
	if err := write(buffered); err != nil {
		return err
	}
	return buffered.Flush()
}
