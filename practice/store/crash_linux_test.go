package store_test

import (
	"bufio"
	"context"
	"errors"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"heddle/internal/need"
	"heddle/practice"
	"heddle/practice/store"
)

var kills = flag.Int("kills", 25, "how often a program that writes to the log is killed; the full test takes 1000")

// TestMain becomes a program that adds runs to a folder, where a test asks for
// one: it prints the uid of each run once it has been acknowledged.
func TestMain(m *testing.M) {
	if dir := os.Getenv("HEDDLE_TEST_WRITE"); dir != "" {
		os.Exit(write(dir, os.Getenv("HEDDLE_TEST_LIMIT")))
	}
	os.Exit(m.Run())
}

// write adds runs until it is killed or one can't be added. Limit is a size
// that no file may exceed, which stands for a full disk.
func write(dir, limit string) int {
	if n, err := strconv.ParseUint(limit, 10, 63); err == nil && n > 0 {
		signal.Ignore(syscall.SIGXFSZ) // then a write fails instead
		if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: n, Max: n}); err != nil {
			fmt.Fprintln(os.Stderr, err)
			return 3
		}
	}
	ctx := context.Background()
	s, err := store.Open(ctx, dir, thursday)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	mine := s.Of(store.Player)
	items, err := mine.Items(ctx, false)
	if err != nil || len(items) == 0 {
		fmt.Fprintln(os.Stderr, "no items", err)
		return 1
	}
	for i := range 100_000 {
		run := runOf(items[0], thursday.Add(time.Duration(i)*time.Second), practice.Went(i%4+1))
		run.UID = fmt.Sprintf("%d-%d", os.Getpid(), i)
		if _, err := mine.Add(ctx, run); err != nil {
			fmt.Fprintln(os.Stderr, err)
			return 1
		}
		fmt.Println(run.UID)
	}
	return 0
}

// A writer is a program that adds runs.
type writer struct {
	*exec.Cmd
	said   []string // acknowledged
	errors strings.Builder
	out    *bufio.Scanner
}

func startWriter(t *testing.T, dir string, env ...string) *writer {
	t.Helper()
	w := &writer{Cmd: exec.Command(os.Args[0])}
	w.Env = append(os.Environ(), append(env, "HEDDLE_TEST_WRITE="+dir)...)
	w.Stderr = &w.errors
	pipe, err := w.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	w.out = bufio.NewScanner(pipe)
	if err := w.Start(); err != nil {
		t.Fatal(err)
	}
	return w
}

// listen reads acknowledgements: so many, or all for 0.
func (w *writer) listen(most int) {
	for (most == 0 || len(w.said) < most) && w.out.Scan() {
		w.said = append(w.said, w.out.Text())
	}
}

// shelfWithOne makes a folder with one item.
func shelfWithOne(t *testing.T) (dir string) {
	t.Helper()
	dir = t.TempDir()
	s := opened(t, dir)
	kept(t, s.Of(store.Player), demo("Thursday's vamp"))
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	return dir
}

// check opens the folder again and looks for every acknowledged run, and
// whether the sums are those of the runs that are there.
func check(t *testing.T, dir string, said []string) {
	t.Helper()
	s := opened(t, dir)
	defer s.Close()
	if s.SetAside != "" {
		t.Fatalf("the file was set aside as damaged")
	}
	mine := s.Of(store.Player)
	runs := must[[]practice.Run](t)(mine.Runs(t.Context(), store.Which{}))
	there := make(map[string]bool, len(runs))
	for _, r := range runs {
		there[r.UID] = true
	}
	for _, uid := range said {
		if !there[uid] {
			t.Fatalf("run %s was acknowledged and is lost", uid)
		}
	}
	r := must[*practice.Record](t)(mine.Record(t.Context()))
	sum := 0
	for _, d := range r.Days {
		sum += d.Runs
	}
	if sum != len(runs) || len(r.Standings) > 0 && r.Standings[0].Runs != len(runs) {
		t.Fatalf("%d runs, %d by day, %d by unit", len(runs), sum, r.Standings[0].Runs)
	}
}

// A program that is killed while it writes loses nothing that it acknowledged.
// The full test is go test ./practice/store -run Killed -kills 1000, with
// HEDDLE_ALL=1.
func TestAKilledProgramLosesNothing(t *testing.T) {
	need.Long(t, "kills a writing program over and over")
	dir := shelfWithOne(t)
	dice := rand.New(rand.NewPCG(1, 2))
	var said []string
	for range *kills {
		w := startWriter(t, dir)
		w.listen(1 + dice.IntN(12))
		if err := w.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		w.listen(0) // what it said before it was gone
		_ = w.Wait()
		said = append(said, w.said...)
		if w.errors.Len() > 0 {
			t.Fatal(w.errors.String())
		}
	}
	if len(said) < *kills {
		t.Fatalf("%d runs acknowledged in %d rounds", len(said), *kills)
	}
	check(t, dir, said)
}

// Two programs write to one folder at once, from the very first start on.
func TestTwoProgramsShareAFolder(t *testing.T) {
	need.Long(t, "starts two writing programs")
	dir := shelfWithOne(t)
	one, two := startWriter(t, dir), startWriter(t, dir)
	one.listen(20)
	two.listen(20)
	for _, w := range []*writer{one, two} {
		if err := w.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		w.listen(0)
		_ = w.Wait()
		if w.errors.Len() > 0 || len(w.said) < 20 {
			t.Errorf("%d runs, %s", len(w.said), w.errors.String())
		}
	}
	check(t, dir, append(one.said, two.said...))
}

// Several start at once in an empty folder; all of them find it made.
func TestTwoProgramsMakeTheSameFolder(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new")
	const programs = 4
	errs := make(chan error, programs)
	for range programs {
		go func() {
			s, err := store.Open(t.Context(), dir, thursday)
			if err == nil {
				err = s.Close()
			}
			errs <- err
		}()
	}
	for range programs {
		if err := <-errs; err != nil {
			t.Error(err)
		}
	}
}

// On a full disk a run is refused in one line, and those before it are there.
func TestAFullDiskLosesNothing(t *testing.T) {
	dir := shelfWithOne(t)
	w := startWriter(t, dir, "HEDDLE_TEST_LIMIT=300000")
	w.listen(0)
	err := w.Wait()
	if w.ProcessState.ExitCode() == 3 {
		t.Skipf("SKIPPED: no limit can be set on this system, so that a full disk was not tried: %s", w.errors.String())
	}
	if err == nil || len(w.said) == 0 {
		t.Fatalf("%v after %d runs", err, len(w.said))
	}
	if text := w.errors.String(); strings.Count(text, "\n") != 1 || !strings.Contains(text, "nothing was saved in") {
		t.Errorf("%q", text)
	}
	check(t, dir, w.said)
}

// In a folder that can't be written to, opening fails in one line. The
// superuser may write anywhere, so the test becomes another user.
func TestAReadOnlyFolderIsRefused(t *testing.T) {
	dir := shelfWithOne(t)
	for path := dir; path != "/" && path != os.TempDir(); path = filepath.Dir(path) {
		if err := os.Chmod(path, 0o555); err != nil {
			break
		}
	}
	defer os.Chmod(dir, 0o755)
	defer os.Chmod(filepath.Dir(dir), 0o755)
	if err := os.Chmod(filepath.Join(dir, store.FileName), 0o444); err != nil {
		t.Fatal(err)
	}
	program := filepath.Join(os.TempDir(), fmt.Sprintf("heddle-store-test-%d", os.Getpid()))
	text, err := os.ReadFile(os.Args[0])
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(program, text, 0o755); err != nil {
		t.Fatal(err)
	}
	defer os.Remove(program)
	w := &writer{Cmd: exec.Command(program)}
	w.Env = append(os.Environ(), "HEDDLE_TEST_WRITE="+dir)
	w.Stderr = &w.errors
	if os.Geteuid() == 0 {
		w.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: 65534, Gid: 65534}}
	}
	err = w.Run()
	var exit *exec.ExitError
	if !errors.As(err, &exit) {
		t.Skipf("SKIPPED: another user can't be tried here, so that a read-only folder was not: %v", err)
	}
	if got := w.errors.String(); strings.Count(got, "\n") != 1 || !strings.Contains(got, "can't be opened") {
		t.Errorf("%q", got)
	}
}
