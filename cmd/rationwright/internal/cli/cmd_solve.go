package cli

import (
	"context"
	"fmt"
	"math"
	"strconv"
	"time"

	"github.com/spf13/cobra"

	"rationwright/cmd/rationwright/internal/exit"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/linear"
	"rationwright/solver/search"
)

// solveWithin is the gap of solve where --within is silent: published optima
// are compared to one part in a million, and this is well inside.
const solveWithin = 1e-7

// answer is the JSON form of what solve found. An absent key is an unknown
// value, never 0.
type solveAnswer struct {
	Status  string   `json:"status"` // optimal | infeasible | unbounded | limit | numerical
	Value   *float64 `json:"value,omitempty"`
	Bound   *float64 `json:"bound,omitempty"`
	Gap     *float64 `json:"gap,omitempty"`
	Seconds float64  `json:"seconds"`
	Why     string   `json:"why,omitempty"` // limit and numerical: in plain words
}

func newSolve(s *session) *cobra.Command {
	var (
		to     shape
		within = fraction(solveWithin)
		limit  time.Duration
	)
	cmd := &cobra.Command{
		Use:   "solve FILE.mps",
		Short: "Solve any linear or whole-number program in MPS form",
		Long: `solve reads a program in MPS form (fixed or free), solves it with the engine that
makes the plans, and prints its status, value, bound and gap. FILE - reads
standard input. Status optimal, infeasible and unbounded are proven.`,
		Example: `  rationwright export --out ternsund.mps
  rationwright solve ternsund.mps --within 1% --time 30s`,
		Args: oneArg("solve takes one FILE.mps, or - for standard input; %d given"),
		RunE: to.work(s, func(_ *cobra.Command, args []string, out *output) error {
			problem, err := s.readMPS(args[0])
			switch {
			case s.ctx.Err() != nil:
				return err
			case err != nil:
				return badInput(err)
			}
			ctx := s.ctx
			if limit > 0 { // reading counts too
				var stop context.CancelFunc
				ctx, stop = s.within(limit)
				defer stop()
			}
			return s.solve(ctx, problem, search.Options{Gap: max(float64(within), tightestGap)}, out)
		}),
	}
	fs := cmd.Flags()
	fs.Var(&within, "within", "stop when proven this near the best possible: 1% or 0.01")
	fs.Var((*seconds)(&limit), "time", "stop after this: 10s, 2m (default: no limit)")
	to.add(fs, formatTable, formatJSON)
	return cmd
}

// readMPS reads a program and passes on what the reader noted. An interrupt ends it,
// even while a pipe keeps it waiting to be opened or filled.
func (s *session) readMPS(file string) (*linear.Problem, error) {
	m, err := await(s.ctx, func() (*linear.MPS, error) {
		in, name, err := s.openModel(file)
		if err != nil {
			return nil, err
		}
		defer in.Close()
		return linear.ReadMPS(s.ctx, name, in)
	})
	if err != nil {
		return nil, err
	}
	for _, n := range m.Notes {
		s.note("%s", n)
	}
	return m.Problem, nil
}

// solve solves p, writes the answer to out and ends with its code.
func (s *session) solve(ctx context.Context, p *linear.Problem, opts search.Options, out *output) error {
	line := newProgress(s.stderr, "")
	opts.Progress = line.show
	start := time.Now()
	result := search.Run(ctx, p, opts)
	line.clear()
	a := answerOf(&result, time.Since(start).Seconds())

	if err := out.answer(a, nil, a.sheet(p)); err != nil {
		return err
	}
	code := exit.OfSolve(result.Status.String()).Solve
	if code == exit.Limit && search.Interrupted(ctx) && result.X == nil {
		code = exit.Interrupted
	}
	return ended(code)
}

// answerOf keeps of a result what is known and finite.
func answerOf(r *search.Result, took float64) *solveAnswer {
	a := &solveAnswer{Status: r.Status.String(), Seconds: took}
	if r.Status == search.Limit || r.Status == search.Numerical {
		a.Why = r.Why
	}
	if r.Status != search.Optimal && r.Status != search.Limit {
		return a
	}
	if !math.IsInf(r.Bound, 0) && !math.IsNaN(r.Bound) {
		a.Bound = &r.Bound
	}
	if r.X != nil {
		a.Value = &r.Value
		if a.Bound != nil {
			a.Gap = &r.Gap
		}
	}
	return a
}

// sheet lays out an answer as a table.
func (a *solveAnswer) sheet(p *linear.Problem) *sheet.Sheet {
	integers, entries := 0, 0
	for _, c := range p.Cols {
		entries += len(c.Entries)
		if c.Integer {
			integers++
		}
	}
	g := sheet.NewGrid("what", "~answer")
	g.Row("", "status", a.Status)
	add := func(name string, v *float64) {
		if v != nil {
			g.Row("", name, strconv.FormatFloat(*v, 'g', 10, 64))
		}
	}
	add("value", a.Value)
	add("bound", a.Bound)
	if a.Gap != nil {
		gap := *a.Gap
		if gap < tightestGap {
			gap = 0 // what is left is the rounding of the arithmetic
		}
		g.Row("", "gap", strconv.FormatFloat(100*gap, 'g', 3, 64)+" %")
	}
	g.Row("", "seconds", strconv.FormatFloat(a.Seconds, 'f', 3, 64))
	if a.Why != "" {
		g.Row("", "why", a.Why)
	}
	g.Row("", "model", fmt.Sprintf("%d rows, %d columns (%d whole), %d entries", len(p.Rows), len(p.Cols), integers, entries))
	return &sheet.Sheet{Sections: []sheet.Section{{Table: g}}}
}
