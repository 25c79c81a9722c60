package search

import (
	"context"
	"errors"
	"time"
)

// Part is ctx with a part of the time that is left to it: for one step of
// several, so that those after it have some of the one deadline too. Without a
// deadline there is none.
func Part(ctx context.Context, part float64) (context.Context, context.CancelFunc) {
	end, ok := ctx.Deadline()
	if !ok {
		return context.WithCancel(ctx)
	}
	now := time.Now()
	return context.WithDeadline(ctx, now.Add(time.Duration(part*float64(end.Sub(now)))))
}

// WithPart does one step in a part of the time that is left.
func WithPart[T any](ctx context.Context, part float64, do func(context.Context) T) T {
	ctx, stop := Part(ctx, part)
	defer stop()
	return do(ctx)
}

// Interrupted reports whether the user ended the work: not whether its time is up.
func Interrupted(ctx context.Context) bool { return errors.Is(ctx.Err(), context.Canceled) }

// OutOfTime says, where a step ended with its time, that it was the time.
func OutOfTime(ctx context.Context) bool { return errors.Is(ctx.Err(), context.DeadlineExceeded) }
