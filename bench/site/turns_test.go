package site

import (
	"context"
	"errors"
	"io"
	"testing"
)

// TestASlowUploadHoldsNoTurn waits for a client that has sent nothing yet.
func TestASlowUploadHoldsNoTurn(t *testing.T) {
	one := NewTurns(1)
	reading, upload := io.Pipe()
	recording := &TurnReader{Reader: reading, Context: t.Context(), Turns: one}
	defer recording.Done()
	read := make(chan error, 1)
	go upload.Write([]byte{1})
	if _, err := recording.Read(make([]byte, 1)); err != nil { // has the turn now
		t.Fatal(err)
	}
	go func() {
		_, err := recording.Read(make([]byte, 1))
		read <- err
	}()
	release, err := one.Take(t.Context())
	if err != nil {
		t.Fatalf("no turn while a client is slow: %v", err)
	}
	release()
	upload.Write([]byte{1})
	if err := <-read; err != nil {
		t.Error(err)
	}
}

func TestTurnsBoundTheWorkAtOnce(t *testing.T) {
	lane := NewTurns(2)
	first, err := lane.Take(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if _, err := lane.Take(t.Context()); err != nil {
		t.Fatal(err)
	}
	gone, leave := context.WithCancel(t.Context())
	leave()
	if _, err := lane.Take(gone); !errors.Is(err, context.Canceled) {
		t.Errorf("a third at once: %v", err)
	}
	first()
	if _, err := lane.Take(t.Context()); err != nil {
		t.Errorf("after one was given back: %v", err)
	}
}
