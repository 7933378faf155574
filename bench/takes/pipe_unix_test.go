//go:build unix

package takes_test

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"heddle/bench/takes"
)

func TestAPipeIsNotRead(t *testing.T) {
	data := t.TempDir()
	f := takes.In(data)
	name := keep(t, f, played(t))
	report := filepath.Join(data, "takes", name, takes.ReportFile)
	if err := os.Remove(report); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mkfifo(report, 0o600); err != nil {
		t.Skip("no pipes here:", err)
	}
	if _, err := f.Open(name); err == nil {
		t.Error("a pipe is read as a take")
	}
}
