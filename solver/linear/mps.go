package linear

import (
	"bytes"
	"fmt"
	"io"
)

// MaxMPSBytes is the largest MPS input that [ReadMPS] takes. The product's own
// largest models are under 20 MB.
const MaxMPSBytes = 128 << 20

// maxMPSLine is the longest line, in bytes: six fields with names far longer
// than anybody gives.
const maxMPSLine = 1 << 16

// Form is one of the two layouts of an MPS file.
type Form int

// The layouts. Free form separates fields by blanks or tabs; fixed form puts
// them into columns 2–3, 5–12, 15–22, 25–36, 40–47 and 50–61 and so allows
// blanks inside a name.
const (
	FreeForm Form = iota
	FixedForm
)

// String returns "free" or "fixed".
func (f Form) String() string {
	if f == FixedForm {
		return "fixed"
	}
	return "free"
}

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
// input is at fault, with at most [MaxErrors] of them.
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
func ReadMPS(file string, r io.Reader) (*MPS, error) {
	data, err := io.ReadAll(io.LimitReader(r, MaxMPSBytes+1))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	if len(data) > MaxMPSBytes {
		return nil, SyntaxErrors{{File: file, Line: 1, Column: 1, Field: "file",
			Problem: fmt.Sprintf("larger than %d MB", MaxMPSBytes>>20), Remedy: "split the model, or leave out what is not needed"}}
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	free := newMPSReader(file, FreeForm)
	free.read(data)
	if free.errors.count == 0 {
		return free.finish()
	}
	fixed := newMPSReader(file, FixedForm)
	fixed.read(data)
	if fixed.errors.count < free.errors.count {
		return fixed.finish()
	}
	return free.finish()
}
