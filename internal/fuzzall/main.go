// Fuzzall runs every fuzz target of the module in turn, each for its share of
// the time, and reports how often each was executed and what it found:
//
//	go run ./internal/fuzzall -for 1h
package main

import (
	"flag"
	"fmt"
	"os"
	"os/exec"
	"regexp"
	"strings"
	"time"
)

func main() {
	whole := flag.Duration("for", time.Hour, "how long all targets take together")
	workers := flag.Int("parallel", 2, "processes for each target")
	flag.Parse()
	targets, err := find()
	if err == nil && len(targets) == 0 {
		err = fmt.Errorf("no fuzz targets were found")
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "fuzzall:", err)
		os.Exit(1)
	}
	share := *whole / time.Duration(len(targets))
	fmt.Printf("%d targets, %s each\n", len(targets), share.Round(time.Second))
	failed := 0
	for _, t := range targets {
		out, err := exec.Command("go", "test", "-run", "^$", "-fuzz", "^"+t.name+"$", "-fuzztime", share.String(),
			"-fuzzminimizetime", "10s", "-parallel", fmt.Sprint(*workers), t.pkg).CombinedOutput()
		fmt.Printf("%-70s %s\n", t.pkg+" "+t.name, progress(string(out)))
		if err != nil {
			failed++
			fmt.Println(string(out))
		}
	}
	if failed > 0 {
		fmt.Fprintf(os.Stderr, "fuzzall: %d targets failed\n", failed)
		os.Exit(1)
	}
}

type target struct{ pkg, name string }

// find lists the fuzz targets of every package.
func find() (targets []target, err error) {
	list, err := exec.Command("go", "test", "-list", "^Fuzz", "./...").Output()
	if err != nil {
		return nil, err
	}
	var names []string
	for line := range strings.Lines(string(list)) {
		switch fields := strings.Fields(line); {
		case strings.HasPrefix(line, "Fuzz"):
			names = append(names, fields[0])
		case len(fields) > 1 && fields[0] == "ok":
			for _, name := range names {
				targets = append(targets, target{fields[1], name})
			}
			names = nil
		}
	}
	return targets, nil
}

var counted = regexp.MustCompile(`execs: (\d+) .*new interesting: (\d+)`)

// progress is the last report of a run: executions, and inputs that reached
// new code.
func progress(out string) string {
	all := counted.FindAllStringSubmatch(out, -1)
	if len(all) == 0 {
		return "no executions"
	}
	last := all[len(all)-1]
	return last[1] + " executions, " + last[2] + " new interesting inputs"
}
