package bench

import (
	"context"
	"errors"
	"fmt"
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
	graceTime = 10 * time.Second // for what is in flight when the server is told to stop
)

// Listen listens on an address of this machine alone: there is no sign-in, so
// that whoever could reach another one could use it. Where the port is taken it
// takes the next free one; remark then says so.
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
// process serving the bench does best with: a page makes half a megabyte that
// is soon forgotten and little that stays, so that the usual 100 collects at
// every few pages. At 400 the heap stays under five times the few megabytes in
// use, and about two thirds more pages are served.
const GCPercent = 400

// Serve serves until the context ends, then finishes what is in flight.
func (b *Bench) Serve(ctx context.Context, l net.Listener) error {
	server := &http.Server{
		Handler:           b.Handler(Hosts(l.Addr())),
		ReadHeaderTimeout: headTime, ReadTimeout: readTime, WriteTimeout: writeTime, IdleTimeout: idleTime,
		MaxHeaderBytes: headBytes,
	}
	stopped := make(chan error, 1)
	go func() {
		<-ctx.Done()
		grace, cancel := context.WithTimeout(context.Background(), graceTime)
		defer cancel()
		stopped <- server.Shutdown(grace)
	}()
	if err := server.Serve(l); !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return <-stopped
}
