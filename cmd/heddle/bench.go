package main

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"runtime"
	"runtime/debug"

	"heddle/bench"
)

// benchCommand serves the bench on this machine.
type benchCommand struct {
	Addr      string `help:"Where to listen: host and port; port 0 takes any free one. Unless given, ${bench_address}." placeholder:"${bench_address}" default:"${bench_address}"`
	NoBrowser bool   `help:"Print the address and open no browser."`
	Data      string `help:"The folder for what you keep, such as takes; it is made if need be. Unless given, heddle in XDG_DATA_HOME, or in your system's folder for programs' data." placeholder:"DIR" type:"path"`
}

// Help comes between the first line of `heddle bench --help` and the flags.
func (benchCommand) Help() string {
	return `Opens a page on which you say an exercise in a sentence, see it and hear it.
It is served by this program to this machine alone, and nothing is sent anywhere.
A take that you record is kept only when you say so.
Stop it with Ctrl-C.`
}

// Run serves until the context ends.
func (c *benchCommand) Run(ctx context.Context, s streams) error {
	if err := checkData(c.Data); err != nil {
		return err
	}
	debug.SetGCPercent(bench.GCPercent)
	b, err := bench.New(bench.Options{Data: dataFolder(c.Data, os.Getenv, runtime.GOOS)})
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
