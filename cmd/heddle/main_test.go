package main

import (
	"context"
	"flag"
	"os"
	"slices"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"heddle/exercise"
)

var update = flag.Bool("update", false, "write what the commands print into the scripts")

// TestMain lets the scripts run this very program as `heddle`.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"heddle": func() {
			os.Exit(run(context.Background(), os.Args[1:], streams{os.Stdin, os.Stdout, os.Stderr}))
		},
	})
}

func TestCommands(t *testing.T) {
	testscript.Run(t, testscript.Params{Dir: "testdata", UpdateScripts: *update})
}

func TestEveryFieldHasAFlag(t *testing.T) {
	flags := (&specFlags{}).flags()
	var fields []string
	for _, f := range exercise.Fields() {
		fields = append(fields, f.Name)
		if _, ok := flags[f.Name]; !ok && f.Name != "superimpose" {
			t.Errorf("field %s has no flag", f.Name)
		}
	}
	for name := range flags {
		if !slices.Contains(fields, name) {
			t.Errorf("flag --%s is no field", name)
		}
	}
}
