package bench_test

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"strings"
	"testing"

	"heddle/bench"
	"heddle/pitch"
)

func TestATakenPortGivesTheNextFreeOne(t *testing.T) {
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer taken.Close()
	l, remark, err := bench.Listen(taken.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	if l.Addr().(*net.TCPAddr).Port <= taken.Addr().(*net.TCPAddr).Port {
		t.Errorf("%s after %s", l.Addr(), taken.Addr())
	}
	if !strings.Contains(remark, "is taken") || strings.Contains(remark, "\n") {
		t.Errorf("remark %q", remark)
	}
}

func TestOnlyThisMachineCanReachIt(t *testing.T) {
	for _, address := range []string{"127.0.0.1", "127.0.0.1:99999", "127.0.0.1:http", "nowhere.invalid:80", "192.0.2.1:80", "0.0.0.0:0", ":0", "[::]:0"} {
		l, _, err := bench.Listen(address)
		var input *pitch.InputError
		if err == nil {
			l.Close()
			t.Errorf("%s was listened on", address)
		} else if !errors.As(err, &input) || !strings.Contains(err.Error(), bench.DefaultAddress) {
			t.Errorf("%s: %v, want an example", address, err)
		}
	}
}

// TestStoppingFinishesWhatIsInFlight asks for a sound, stops the server while
// it is being made, and still gets all of it.
func TestStoppingFinishesWhatIsInFlight(t *testing.T) {
	b, err := bench.New(bench.Options{})
	if err != nil {
		t.Fatal(err)
	}
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	served := make(chan error, 1)
	go func() { served <- b.Serve(ctx, l) }()
	answer := make(chan error, 1)
	begun := make(chan struct{})
	go func() {
		response, err := http.Get("http://" + l.Addr().String() + "/line.wav?home=A+blues&superimpose=tritone&groups=3,3")
		close(begun)
		if err != nil {
			answer <- err
			return
		}
		defer response.Body.Close()
		body, err := io.ReadAll(response.Body)
		if err == nil && (response.StatusCode != http.StatusOK || len(body) < 1<<20) {
			err = errors.New("only a part came")
		}
		answer <- err
	}()
	<-begun
	stop()
	if err := <-answer; err != nil {
		t.Errorf("the sound in flight: %v", err)
	}
	if err := <-served; err != nil {
		t.Errorf("serving ended with %v", err)
	}
	if _, err := http.Get("http://" + l.Addr().String() + "/"); err == nil {
		t.Error("it still serves")
	}
}

// TestStoppingDoesNotWaitForAStalledClient leaves a download unread, which more
// than fills the socket's buffers, and stops the server.
func TestStoppingDoesNotWaitForAStalledClient(t *testing.T) {
	b, err := bench.New(bench.Options{})
	if err != nil {
		t.Fatal(err)
	}
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	served := make(chan error, 1)
	go func() { served <- b.Serve(ctx, l) }()
	for range 2 {
		stalled, err := net.Dial("tcp", l.Addr().String())
		if err != nil {
			t.Fatal(err)
		}
		defer stalled.Close()
		_, err = fmt.Fprintf(stalled, "GET /line.wav?home=A+blues&superimpose=tritone&groups=3,3&bars=16 HTTP/1.1\r\nHost: %s\r\n\r\n", l.Addr())
		if err == nil {
			_, err = stalled.Read(make([]byte, 1)) // it is being sent
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	response, err := http.Get("http://" + l.Addr().String() + "/sound/line?" + oneBar)
	if err != nil {
		t.Fatal(err)
	}
	defer response.Body.Close()
	if _, err := io.ReadAll(response.Body); err != nil || response.StatusCode != http.StatusOK {
		t.Errorf("a third client is answered %d, %v", response.StatusCode, err)
	}
	stop()
	if err := <-served; err != nil {
		t.Errorf("serving ended with %v", err)
	}
}
