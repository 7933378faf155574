package bench

import (
	"bytes"
	"context"
	"errors"
	"slices"
	"sync"
)

// A soundShelf keeps the sounds that were rendered last, up to a number of
// bytes. Several requests for one sound render it once.
type soundShelf struct {
	most int64

	mu    sync.Mutex
	size  int64
	kept  []kept // used last at the end
	being map[string]*rendering
}

type kept struct {
	key   string
	sound []byte
}

// A rendering is a sound that is being made.
type rendering struct {
	done  chan struct{}
	sound []byte
	err   error
}

func newSoundShelf(most int64) *soundShelf {
	return &soundShelf{most: most, being: map[string]*rendering{}}
}

// get returns the sound kept under key, or makes it. Whoever asks first makes
// it, and the others wait; when the maker's context ends, a waiting one takes
// over.
func (s *soundShelf) get(ctx context.Context, key string, render func(context.Context) ([]byte, error)) ([]byte, error) {
	for {
		s.mu.Lock()
		if i := slices.IndexFunc(s.kept, func(k kept) bool { return k.key == key }); i >= 0 {
			k := s.kept[i]
			s.kept = append(slices.Delete(s.kept, i, i+1), k)
			s.mu.Unlock()
			return k.sound, nil
		}
		job, waiting := s.being[key]
		if !waiting {
			job = &rendering{done: make(chan struct{})}
			s.being[key] = job
		}
		s.mu.Unlock()
		if !waiting {
			return s.make(ctx, key, job, render)
		}
		select {
		case <-job.done:
		case <-ctx.Done():
			return nil, ctx.Err()
		}
		if job.err == nil {
			return job.sound, nil
		}
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
	}
}

// errNotMade is what those who wait for a sound get when its render panics.
var errNotMade = errors.New("the sound could not be made")

// make renders a sound and lets those who wait for it go on, even after a panic.
func (s *soundShelf) make(ctx context.Context, key string, job *rendering, render func(context.Context) ([]byte, error)) ([]byte, error) {
	job.err = errNotMade
	defer s.finish(key, job)
	sound, err := render(ctx)
	// A buffer that grew has up to as much room again, which size does not count.
	job.sound, job.err = bytes.Clone(sound), err
	return job.sound, job.err
}

// finish keeps a sound that was made and drops the ones used longest ago.
func (s *soundShelf) finish(key string, job *rendering) {
	s.mu.Lock()
	defer s.mu.Unlock()
	delete(s.being, key)
	close(job.done)
	size := int64(len(job.sound))
	if job.err != nil || size > s.most {
		return
	}
	s.kept = append(s.kept, kept{key, job.sound})
	s.size += size
	for s.size > s.most {
		s.size -= int64(len(s.kept[0].sound))
		s.kept = slices.Delete(s.kept, 0, 1)
	}
}
