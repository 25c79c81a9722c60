package linear

import (
	"context"
	"fmt"
	"io"
)

// What [ReadMPS] takes at most. Files and pipes are held to the same.
const (
	// MaxMPSBytes is the largest input. The product's own largest models are
	// under 20 MB.
	MaxMPSBytes = 128 << 20
	// MaxMPSRows and MaxMPSColumns bound the model.
	MaxMPSRows, MaxMPSColumns = 500_000, 500_000
	// MaxMPSLine is the longest line, in bytes: six fields with names far longer
	// than anybody gives.
	MaxMPSLine = 1 << 16
)

// Form is one of the two layouts of an MPS file.
type Form int

// The layouts. Free form separates fields by blanks or tabs; fixed form puts
// them into columns 2–3, 5–12, 15–22, 25–36, 40–47 and 50–61 and so allows
// blanks inside a name.
const (
	FreeForm Form = iota
	FixedForm
)

// An MPS is a program read from an MPS file.
type MPS struct {
	Problem *Problem
	Form    Form
	Notes   []Note // what was taken in a way the reader should know of
}

// ReadMPS reads a program in MPS form; file is the name that errors and notes
// carry. The form is found out: the input is free if it reads as free form
// without an error, else fixed if it reads as fixed without one, else the
// errors are those of the form with fewer. The error is [SyntaxErrors] when the
// input is at fault, with at most [MaxErrors] of them. Reading takes time in
// proportion to the input, and ends with the error of ctx when ctx does and r
// returns.
//
// Sections NAME, OBJSENSE, ROWS, COLUMNS, RHS, RANGES, BOUNDS and ENDATA are
// read; headers start in the first column, data lines with a blank. Lines that
// start with * and blank lines are skipped, as is what follows column 61, or a
// $ that opens a name field, in fixed form. Where the tradition leaves room:
//
//   - OBJSENSE stands alone with MAX, MAXIMIZE, MAXIMISE, MIN, MINIMIZE or
//     MINIMISE on the next line, or has the word on its own line. Without it
//     the objective is minimised.
//   - The first N row is the objective; other N rows are dropped, with a note.
//     Without an N row the objective is zero, with a note.
//   - A right-hand side of the objective row is minus its constant.
//   - A range R of a row with right-hand side b means [b, b+|R|] for G,
//     [b−|R|, b] for L, and for E [b, b+R] if R ≥ 0, [b+R, b] if R < 0.
//   - Of several RHS, RANGES or BOUNDS vectors the first is used, the others
//     are dropped, with a note. The name of a vector may be missing.
//   - Bounds are UP, LO, FX, FR, MI, PL, BV, LI and UI. They take effect in the
//     order of the file. MI leaves the upper bound as it is. Semi-continuous
//     columns (SC) are refused.
//   - A negative UP or UI on a column whose lower bound is zero and was not
//     given removes the lower bound, with a note. UP 0 does not: the column is
//     then fixed at zero.
//   - A column between the markers INTORG and INTEND is integer with the
//     bounds [0, +Inf) like any other. Some programs take [0, 1] when there is
//     no bound for it, so there is a note.
//   - A bound or right-hand side of 1e30 or more is none.
//   - Decimal numbers may have a Fortran exponent (1.5D3). NaN, inf, hex and
//     digit separators are refused.
func ReadMPS(ctx context.Context, file string, r io.Reader) (*MPS, error) {
	data, err := readText(ctx, file, r)
	if err != nil {
		return nil, err
	}
	free := newMPSReader(file, FreeForm)
	free.read(ctx, data)
	best := free
	if free.errors.count > 0 {
		fixed := newMPSReader(file, FixedForm)
		if fixed.read(ctx, data); fixed.errors.count < free.errors.count {
			best = fixed
		}
	}
	if ctx.Err() != nil {
		return nil, fmt.Errorf("%s: %w", file, ctx.Err())
	}
	return best.finish()
}
