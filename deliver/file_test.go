//go:build unix

package deliver

import (
	"bytes"
	"context"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

func writing(text string) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := io.WriteString(w, text)
		return err
	}
}

// onlyFile checks that a folder holds one file and nothing else.
func onlyFile(t *testing.T, dir, want string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	if got := strings.Join(names, " "); got != want {
		t.Errorf("the folder holds %q, want %q", got, want)
	}
}

func TestANewFileHasTheModeOfTheUmask(t *testing.T) {
	before := syscall.Umask(0o027)
	defer syscall.Umask(before)
	name := filepath.Join(t.TempDir(), "line.svg")
	if err := WriteFile(t.Context(), name, writing("new")); err != nil {
		t.Fatal(err)
	}
	if stat, err := os.Stat(name); err != nil || stat.Mode() != 0o640 {
		t.Errorf("mode %v, %v", stat.Mode(), err)
	}
}

func TestAFileThatWasThereKeepsItsModeAndOwner(t *testing.T) {
	name := filepath.Join(t.TempDir(), "line.svg")
	if err := os.WriteFile(name, []byte("old and longer"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(name, 0o606); err != nil {
		t.Fatal(err)
	}
	const nobody = 65534
	owner := os.Getuid()
	if owner == 0 {
		owner = nobody
		if err := os.Chown(name, nobody, nobody); err != nil {
			t.Fatal(err)
		}
	}
	if err := WriteFile(t.Context(), name, writing("new")); err != nil {
		t.Fatal(err)
	}
	stat, err := os.Stat(name)
	if err != nil {
		t.Fatal(err)
	}
	text, _ := os.ReadFile(name)
	if stat.Mode() != 0o606 || int(stat.Sys().(*syscall.Stat_t).Uid) != owner || string(text) != "new" {
		t.Errorf("mode %v, owner %d, text %q", stat.Mode(), stat.Sys().(*syscall.Stat_t).Uid, text)
	}
	onlyFile(t, filepath.Dir(name), "line.svg")
}

func TestALinkStaysAndItsTargetIsReplaced(t *testing.T) {
	dir := t.TempDir()
	link := filepath.Join(dir, "link.svg")
	if err := os.Symlink("target.svg", link); err != nil {
		t.Fatal(err)
	}
	for _, text := range []string{"first", "second"} { // at first there is no target
		if err := WriteFile(t.Context(), link, writing(text)); err != nil {
			t.Fatal(err)
		}
		if to, err := os.Readlink(link); err != nil || to != "target.svg" {
			t.Errorf("the link leads to %q, %v", to, err)
		}
		if got, err := os.ReadFile(filepath.Join(dir, "target.svg")); err != nil || string(got) != text {
			t.Errorf("the target holds %q, %v", got, err)
		}
	}
	loop := filepath.Join(dir, "loop.svg")
	if err := os.Symlink("loop.svg", loop); err != nil {
		t.Fatal(err)
	}
	if err := WriteFile(t.Context(), loop, writing("x")); !errors.Is(err, syscall.ELOOP) {
		t.Errorf("a loop of links gives %v", err)
	}
}

func TestAPipeAndADeviceAreWrittenTo(t *testing.T) {
	pipe := filepath.Join(t.TempDir(), "pipe.svg")
	if err := syscall.Mkfifo(pipe, 0o600); err != nil {
		t.Fatal(err)
	}
	read := make(chan string)
	go func() {
		text, _ := os.ReadFile(pipe)
		read <- string(text)
	}()
	if err := WriteFile(t.Context(), pipe, writing("through")); err != nil {
		t.Fatal(err)
	}
	if got := <-read; got != "through" {
		t.Errorf("the reader got %q", got)
	}
	onlyFile(t, filepath.Dir(pipe), "pipe.svg")
	if _, err := os.Stat("/dev/full"); err == nil {
		if err := WriteFile(t.Context(), "/dev/full", writing("x")); !errors.Is(err, syscall.ENOSPC) || err.Error() != "/dev/full: no space left on device" {
			t.Errorf("a full device gives %v", err)
		}
	}
}

func TestWhatMayNotBeWrittenIsRefused(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "line.svg")
	if err := os.WriteFile(name, []byte("old"), 0o444); err != nil {
		t.Fatal(err)
	}
	never := func(io.Writer) error { t.Error("it is written"); return nil }
	if err := WriteFile(t.Context(), name, never); !errors.Is(err, fs.ErrPermission) {
		t.Errorf("a read-only file gives %v", err)
	}
	if err := WriteFile(t.Context(), dir, never); err == nil || err.Error() != dir+": is a directory" {
		t.Errorf("a folder gives %v", err)
	}
	missing := filepath.Join(dir, "nowhere", "line.svg")
	if err := WriteFile(t.Context(), missing, never); err == nil || err.Error() != missing+": no such file or directory" {
		t.Errorf("a missing folder gives %v", err)
	}
}

func TestAFailureLeavesWhatWasThere(t *testing.T) {
	name := filepath.Join(t.TempDir(), "line.svg")
	if err := os.WriteFile(name, []byte("old"), 0o644); err != nil {
		t.Fatal(err)
	}
	broken := errors.New("broken")
	err := WriteFile(t.Context(), name, func(w io.Writer) error {
		w.Write(bytes.Repeat([]byte("x"), 1<<20))
		return broken
	})
	if !errors.Is(err, broken) {
		t.Error(err)
	}
	if got, _ := os.ReadFile(name); string(got) != "old" {
		t.Errorf("it holds %.20q", got)
	}
	onlyFile(t, filepath.Dir(name), "line.svg")
}

// The draft goes while write still has it: a second signal may end the process
// before write does.
func TestAnInterruptRemovesTheDraftAtOnce(t *testing.T) {
	ctx, interrupt := context.WithCancel(t.Context())
	dir := t.TempDir()
	err := WriteFile(ctx, filepath.Join(dir, "line.svg"), func(w io.Writer) error {
		if entries, _ := os.ReadDir(dir); len(entries) != 1 {
			t.Fatalf("%d files, want the draft", len(entries))
		}
		interrupt()
		for {
			if entries, _ := os.ReadDir(dir); len(entries) == 0 {
				break
			}
		}
		return writing("too late")(w)
	})
	if !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
	onlyFile(t, dir, "")
}
