package bench_test

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"heddle/bench/bundle/bundler"
	"heddle/internal/need"
)

func TestBuiltFilesMatchTheirSource(t *testing.T) {
	files, err := bundler.Build(".")
	if err != nil {
		t.Fatal(err)
	}
	if len(files) < 3 {
		t.Fatalf("only %d files were built", len(files))
	}
	for name, want := range files {
		got, err := os.ReadFile(filepath.Join("built", name))
		if err != nil || !bytes.Equal(got, want) {
			t.Errorf("built/%s is not what its source gives (%v): run go generate ./bench", name, err)
		}
	}
	kept, err := os.ReadDir("built")
	if err != nil {
		t.Fatal(err)
	}
	for _, entry := range kept {
		if files[entry.Name()] == nil {
			t.Errorf("built/%s has no source", entry.Name())
		}
	}
}

func TestScriptsPassTheStrictCompiler(t *testing.T) {
	const reason = "the scripts' types are not checked (npm ci in bench/scripts)"
	compiler := need.File(t, reason, filepath.Join("scripts", "node_modules", "typescript", "bin", "tsc"))
	node := need.Program(t, reason, "node")
	if out, err := exec.Command(node, compiler, "-p", "scripts").CombinedOutput(); err != nil {
		t.Errorf("%v\n%s", err, out)
	}
}

func TestScriptsAreSmallAndLeaveNoGlobalNames(t *testing.T) {
	scripts, err := filepath.Glob("scripts/*.ts")
	if err != nil || len(scripts) < 8 {
		t.Fatalf("%d scripts: %v", len(scripts), err)
	}
	for _, name := range scripts {
		body, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, word := range []string{"eval(", ".innerHTML", "globalThis.", "setAttribute(\"style\""} {
			if strings.Contains(string(body), word) {
				t.Errorf("%s uses %s", name, word)
			}
		}
	}
}
