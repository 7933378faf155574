package main

import (
	"cmp"
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
	Addr      string `help:"Where to listen: host and port; port 0 takes any free one. Default: ${bench_address}." placeholder:"${bench_address}"`
	NoBrowser bool   `help:"Print the address without opening a browser."`
	Data      string `help:"The folder for what you keep, such as takes; it is created if necessary. Default: heddle in XDG_DATA_HOME, or in your system's folder for application data." placeholder:"DIR" type:"path"`
}

// Help comes between the first line of `heddle bench --help` and the flags.
func (benchCommand) Help() string {
	return `Opens a page where you describe an exercise in a sentence, see it and hear it.
heddle serves the page to this machine alone, and nothing is sent anywhere.
A take that you record is kept only if you say so.
Stop it with Ctrl-C.`
}

// Run serves until the context ends.
func (c *benchCommand) Run(ctx context.Context, s streams) error {
	if err := checkData(c.Data); err != nil {
		return err
	}
	debug.SetGCPercent(bench.GCPercent)
	debug.SetMemoryLimit(bench.MemoryLimit)
	b, err := bench.New(bench.Options{Data: dataFolder(c.Data, os.Getenv, runtime.GOOS), Idle: debug.FreeOSMemory})
	if err != nil {
		return err
	}
	listener, remark, err := bench.Listen(cmp.Or(c.Addr, bench.DefaultAddress))
	if err != nil {
		return err
	}
	if remark != "" {
		fmt.Fprintln(s.err, "heddle:", remark)
	}
	address := "http://" + listener.Addr().String() + "/"
	fmt.Fprintln(s.out, address)
	if !c.NoBrowser {
		openBrowser(address, func() { fmt.Fprintln(s.err, "heddle: open the address above in a browser") })
	}
	return b.Serve(ctx, listener)
}

// openers are the programs that open an address on each system; the first one
// installed is used.
var openers = map[string][][]string{
	"darwin":  {{"open"}},
	"windows": {{"rundll32", "url.dll,FileProtocolHandler"}},
	"":        {{"xdg-open"}, {"wslview"}, {"sensible-browser"}}, // any other
}

// openBrowser asks the system to open an address, and calls failed if it
// can't. The browser is not in heddle's process group: a Ctrl-C that stops
// heddle must not close it.
func openBrowser(address string, failed func()) {
	programs := openers[runtime.GOOS]
	if programs == nil {
		programs = openers[""]
	}
	for _, program := range programs {
		opener := exec.Command(program[0], append(program[1:], address)...)
		opener.SysProcAttr = ownGroup()
		if opener.Start() == nil {
			go func() {
				if opener.Wait() != nil {
					failed()
				}
			}()
			return
		}
	}
	failed()
}
