package takes

import (
	"encoding/json"
	"errors"
	"fmt"
	"heddle/audio"
	"io/fs"
	"os"
	"path/filepath"
	"time"
)

// A Draft is a take being written: first the recording, then the report. Keep
// turns it into a take.
type Draft struct {
	folder  *Folder
	dir     string
	rate    int
	lengthS float64
}

// Draft begins a take. Call Drop when done with it, kept or not.
func (f *Folder) Draft(now time.Time) (*Draft, error) {
	if err := os.MkdirAll(f.dir, 0o700); err != nil {
		return nil, f.notKept(err)
	}
	f.Sweep(now)
	dir, err := os.MkdirTemp(f.dir, draftPrefix)
	if err != nil {
		return nil, f.notKept(err)
	}
	return &Draft{folder: f, dir: dir}, nil
}

// Drop removes what was written, unless it was kept.
func (d *Draft) Drop() {
	if d.dir != "" {
		_ = os.RemoveAll(d.dir) // else a later draft sweeps it away
	}
}

// Record writes the recording. An error is a [*NotKeptError] where the disk is
// at fault, and the source's own otherwise.
func (d *Draft) Record(source *audio.Source) error {
	file, err := os.Create(filepath.Join(d.dir, RecordingFile))
	if err != nil {
		return d.folder.notKept(err)
	}
	written := diskFile{File: file}
	sink, err := audio.NewFLAC(&written, audio.Bits16, audio.Tags{})
	var frames int64
	if err == nil {
		frames, err = audio.Copy(sink, source)
	}
	synced := errors.Join(written.err, file.Sync(), file.Close())
	if synced != nil {
		return d.folder.notKept(synced)
	}
	d.rate, d.lengthS = source.Rate, float64(frames)/float64(source.Rate)
	return err
}

// Recording opens what Record wrote, so that the marks match what will be heard.
func (d *Draft) Recording() (*os.File, error) { return os.Open(filepath.Join(d.dir, RecordingFile)) }

// Keep writes the report and gives the take its name.
func (d *Draft) Keep(take *Take) (name string, err error) {
	kept := *take
	kept.Rate, kept.LengthS = d.rate, d.lengthS
	text, err := json.MarshalIndent(&kept, "", "  ")
	if err != nil {
		return "", err
	}
	if err := d.write(append(text, '\n')); err != nil {
		return "", d.folder.notKept(err)
	}
	if name, err = d.name(take.Taken); err != nil {
		return "", d.folder.notKept(err)
	}
	d.dir = ""
	if err := syncDir(d.folder.dir); err != nil {
		return name, d.folder.notKept(err)
	}
	return name, nil
}

// write writes the report and makes sure that the draft is on the disk.
func (d *Draft) write(text []byte) error {
	file, err := os.Create(filepath.Join(d.dir, ReportFile))
	if err != nil {
		return err
	}
	_, err = file.Write(text)
	return errors.Join(err, file.Sync(), file.Close(), syncDir(d.dir))
}

// name moves the draft to the first name that is free.
func (d *Draft) name(taken time.Time) (string, error) {
	for n := 1; n <= mostInASecond; n++ {
		name := nameAt(taken, n)
		to := filepath.Join(d.folder.dir, name)
		if _, err := os.Lstat(to); err == nil {
			continue
		}
		err := os.Rename(d.dir, to)
		if err == nil {
			return name, nil
		}
		// Another program may have been quicker; then the name is now taken.
		if _, taken := os.Lstat(to); errors.Is(taken, fs.ErrNotExist) {
			return "", err
		}
	}
	return "", fmt.Errorf("there are %d takes from this second already", mostInASecond)
}

// A diskFile records whether the disk failed.
type diskFile struct {
	*os.File
	err error
}

// Write writes to the file.
func (f *diskFile) Write(p []byte) (int, error) {
	n, err := f.File.Write(p)
	if err != nil {
		f.err = err
	}
	return n, err
}
