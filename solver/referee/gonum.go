package referee

import (
	"context"
	"errors"
	"fmt"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
)

var errTooLong = errors.New("gonum was stopped after too many iterations; it may be cycling")

// watched is the matrix that gonum works on. gonum's Simplex can neither be
// told to stop nor be limited, but it comes back to its matrix for a column in
// every iteration. There the context and the number of reads are looked at,
// and a run that must end is unwound by a panic that [iterate] catches. So
// nothing is left running behind the caller's back.
type watched struct {
	ctx  context.Context
	cols [][]float64
	rows int
	left int // reads of first entries
}

type stop struct{ err error }

func (w *watched) Dims() (r, c int) { return w.rows, len(w.cols) }
func (w *watched) T() mat.Matrix    { return mat.Transpose{Matrix: w} }

func (w *watched) At(i, j int) float64 {
	if i == 0 {
		w.left--
		if w.left < 0 {
			panic(stop{errTooLong})
		}
		if err := w.ctx.Err(); err != nil {
			panic(stop{err})
		}
	}
	return w.cols[j][i]
}

// iterate lets gonum minimise c·z subject to cols·z = b, z ≥ 0 from a feasible
// basis. It returns the point that gonum stopped at, nil if there is none, and
// gonum's error or what was thrown. An error together with a point is usual
// after a breakdown: the point may still be the optimum.
func iterate(ctx context.Context, c []float64, cols [][]float64, b []float64, basis []int) (z []float64, err error) {
	w := &watched{ctx: ctx, cols: cols, rows: len(b), left: columnReads + 4*len(cols)}
	defer func() {
		switch thrown := recover().(type) {
		case nil:
		case stop:
			z, err = nil, thrown.err
		default:
			z, err = nil, fmt.Errorf("gonum panicked: %v", thrown)
		}
	}()
	_, z, err = lp.Simplex(c, w, b, costTolerance, basis)
	return z, err
}
