package bench

import (
	"context"
	"errors"
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
