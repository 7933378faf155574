package main

import (
	"context"
	"flag"
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
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
