package main

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"
)

// A process is heddle as a person or a script runs it.
type process struct {
	*exec.Cmd
	in     *os.File // the writing end of its standard input
	out    bytes.Buffer
	errors bytes.Buffer
}

// pipeSize is the least that a pipe holds on Linux, one page.
const pipeSize = 4096

// started starts heddle in a folder.
func started(t *testing.T, dir string, args ...string) *process {
	t.Helper()
	p := &process{Cmd: exec.Command("heddle", args...)}
	read, write, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	const setPipeSize = 1031 // F_SETPIPE_SZ, fcntl(2)
	if _, _, errno := syscall.Syscall(syscall.SYS_FCNTL, write.Fd(), setPipeSize, pipeSize); errno != 0 {
		t.Fatal(errno)
	}
	p.Dir, p.in = dir, write
	p.Stdin, p.Stdout, p.Stderr = read, &p.out, &p.errors
	if err := p.Start(); err != nil {
		t.Fatal(err)
	}
	read.Close()
	t.Cleanup(func() {
		write.Close()
		p.Process.Kill()
		p.Process.Wait()
	})
	return p
}

// isInterrupted checks that the process has ended as a signal ends it.
func (p *process) isInterrupted(t *testing.T) {
	t.Helper()
	p.Wait()
	if code := p.ProcessState.ExitCode(); code != exitFailed || p.errors.String() != "heddle: interrupted\n" || p.out.Len() > 0 {
		t.Errorf("exit code %d, printed %q, remarks %q", code, &p.out, &p.errors)
	}
}

// reading holds the commands that wait for more of their standard input, with
// the beginning of what each reads.
var reading = map[string]string{
	"read -":                    `<?xml version="1.0"?>`,
	"mark - --home C|major":     "RIFF\xff\xff\xff\x7fWAVEfmt \x10\x00\x00\x00\x01\x00\x01\x00\x44\xac\x00\x00\x88\x58\x01\x00\x02\x00\x10\x00data\x00\x00\x10\x00",
	"line --spec - -o line.svg": "home: C major\n",
}

func TestASignalEndsWhatWaitsForInput(t *testing.T) {
	for command, head := range reading {
		for _, signal := range []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP} {
			t.Run(command+" "+signal.String(), func(t *testing.T) {
				t.Parallel() // each waits for its process to lose patience
				dir := t.TempDir()
				args := strings.Fields(command)
				for i := range args {
					args[i] = strings.ReplaceAll(args[i], "|", " ")
				}
				p := started(t, dir, args...)
				// More than the pipe holds: once it is written, heddle is reading.
				if _, err := io.WriteString(p.in, head+strings.Repeat("\n", pipeSize)); err != nil {
					t.Fatal(err)
				}
				if err := p.Process.Signal(signal); err != nil {
					t.Fatal(err)
				}
				p.isInterrupted(t)
				if entries, err := os.ReadDir(dir); err != nil || len(entries) > 0 {
					t.Errorf("%s leaves %v, %v", command, entries, err)
				}
			})
		}
	}
}

func TestASecondSignalEndsAtOnce(t *testing.T) {
	p := started(t, t.TempDir(), "read", "-")
	if _, err := io.WriteString(p.in, reading["read -"]+strings.Repeat("\n", pipeSize)); err != nil {
		t.Fatal(err)
	}
	for p.Process.Signal(os.Interrupt) == nil {
		var status syscall.WaitStatus
		if pid, _ := syscall.Wait4(p.Process.Pid, &status, syscall.WNOHANG, nil); pid > 0 {
			if !status.Signaled() || status.Signal() != syscall.SIGINT {
				t.Errorf("it ended with %v, %q", status, &p.errors)
			}
			return
		}
		// The time that a process takes, since a flood of signals can crash the Go
		// runtime while it dies of one.
		if err := exec.Command("true").Run(); err != nil {
			t.Fatal(err)
		}
	}
}

func TestAnInterruptLeavesNoDraft(t *testing.T) {
	dir := t.TempDir()
	pipe := filepath.Join(dir, "pipe.svg")
	if err := syscall.Mkfifo(pipe, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, signal := range []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP} {
		p := started(t, dir, "line", "--home", "C major", "--loops", "200", "-o", "pipe.svg", "-o", "line.wav")
		if picture, err := os.ReadFile(pipe); err != nil || !bytes.HasPrefix(picture, []byte("<svg ")) {
			t.Fatalf("the pipe brings %.20q, %v", picture, err)
		}
		for { // the sound takes seconds
			if entries, err := os.ReadDir(dir); err != nil || len(entries) == 2 {
				break
			}
			runtime.Gosched()
		}
		if err := p.Process.Signal(signal); err != nil {
			t.Fatal(err)
		}
		p.Wait()
		if code := p.ProcessState.ExitCode(); code != exitFailed || p.errors.String() != "wrote pipe.svg\nheddle: interrupted\n" {
			t.Errorf("exit code %d, remarks %q", code, &p.errors)
		}
		if entries, err := os.ReadDir(dir); err != nil || len(entries) != 1 {
			t.Errorf("it leaves %v, %v", entries, err)
		}
	}
}

func TestOutputThatCannotBeWrittenIsAnError(t *testing.T) {
	for _, args := range [][]string{{"--help"}, {"line", "--help"}, {"name", "C", "E", "G"}, {"completion", "bash"}, {"line", "--home", "C major", "--json"}} {
		full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
		if err != nil {
			t.Fatal(err)
		}
		var remarks bytes.Buffer
		command := exec.Command("heddle", args...)
		command.Stdout, command.Stderr = full, &remarks
		command.Run()
		full.Close()
		if code := command.ProcessState.ExitCode(); code != exitFailed || remarks.String() != "heddle: standard output: no space left on device\n" {
			t.Errorf("%q: exit code %d, remarks %q", args, code, &remarks)
		}
	}
}
