package store

import (
	"context"
	"time"

	"heddle/practice"
)

// tempoRuns is how many of the newest runs are shown as tempo over time.
const tempoRuns = 2000

// Progress gathers what a player's log adds up to.
func Progress(ctx context.Context, s Store, day time.Time) (*practice.Progress, error) {
	record, err := s.Record(ctx)
	if err != nil {
		return nil, err
	}
	asked, err := s.Asked(ctx)
	if err != nil {
		return nil, err
	}
	runs, err := s.Runs(ctx, Which{Most: tempoRuns})
	if err != nil {
		return nil, err
	}
	return practice.ProgressOf(record, asked, runs, day), nil
}
