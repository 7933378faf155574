package bench_test

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"
	"log"
	"net"
	"net/http"
	"os"
	"runtime"
	"strings"
	"sync"
	"syscall"
	"testing"
	"testing/synctest"
	"time"

	"github.com/coder/websocket"

	"heddle/bench"
	"heddle/bench/benchtest"
)

// These tests connect through pipes, which hold no bytes: a client that does
// not read stalls its server at once. In a synctest bubble, time passes only
// while everybody waits, so the limits are tested exactly and without waiting.

// pipes is a listener whose connections are pipes.
type pipes struct {
	mu     sync.Mutex
	fails  int // how many accepts fail first
	conns  chan net.Conn
	closed chan struct{}
	close  func()
}

func newPipes(fails int) *pipes {
	closed := make(chan struct{})
	return &pipes{fails: fails, conns: make(chan net.Conn), closed: closed, close: sync.OnceFunc(func() { close(closed) })}
}

func (p *pipes) Accept() (net.Conn, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.fails > 0 {
		p.fails--
		return nil, &net.OpError{Op: "accept", Net: "tcp", Err: os.NewSyscallError("accept4", syscall.EMFILE)}
	}
	select {
	case c := <-p.conns:
		return c, nil
	case <-p.closed:
		return nil, net.ErrClosed
	}
}

func (p *pipes) Close() error   { p.close(); return nil }
func (p *pipes) Addr() net.Addr { return &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 7878} }

func (p *pipes) dial(context.Context, string, string) (net.Conn, error) {
	client, server := net.Pipe()
	p.conns <- server
	return client, nil
}

const pipesHost = "127.0.0.1:7878"

// begin sends the beginning of a request.
func (p *pipes) begin(t *testing.T, request string) net.Conn {
	t.Helper()
	c, _ := p.dial(context.Background(), "", "")
	if _, err := io.WriteString(c, request); err != nil {
		t.Fatal(err)
	}
	return c
}

// download asks for a file and reads the head of the answer.
func (p *pipes) download(t *testing.T, path string) (net.Conn, *http.Response) {
	t.Helper()
	c := p.begin(t, "GET "+path+" HTTP/1.1\r\nHost: "+pipesHost+"\r\n\r\n")
	answer, err := http.ReadResponse(bufio.NewReaderSize(c, 16), nil)
	if err != nil || answer.StatusCode != http.StatusOK {
		t.Fatalf("%s: %v, %v", path, answer, err)
	}
	return c, answer
}

// listen opens the live socket.
func (p *pipes) listen(t *testing.T) *websocket.Conn {
	t.Helper()
	socket, _, err := websocket.Dial(t.Context(), "ws://"+pipesHost+"/take/live?"+benchtest.LiveSpec+"&rate=48000&first-bar=0", &websocket.DialOptions{
		HTTPClient: &http.Client{Transport: &http.Transport{DialContext: p.dial}}, HTTPHeader: http.Header{"Origin": {"http://" + pipesHost}},
	})
	if err != nil {
		t.Fatal(err)
	}
	return socket
}

// serve serves through pipes; stop ends it and returns what Serve returned.
func (p *pipes) serve(t *testing.T) (stop func() error) {
	t.Helper()
	b, err := bench.New(bench.Options{})
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	served := make(chan error, 1)
	go func() { served <- b.Serve(ctx, p) }()
	return func() error { cancel(); return <-served }
}

// More clients stall than there are turns, in each of the ways there are. One
// more client is answered all the same, at once, and the bench stops within its
// time of grace.
func TestStalledClientsCostNobodyElseAnything(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		p := newPipes(0)
		stop := p.serve(t)
		begun := time.Now()
		for i := range runtime.NumCPU() + 1 {
			download, _ := p.download(t, "/line.wav?"+oneBar)
			defer download.Close()
			part, _ := p.download(t, fmt.Sprintf("/sound/line?%s&fret=%d", oneBar, 5+i))
			defer part.Close()
			upload := p.begin(t, "POST /take?"+benchtest.LiveSpec+" HTTP/1.1\r\nHost: "+pipesHost+"\r\nContent-Type: audio/wav\r\nContent-Length: 1000000\r\n\r\nRIFF")
			defer upload.Close()
		}
		defer p.listen(t).CloseNow()
		synctest.Wait()
		c, answer := p.download(t, "/sound/click?"+oneBar)
		defer c.Close()
		if n, err := io.Copy(io.Discard, answer.Body); err != nil || n < 100_000 {
			t.Errorf("another client gets %d bytes, %v", n, err)
		}
		if waited := time.Since(begun); waited > 0 {
			t.Errorf("another client waits %v", waited)
		}
		begun = time.Now()
		if err := stop(); err != nil {
			t.Errorf("serving ended with %v", err)
		}
		if took := time.Since(begun); took > time.Second {
			t.Errorf("stopping took %v", took)
		}
	})
}

// A file is sent for as long as its client keeps reading, past the server's
// limit of three minutes for an answer.
func TestASlowClientGetsAWholeFileAndAStalledOneIsDropped(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		p := newPipes(0)
		stop := p.serve(t)
		slow, answer := p.download(t, "/sound/line?"+oneBar)
		defer slow.Close()
		begun, size := time.Now(), int64(0)
		for size < answer.ContentLength {
			n, err := io.CopyN(io.Discard, answer.Body, min(32<<10, answer.ContentLength-size))
			if size += n; err != nil {
				t.Fatalf("after %v and %d of %d bytes: %v", time.Since(begun), size, answer.ContentLength, err)
			}
			time.Sleep(20 * time.Second)
		}
		if took := time.Since(begun); took < 200*time.Second {
			t.Errorf("the file took only %v, which tests nothing", took)
		}
		stalled, answer := p.download(t, "/sound/line?"+oneBar)
		defer stalled.Close()
		time.Sleep(40 * time.Second)
		if n, err := io.Copy(io.Discard, answer.Body); err == nil {
			t.Errorf("a client that stalled for 40 s still gets %d bytes", n)
		}
		if err := stop(); err != nil {
			t.Errorf("serving ended with %v", err)
		}
	})
}

// A page that sends empty blocks each second keeps its socket for ten seconds.
func TestEmptyBlocksAreSilence(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		p := newPipes(0)
		stop := p.serve(t)
		socket := p.listen(t)
		defer socket.CloseNow()
		closed := make(chan error, 1)
		go func() {
			_, _, err := socket.Read(context.Background())
			closed <- err
		}()
		begun := time.Now()
		for range 20 {
			time.Sleep(time.Second)
			if socket.Write(t.Context(), websocket.MessageBinary, nil) != nil {
				break // closed; the reason was read
			}
		}
		synctest.Wait()
		select {
		case err := <-closed:
			if websocket.CloseStatus(err) != websocket.StatusPolicyViolation || !strings.Contains(err.Error(), "ten seconds") {
				t.Errorf("closed with %v", err)
			}
		default:
			t.Errorf("still open after %v of empty blocks", time.Since(begun))
		}
		socket.CloseNow()
		if err := stop(); err != nil {
			t.Errorf("serving ended with %v", err)
		}
	})
}

// A download's file has no name while it is sent, so that a program that is
// killed leaves nothing behind.
func TestADownloadLeavesNoFileBehind(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("Windows does not let go of an open file's name")
	}
	folder := t.TempDir()
	t.Setenv("TMPDIR", folder)
	synctest.Test(t, func(t *testing.T) {
		p := newPipes(0)
		stop := p.serve(t)
		c, _ := p.download(t, "/line.wav?"+oneBar)
		defer c.Close()
		if left, err := os.ReadDir(folder); err != nil || len(left) > 0 {
			t.Errorf("while it is sent there are %v, %v", left, err)
		}
		if err := stop(); err != nil {
			t.Errorf("serving ended with %v", err)
		}
	})
}

// Where no more files may be opened, the server tries again once a second.
func TestAcceptErrorsAreReportedOnceAMinute(t *testing.T) {
	var reported bytes.Buffer
	defer log.SetOutput(log.Writer())
	log.SetOutput(&reported)
	synctest.Test(t, func(t *testing.T) {
		p := newPipes(150)
		begun := time.Now()
		stop := p.serve(t)
		c, _ := p.download(t, "/")
		c.Close()
		most := int(time.Since(begun)/time.Minute) + 1
		if n := strings.Count(reported.String(), "\n"); n == 0 || n > most {
			t.Errorf("%d lines in %v, want 1 to %d", n, time.Since(begun), most)
		}
		if err := stop(); err != nil {
			t.Errorf("serving ended with %v", err)
		}
	})
}
