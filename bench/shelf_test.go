package bench

import (
	"context"
	"errors"
	"net/http"
	"slices"
	"strconv"
	"sync"
	"sync/atomic"
	"testing"
	"testing/synctest"
	"time"
)

func TestASoundAskedForTwiceIsMadeOnce(t *testing.T) {
	shelf := newSoundShelf(100)
	var made atomic.Int32
	gate := make(chan struct{})
	render := func(context.Context) ([]byte, error) {
		made.Add(1)
		<-gate
		return make([]byte, 10), nil
	}
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			if wav, err := shelf.get(t.Context(), "line", render); err != nil || len(wav) != 10 {
				t.Errorf("%d bytes, %v", len(wav), err)
			}
		})
	}
	close(gate)
	all.Wait()
	if _, err := shelf.get(t.Context(), "line", render); err != nil || made.Load() != 1 {
		t.Errorf("made %d times, %v", made.Load(), err)
	}
}

func TestAPanicDoesNotBlockASound(t *testing.T) {
	shelf := newSoundShelf(100)
	func() {
		defer func() {
			if recover() == nil {
				t.Error("the panic is lost")
			}
		}()
		shelf.get(t.Context(), "line", func(context.Context) ([]byte, error) { panic("a fault in a render") })
	}()
	shelf.mu.Lock()
	blocked := len(shelf.being)
	shelf.mu.Unlock()
	if blocked != 0 {
		t.Fatal("the sound is blocked")
	}
}

func TestAKeptSoundHasNoSpareRoom(t *testing.T) {
	shelf := newSoundShelf(1 << 20)
	sound, err := shelf.get(t.Context(), "line", func(context.Context) ([]byte, error) { return make([]byte, 1<<16, 1<<18), nil })
	if err != nil || len(sound) != 1<<16 || cap(sound) > 1<<17 {
		t.Errorf("%d bytes in room for %d, %v", len(sound), cap(sound), err)
	}
}

func TestIdleIsReportedOnceAfterTheLastRequest(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var idle atomic.Int64
		h := whenIdle(http.HandlerFunc(func(http.ResponseWriter, *http.Request) { time.Sleep(2 * idleAfter) }), func() { idle.Add(1) })
		h.ServeHTTP(nil, nil)
		if idle.Load() != 0 {
			t.Error("idle while a request is open")
		}
		time.Sleep(3 * idleAfter)
		synctest.Wait()
		if idle.Load() != 1 {
			t.Errorf("idle %d times, want once", idle.Load())
		}
	})
}

func TestTheShelfHoldsNoMoreThanItMay(t *testing.T) {
	shelf := newSoundShelf(100)
	ten := func(context.Context) ([]byte, error) { return make([]byte, 10), nil }
	for i := range 50 {
		if _, err := shelf.get(t.Context(), strconv.Itoa(i), ten); err != nil {
			t.Fatal(err)
		}
		// The first one is asked for again and again, and so stays.
		if _, err := shelf.get(t.Context(), "0", ten); err != nil {
			t.Fatal(err)
		}
	}
	var keys []string
	for _, k := range shelf.kept {
		keys = append(keys, k.key)
	}
	if shelf.size > 100 || len(keys) != 10 {
		t.Errorf("%d bytes in %d sounds", shelf.size, len(keys))
	}
	if !slices.Contains(keys, "0") || !slices.Contains(keys, "49") || slices.Contains(keys, "20") {
		t.Error("what was used last did not stay, or what was not did")
	}
	if _, err := shelf.get(t.Context(), "huge", func(context.Context) ([]byte, error) { return make([]byte, 1000), nil }); err != nil || shelf.size > 100 {
		t.Errorf("a sound larger than the shelf: %v, %d bytes kept", err, shelf.size)
	}
}

func TestAFailedSoundIsTriedAgain(t *testing.T) {
	shelf := newSoundShelf(100)
	broken := errors.New("broken")
	if _, err := shelf.get(t.Context(), "line", func(context.Context) ([]byte, error) { return nil, broken }); !errors.Is(err, broken) {
		t.Errorf("got %v", err)
	}
	if wav, err := shelf.get(t.Context(), "line", func(context.Context) ([]byte, error) { return []byte{1}, nil }); err != nil || len(wav) != 1 {
		t.Errorf("%d bytes, %v", len(wav), err)
	}
	if len(shelf.being) != 0 {
		t.Error("something is still being made")
	}
}
