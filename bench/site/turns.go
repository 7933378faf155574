package site

import (
	"context"
	"errors"
	"io"
	"time"
)

// Turns bounds how much long work is done at once.
type Turns chan struct{}

// NewTurns returns n turns.
func NewTurns(n int) Turns { return make(Turns, n) }

// ErrBusy says that no turn came free in time.
var ErrBusy = errors.New("busy with other sounds; try again in a moment")

// patience is how long a request waits for its turn.
const patience = 30 * time.Second

// Take waits for a turn; release gives it back.
func (t Turns) Take(ctx context.Context) (release func(), err error) {
	wait := time.NewTimer(patience)
	defer wait.Stop()
	select {
	case t <- struct{}{}:
		return func() { <-t }, nil
	case <-ctx.Done():
		return nil, ctx.Err()
	case <-wait.C:
		return nil, ErrBusy
	}
}

// A TurnReader reads what a client sends, and gives its turn back while it
// waits: a slow upload holds up nobody.
type TurnReader struct {
	io.Reader
	Context context.Context
	Turns   Turns

	release func()
}

// Read reads without a turn and has one again afterwards.
func (t *TurnReader) Read(p []byte) (int, error) {
	t.Done()
	n, err := t.Reader.Read(p)
	release, turnErr := t.Turns.Take(t.Context)
	if turnErr != nil {
		return 0, turnErr
	}
	t.release = release
	return n, err
}

// Done gives the turn back.
func (t *TurnReader) Done() {
	if t.release != nil {
		t.release()
		t.release = nil
	}
}
