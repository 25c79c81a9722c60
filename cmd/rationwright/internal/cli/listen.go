package cli

import (
	"context"
	"io"
)

// heard is a reader that an interrupt ends, also while it waits for input: a pipe
// may stay silent for ever.
type heard struct {
	ctx context.Context
	in  io.Reader
	buf []byte // of the reading goroutine, which may outlive the call
}

func (h *heard) Read(p []byte) (int, error) {
	if h.buf == nil {
		h.buf = make([]byte, 1<<16)
	}
	n, err := await(h.ctx, func() (int, error) { return h.in.Read(h.buf[:min(len(p), len(h.buf))]) })
	return copy(p, h.buf[:n]), err
}

// await returns what do returns, or the context's error as soon as it is done.
func await[T any](ctx context.Context, do func() (T, error)) (T, error) {
	type result struct {
		v   T
		err error
	}
	done := make(chan result, 1)
	go func() {
		v, err := do()
		done <- result{v, err}
	}()
	select {
	case r := <-done:
		return r.v, r.err
	case <-ctx.Done():
		var none T
		return none, ctx.Err()
	}
}
