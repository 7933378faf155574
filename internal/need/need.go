// Package need says what a test needs from outside the repository, and what
// happens when it is missing.
//
// By default a test whose program or file is missing is skipped, and says why.
// With HEDDLE_ALL=1 in the environment, as .ci/run sets it, nothing is skipped:
// the long suites run too, and whatever is missing is a failure.
package need

import (
	"os"
	"os/exec"
	"testing"
)

// All reports whether the whole suite was asked for with HEDDLE_ALL=1.
func All() bool { return os.Getenv("HEDDLE_ALL") == "1" }

// Long skips a test that takes too long for the everyday run. The reason says
// what it does with the time.
func Long(t testing.TB, reason string) {
	t.Helper()
	if !All() || testing.Short() {
		t.Skipf("runs with HEDDLE_ALL=1 and without -short: %s", reason)
	}
}

// Program returns the path of the first of the programs that is installed.
// Without any, the test can't check what the reason says.
func Program(t testing.TB, reason string, names ...string) string {
	t.Helper()
	for _, name := range names {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	missing(t, "%q is not installed: %s", names, reason)
	return ""
}

// File returns the path of a file or folder that is fetched and not kept in
// the repository. Without it, the test can't check what the reason says.
func File(t testing.TB, reason, path string) string {
	t.Helper()
	if _, err := os.Stat(path); err != nil {
		missing(t, "%s is missing: %s", path, reason)
	}
	return path
}

func missing(t testing.TB, format string, args ...any) {
	t.Helper()
	if All() {
		t.Fatalf(format, args...)
	}
	t.Skipf(format, args...)
}
