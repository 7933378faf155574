package bench

import (
	"context"
	"errors"
	"io"
	"time"
)

// turns bounds how much long work is done at once.
type turns chan struct{}

func newTurns(n int) turns { return make(turns, n) }

// errBusy says that no turn came free in time.
var errBusy = errors.New("busy with other sounds; try again in a moment")

// patience is how long a request waits for its turn.
const patience = 30 * time.Second

// take waits for a turn; release gives it back.
func (t turns) take(ctx context.Context) (release func(), err error) {
	wait := time.NewTimer(patience)
	defer wait.Stop()
	select {
	case t <- struct{}{}:
		return func() { <-t }, nil
	case <-ctx.Done():
		return nil, ctx.Err()
	case <-wait.C:
		return nil, errBusy
	}
}

// A turnReader reads what a client sends, and gives its turn back while it
// waits: a slow upload holds up nobody.
type turnReader struct {
	io.Reader
	ctx     context.Context
	turns   turns
	release func()
}

// Read reads without a turn and has one again afterwards.
func (t *turnReader) Read(p []byte) (int, error) {
	t.done()
	n, err := t.Reader.Read(p)
	release, turnErr := t.turns.take(t.ctx)
	if turnErr != nil {
		return 0, turnErr
	}
	t.release = release
	return n, err
}

// done gives the turn back.
func (t *turnReader) done() {
	if t.release != nil {
		t.release()
		t.release = nil
	}
}
