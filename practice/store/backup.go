package store

import (
	"archive/zip"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"
	"time"

	"heddle/pitch"
)

// takesFolder is where recordings are kept, next to the database.
const takesFolder = "takes"

// Backup writes everything in the data folder to one zip file: a copy of the
// database as it is at one moment, and the kept takes.
func (s *SQLite) Backup(ctx context.Context, w io.Writer) error {
	scratch, err := os.MkdirTemp("", "heddle-backup")
	if err != nil {
		return err
	}
	defer os.RemoveAll(scratch)
	copied := filepath.Join(scratch, FileName)
	if _, err := s.db.ExecContext(ctx, "VACUUM INTO ?", copied); err != nil {
		return plainly(err)
	}
	archive := zip.NewWriter(w)
	if err := addFile(archive, copied, FileName); err != nil {
		return err
	}
	takes := filepath.Join(s.dir, takesFolder)
	err = filepath.WalkDir(takes, func(name string, entry fs.DirEntry, err error) error {
		switch {
		case errors.Is(err, fs.ErrNotExist) && name == takes:
			return nil // none are kept
		case err != nil:
			return err
		case ctx.Err() != nil:
			return ctx.Err()
		case entry.IsDir() && strings.HasPrefix(entry.Name(), "."):
			return fs.SkipDir // one that is being written or deleted
		case !entry.Type().IsRegular():
			return nil
		}
		below, err := filepath.Rel(s.dir, name)
		if err != nil {
			return err
		}
		return addFile(archive, name, filepath.ToSlash(below))
	})
	return errors.Join(err, archive.Close())
}

func addFile(archive *zip.Writer, from, name string) error {
	file, err := os.Open(from)
	if err != nil {
		return err
	}
	defer file.Close()
	to, err := archive.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Deflate})
	if err != nil {
		return err
	}
	_, err = io.Copy(to, file)
	return err
}

// Bounds of a backup that is restored.
const (
	mostFiles      = 100_000
	mostFileBytes  = 4 << 30
	restoredPrefix = ".restore-"
)

// Restore puts a backup into a data folder that holds nothing of heddle's yet,
// and refuses any other. The folder is as it was until everything has been read
// and checked.
func Restore(ctx context.Context, backup, dir string, now time.Time) error {
	for _, name := range []string{FileName, takesFolder} {
		if _, err := os.Lstat(filepath.Join(dir, name)); err == nil {
			return &pitch.InputError{What: "data", Value: dir, Want: "a folder without " + name + ", because nothing is overwritten"}
		}
	}
	archive, err := zip.OpenReader(backup)
	if err != nil {
		return &pitch.InputError{What: "backup", Value: backup, Want: "a file that heddle backup wrote"}
	}
	defer archive.Close()
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return err
	}
	draft, err := os.MkdirTemp(dir, restoredPrefix)
	if err != nil {
		return err
	}
	defer os.RemoveAll(draft)
	if err := extract(ctx, archive.File, backup, draft); err != nil {
		return err
	}
	restored, err := Open(ctx, draft, now)
	if err != nil {
		return err
	}
	if err := restored.Close(); err != nil {
		return err
	}
	if restored.SetAside != "" {
		return &pitch.InputError{What: "backup", Value: backup, Want: "a backup that is not damaged"}
	}
	for _, name := range []string{takesFolder, FileName} {
		err := os.Rename(filepath.Join(draft, name), filepath.Join(dir, name))
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	return nil
}

func extract(ctx context.Context, files []*zip.File, backup, to string) error {
	found := false
	for i, file := range files {
		known := file.Name == FileName || strings.HasPrefix(file.Name, takesFolder+"/")
		if i >= mostFiles || !known || !filepath.IsLocal(filepath.FromSlash(file.Name)) || path.Clean(file.Name) != file.Name || !file.Mode().IsRegular() {
			return &pitch.InputError{What: "backup", Value: backup, Want: fmt.Sprintf("a file that heddle backup wrote, and it holds %q", file.Name)}
		}
		found = found || file.Name == FileName
		if err := ctx.Err(); err != nil {
			return err
		}
		if err := extractFile(file, filepath.Join(to, filepath.FromSlash(file.Name))); err != nil {
			return err
		}
	}
	if !found {
		return &pitch.InputError{What: "backup", Value: backup, Want: "a file that heddle backup wrote"}
	}
	return nil
}

func extractFile(from *zip.File, name string) error {
	if err := os.MkdirAll(filepath.Dir(name), 0o700); err != nil {
		return err
	}
	content, err := from.Open()
	if err != nil {
		return err
	}
	defer content.Close()
	file, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	n, err := io.Copy(file, io.LimitReader(content, mostFileBytes+1))
	if err == nil && n > mostFileBytes {
		err = &pitch.InputError{What: "backup", Value: from.Name, Want: "files of at most 4 GiB"}
	}
	return errors.Join(err, file.Sync(), file.Close())
}
