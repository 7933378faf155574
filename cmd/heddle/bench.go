package main

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"runtime"
	"runtime/debug"

	"heddle/bench"
	"heddle/pitch"
)

// benchCommand serves the bench on this machine.
type benchCommand struct {
	Addr      string `help:"Where to listen: host and port; port 0 takes any free one. Unless given, ${bench_address}." placeholder:"${bench_address}" default:"${bench_address}"`
	NoBrowser bool   `help:"Print the address and open no browser."`
	Data      string `help:"The folder for what you keep; it is made if need be. The pages that there are so far keep nothing." placeholder:"DIR" type:"path"`
}

// Help is what stands between the first line of `heddle bench --help` and the
// flags.
func (benchCommand) Help() string {
	return `Opens a page on which you say an exercise in a sentence, see it and hear it.
It is served by this program to this machine alone, and nothing is sent anywhere.
Stop it with Ctrl-C.`
}

// Run serves until the context ends.
func (c *benchCommand) Run(ctx context.Context, s streams) error {
	if err := checkData(c.Data); err != nil {
		return err
	}
	debug.SetGCPercent(bench.GCPercent)
	b, err := bench.New(bench.Options{})
	if err != nil {
		return err
	}
	listener, remark, err := bench.Listen(c.Addr)
	if err != nil {
		return err
	}
	if remark != "" {
		fmt.Fprintln(s.err, "heddle:", remark)
	}
	address := "http://" + listener.Addr().String() + "/"
	fmt.Fprintln(s.out, address)
	if !c.NoBrowser {
		if err := openBrowser(ctx, address); err != nil {
			fmt.Fprintln(s.err, "heddle: open the address above in a browser")
		}
	}
	return b.Serve(ctx, listener)
}

// checkData makes sure, before anything can be made that would be lost, that
// the folder can be written to.
func checkData(dir string) error {
	if dir == "" {
		return nil
	}
	err := os.MkdirAll(dir, 0o700)
	if err == nil {
		var probe *os.File
		if probe, err = os.CreateTemp(dir, ".heddle-*"); err == nil {
			probe.Close()
			err = os.Remove(probe.Name())
		}
	}
	if err != nil {
		return &pitch.InputError{What: "data", Value: dir, Want: "a folder that can be written to"}
	}
	return nil
}

// openBrowser asks the system to open an address.
func openBrowser(ctx context.Context, address string) error {
	command := []string{"xdg-open", address}
	switch runtime.GOOS {
	case "darwin":
		command[0] = "open"
	case "windows":
		command = []string{"rundll32", "url.dll,FileProtocolHandler", address}
	}
	opener := exec.CommandContext(ctx, command[0], command[1:]...)
	if err := opener.Start(); err != nil {
		return err
	}
	go opener.Wait() // so that no zombie stays; what it says is of no use here
	return nil
}
