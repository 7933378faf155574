package hear

import (
	"context"
	"math"

	"heddle/audio"
	"heddle/exercise"
)

// TakeOptions is what is known of how a take was recorded. The zero value is a
// take without a click.
type TakeOptions struct {
	// Clicked says that the take was played to a click at the exercise's tempo.
	Clicked bool
	// ClickS is when the click's first bar line fell, in seconds from the start
	// of the recording. It may be negative.
	ClickS float64
}

// MarkTake hears a recording and marks it against an exercise. It reads src to
// its end; what can't be heard is a [*pitch.InputError], as from [Hear].
func MarkTake(ctx context.Context, src *audio.Source, ex *exercise.Exercise, opts TakeOptions) (*Report, error) {
	heard, tuningCents, err := Hear(ctx, src, ex)
	if err != nil {
		return nil, err
	}
	return Mark(heard, tuningCents, ex, opts), nil
}

// Mark marks what was heard of a take. A take that is mostly wrong against its
// click and mostly right by its own beat was recorded through a delay that
// nobody knew of: it is marked by its own beat, and BehindMS is the delay.
func Mark(heard []Heard, tuningCents float64, ex *exercise.Exercise, opts TakeOptions) *Report {
	r := mark(heard, tuningCents, ex, opts)
	if !opts.Clicked || mostlyRight(r) {
		return r
	}
	own := mark(heard, tuningCents, ex, TakeOptions{})
	if !mostlyRight(own) || math.Abs(own.Tempo/ex.Tempo-1) > delayedTempo {
		return r
	}
	first := ex.Rhythm.Sounding(ex.Notes[0].Start).Quarters()
	own.BehindMS = round(1000*(own.OffsetS-opts.ClickS-first*60/ex.Tempo), 10)
	return own
}

// What shows that a take was recorded through a delay.
const (
	delayedRight = 0.8  // share of its notes that are right by its own beat, at least
	delayedTempo = 0.03 // how far its own tempo is from the click's, as a share of it, at most
)

func mostlyRight(r *Report) bool {
	return float64(r.Summary.Right) >= delayedRight*float64(len(r.Marks))
}

// A take is of another line when less than this share of the notes heard is
// right. Fewer notes than that can't tell.
const (
	otherLineShare = 1.0 / 3
	otherLineLeast = 4
)

// OtherLine reports whether the take is hardly one of this line, so that its
// timing and its notes tell nothing.
func (r *Report) OtherLine() bool {
	sum := r.Summary
	heard := sum.Right + sum.Wrong + sum.Extra
	return heard >= otherLineLeast && float64(sum.Right) < otherLineShare*float64(heard)
}
