package batch

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"runtime"
	"runtime/debug"
	"time"

	"golang.org/x/sync/errgroup"

	"rationwright/cmd/rationwright/internal/register"
)

// ErrChanged is a register that is not as it was when it was first read.
var ErrChanged = errors.New("the register has changed while it was read; give it again when it is still")

// ahead is how many households a processor may be ahead of the line that is
// written next: beyond that it waits, so that what is held in memory has an end.
const ahead = 8

// garbage is the share of what is in use that may pile up as garbage before it is
// collected, in per cent: searches make and drop many small things, and what is in use
// is some 20 MB.
const garbage = 300

// memory is the bytes in use from which garbage is collected whenever that helps: with all
// answers that are remembered, garbage of three times what is in use came to 400 MB.
const memory = 224 << 20

// Run is one run over a register.
type Run struct {
	Name    string // of the register, for errors
	Scan    *Scan
	Planner *Planner
	Out     io.Writer                              // gets every line whole, in one write
	Done    int                                    // households whose lines are there already
	Total   *Total                                 // what the lines there already come to, and then all
	Each    func(*register.Household, *Made) error // before the line of a household is written, of several beside each other; may be nil
	Told    func(warning string)                   // of reading a household
	Wrote   func(households int)                   // after each line
}

// job is a household on its way.
type job struct {
	household *register.Household
	made      chan *Made
}

// Go plans the households of in behind those that are done. Where ctx ends, what is
// written are whole lines of the first households.
func (r *Run) Go(ctx context.Context, in io.Reader) error {
	defer debug.SetGCPercent(debug.SetGCPercent(garbage))
	defer debug.SetMemoryLimit(debug.SetMemoryLimit(min(memory, debug.SetMemoryLimit(-1))))
	workers := runtime.GOMAXPROCS(0)
	group, ctx := errgroup.WithContext(ctx)
	jobs := make(chan job)
	order := make(chan job, ahead*workers)
	group.Go(func() error {
		defer close(jobs)
		defer close(order)
		return r.read(ctx, in, func(h *register.Household) error {
			j := job{h, make(chan *Made, 1)}
			for _, to := range []chan job{order, jobs} {
				select {
				case to <- j:
				case <-ctx.Done():
					return ctx.Err()
				}
			}
			return nil
		})
	})
	for range workers {
		group.Go(func() error {
			for j := range jobs {
				made, err := r.Planner.Plan(ctx, j.household)
				if err == nil && r.Each != nil {
					err = r.Each(j.household, made)
				}
				if err != nil {
					return err
				}
				made.Plan, made.Request = nil, nil
				j.made <- made
			}
			return ctx.Err()
		})
	}
	group.Go(func() error {
		for j := range order {
			select {
			case made := <-j.made:
				if err := r.write(made); err != nil {
					return err
				}
			case <-ctx.Done():
				return ctx.Err()
			}
		}
		return nil
	})
	return group.Wait()
}

// read hands on the households that are not done.
func (r *Run) read(ctx context.Context, in io.Reader, next func(*register.Household) error) error {
	sum := sha256.New()
	reader, err := register.NewReader(r.Name, io.TeeReader(in, sum))
	if err != nil {
		return err
	}
	for n := 0; ; n++ {
		h, err := reader.Next()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return err
		}
		if n < r.Done {
			continue
		}
		r.Scan.judge(r.Name, h)
		if err := next(h); err != nil {
			return err
		}
	}
	if sumText(sum) != r.Scan.Digest {
		return fmt.Errorf("%s: %w", r.Name, ErrChanged)
	}
	return ctx.Err()
}

// write writes the line of one household.
func (r *Run) write(m *Made) error {
	for _, w := range m.Warnings {
		r.Told(w)
	}
	if _, err := r.Out.Write(m.Line); err != nil {
		return err
	}
	r.Total.add(&m.Result)
	r.Wrote(r.Total.Households)
	return nil
}

// Left is how much longer a run takes at the rate so far: done of all households
// since a time that was spent, the first before of them beforehand.
func Left(all, done, before int, spent time.Duration) (rate float64, left time.Duration) {
	if done <= before || spent <= 0 {
		return 0, 0
	}
	rate = float64(done-before) / spent.Seconds()
	return rate, time.Duration(float64(all-done) / rate * float64(time.Second))
}
