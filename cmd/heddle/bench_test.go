package main

import (
	"bufio"
	"context"
	"io"
	"net/http"
	"strings"
	"testing"
	"time"
)

// TestTheBenchPrintsItsAddressAndServesUntilStopped does what a person does:
// start it, open what it prints, press Ctrl-C. The word bench is not needed.
func TestTheBenchPrintsItsAddressAndServesUntilStopped(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	defer stop()
	read, write := io.Pipe()
	var remarks strings.Builder
	code := make(chan int, 1)
	go func() {
		code <- run(ctx, []string{"--no-browser", "--addr", "127.0.0.1:0"}, streams{strings.NewReader(""), write, &remarks})
	}()
	address, err := bufio.NewReader(read).ReadString('\n')
	if err != nil || !strings.HasPrefix(address, "http://127.0.0.1:") {
		t.Fatalf("it printed %q, %v", address, err)
	}
	response, err := http.Get(strings.TrimSpace(address))
	if err != nil {
		t.Fatal(err)
	}
	page, err := io.ReadAll(response.Body)
	response.Body.Close()
	if err != nil || response.StatusCode != http.StatusOK || !strings.Contains(string(page), "G minor pentatonic") {
		t.Errorf("status %d, %d bytes, %v", response.StatusCode, len(page), err)
	}
	stop()
	select {
	case c := <-code:
		if c != exitDone || remarks.Len() > 0 {
			t.Errorf("exit code %d, remarks %q", c, remarks.String())
		}
	case <-time.After(20 * time.Second):
		t.Fatal("it did not stop")
	}
}
