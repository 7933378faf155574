package bench

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"log"
	"net"
	"net/http"
	"strconv"
	"syscall"
	"time"

	"heddle/pitch"
)

// DefaultAddress is where the bench listens unless told otherwise: this
// machine alone, at a port that no service is registered for.
const DefaultAddress = "127.0.0.1:7878"

// portsTried is how many further ports are tried when one is taken.
const portsTried = 20

// The server's limits. Sound may take its time to render and to be read; a
// request's head may not.
const (
	headTime  = 5 * time.Second
	readTime  = 15 * time.Second
	writeTime = 3 * time.Minute
	idleTime  = 2 * time.Minute
	headBytes = 32 << 10
	graceTime = 800 * time.Millisecond // for requests under way when the server stops
)

// Listen listens on a loopback address only: there is no sign-in, so anyone who
// could reach another address could use the bench. If the port is taken, it
// takes the next free one and says so in remark.
func Listen(address string) (l net.Listener, remark string, err error) {
	host, portText, splitErr := net.SplitHostPort(address)
	port, portErr := strconv.Atoi(portText)
	if splitErr != nil || portErr != nil || port < 0 || port > 65535 {
		return nil, "", &pitch.InputError{What: "addr", Value: address, Want: "a host and a port from 0 to 65535, such as " + DefaultAddress}
	}
	if ip := net.ParseIP(host); host != "localhost" && (ip == nil || !ip.IsLoopback()) {
		return nil, "", &pitch.InputError{What: "addr", Value: address, Want: "an address of this machine alone, such as " + DefaultAddress + ", since nobody has to sign in"}
	}
	l, err = net.Listen("tcp", address)
	if err == nil || !errors.Is(err, syscall.EADDRINUSE) {
		return l, "", err
	}
	for next := port + 1; next <= min(port+portsTried, 65535); next++ {
		l, nextErr := net.Listen("tcp", net.JoinHostPort(host, strconv.Itoa(next)))
		if nextErr == nil {
			return l, fmt.Sprintf("port %d is taken, perhaps by another heddle; using %d", port, next), nil
		}
	}
	return nil, "", fmt.Errorf("port %d and the %d after it are taken; choose another with --addr", port, portsTried)
}

// GCPercent is the garbage collector's percentage (see runtime/debug) that a
// process serving the bench does best with: a page makes half a megabyte of
// garbage and keeps little, so the usual 100 would collect every few pages. At
// 400 about two thirds more pages are served.
const GCPercent = 400

// MemoryLimit is the soft limit in bytes (see runtime/debug) for a process that
// serves the bench. Without it, GCPercent would let the heap grow to five times
// the sounds that are kept.
const MemoryLimit = 200 << 20

// Serve serves until the context ends, then gives requests under way a moment
// to finish.
func (b *Bench) Serve(ctx context.Context, l net.Listener) error {
	requests, endRequests := context.WithCancel(context.WithoutCancel(ctx)) // a live socket ends with it
	defer endRequests()
	server := &http.Server{
		BaseContext:       func(net.Listener) context.Context { return requests },
		Handler:           b.Handler(Hosts(l.Addr())),
		ReadHeaderTimeout: headTime, ReadTimeout: readTime, WriteTimeout: writeTime, IdleTimeout: idleTime,
		MaxHeaderBytes: headBytes, ErrorLog: log.New(&serverLog{to: log.Writer()}, "", log.LstdFlags),
	}
	stopped := make(chan struct{})
	go func() {
		<-ctx.Done()
		grace, cancel := context.WithTimeout(context.Background(), graceTime)
		defer cancel()
		if server.Shutdown(grace) != nil {
			server.Close() // a client that does not read would hold it up
		}
		endRequests()
		close(stopped)
	}()
	if err := server.Serve(l); !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	<-stopped
	return b.shelf.Close()
}

// acceptQuiet is how long accept errors stay unreported after one was.
const acceptQuiet = time.Minute

// A serverLog passes on what the server reports. While no more files may be
// opened, accepting fails about once a second; only one of these lines is
// passed on in acceptQuiet. The logger writes one line at a time.
type serverLog struct {
	to       io.Writer
	reported time.Time // when an accept error was last passed on
}

// Write passes on a line, or drops it.
func (l *serverLog) Write(line []byte) (int, error) {
	if bytes.Contains(line, []byte("Accept error")) {
		if time.Since(l.reported) < acceptQuiet {
			return len(line), nil
		}
		l.reported = time.Now()
	}
	return l.to.Write(line)
}
