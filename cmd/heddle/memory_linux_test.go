package main

import (
	"bufio"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"heddle/internal/need"
)

// What the program may hold while it plays one sound after another, and after
// it has been idle for a while, in MB. Rendered
// sound is the largest thing that it keeps.
const (
	mostBusyMB = 300
	mostIdleMB = 100
	idleWithin = time.Minute // given up after; it takes seconds
)

func TestTheBenchHoldsLittleMemoryAndGivesItBack(t *testing.T) {
	need.Long(t, "eighty sounds are rendered")
	command := exec.Command("heddle", "--no-browser", "--addr", "127.0.0.1:0", "--data", t.TempDir())
	out, err := command.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := command.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		command.Process.Kill()
		command.Wait()
	})
	address, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		t.Fatal(err)
	}
	for i := range 80 {
		answer, err := http.Get(strings.TrimSpace(address) + fmt.Sprintf("sound/line?home=A+minor+pentatonic&superimpose=tritone&groups=3,3&bars=8&tempo=%d&fret=%d", 60+i%40, 1+i/40))
		if err != nil {
			t.Fatal(err)
		}
		if size, err := io.Copy(io.Discard, answer.Body); err != nil || answer.StatusCode != http.StatusOK || size < 1<<20 {
			t.Fatalf("sound %d: status %d, %d bytes, %v", i, answer.StatusCode, size, err)
		}
		answer.Body.Close()
	}
	if most := residentMB(t, command.Process.Pid, "VmHWM"); most > mostBusyMB {
		t.Errorf("it held %d MB, want at most %d", most, mostBusyMB)
	}
	for deadline := time.Now().Add(idleWithin); ; <-time.After(100 * time.Millisecond) {
		left := residentMB(t, command.Process.Pid, "VmRSS")
		if left <= mostIdleMB {
			t.Logf("it holds %d MB when idle", left)
			return
		}
		if time.Now().After(deadline) {
			t.Fatalf("it still holds %d MB when idle, want at most %d", left, mostIdleMB)
		}
	}
}

// residentMB reads a figure of a process from the kernel (proc(5)).
func residentMB(t *testing.T, pid int, name string) int {
	t.Helper()
	status, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	if err != nil {
		t.Fatal(err)
	}
	figure := regexp.MustCompile(name + `:\s+(\d+) kB`).FindSubmatch(status)
	if figure == nil {
		t.Fatalf("the kernel says nothing about %s", name)
	}
	kB, err := strconv.Atoi(string(figure[1]))
	if err != nil {
		t.Fatal(err)
	}
	return kB / 1024
}
