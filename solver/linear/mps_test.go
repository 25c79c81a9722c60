package linear_test

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"
	"testing/iotest"

	"rationwright/solver/linear"
)

func read(text string) (*linear.MPS, error) {
	return linear.ReadMPS(context.Background(), "m.mps", strings.NewReader(text))
}

// fixedCard lays six fields out in fixed columns.
func fixedCard(f ...any) string {
	return strings.TrimRight(fmt.Sprintf(" %-2s %-8s  %-8s  %12s   %-8s  %12s", f...), " ") + "\n"
}

const twoRows = `NAME t
ROWS
 N cost
 L most
 G least
 E equal
COLUMNS
 x cost 1 most 2
 x least 3 equal 4
 y cost -1 most 0.5
`

// What MPS text means, shown as algebra. The meanings are those of the format's
// tradition as the doc comment of ReadMPS states it.
func TestReadMPS(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"no right-hand sides", twoRows + "ENDATA\n", `program t
minimise
  x - y
subject to
  most: 2 x + 0.5 y <= 0
  least: 3 x >= 0
  equal: 4 x = 0
`},
		{"right-hand sides with and without a vector name, and the constant", twoRows + `RHS
 b most 4 least 1
 equal 8 cost 10
ENDATA
`, `program t
minimise
  x - y - 10
subject to
  most: 2 x + 0.5 y <= 4
  least: 3 x >= 1
  equal: 4 x = 8
`},
		{"negative right-hand side of the objective row", twoRows + "RHS\n b cost -2.5\nENDATA\n", `program t
minimise
  x - y + 2.5
subject to
  most: 2 x + 0.5 y <= 0
  least: 3 x >= 0
  equal: 4 x = 0
`},
		{"ranges before right-hand sides", twoRows + `RANGES
 r most 3 least -3
 r equal 2
RHS
 b most 4 least 1
 b equal 8
ENDATA
`, `program t
minimise
  x - y
subject to
  most: 1 <= 2 x + 0.5 y <= 4
  least: 1 <= 3 x <= 4
  equal: 8 <= 4 x <= 10
`},
		{"negative and zero range of an equation", twoRows + "RHS\n b equal 8 most 1\nRANGES\n r equal -2 most 0\nENDATA\n", `program t
minimise
  x - y
subject to
  most: 2 x + 0.5 y = 1
  least: 3 x >= 0
  equal: 6 <= 4 x <= 8
`},
		{"a range is as large without its sign, however many digits and whatever exponent it has", twoRows + "RHS\n b most 4 least 1\nRANGES\n r least -2.0000000000000000000 most -0.30000000000000000000D+1\nENDATA\n", `program t
minimise
  x - y
subject to
  most: 1 <= 2 x + 0.5 y <= 4
  least: 1 <= 3 x <= 3
  equal: 4 x = 0
`},
		{"a vector that has no name at first is the one named later", twoRows + "RHS\n most 4\n b least 1\n equal 8\nENDATA\n", `program t
minimise
  x - y
subject to
  most: 2 x + 0.5 y <= 4
  least: 3 x >= 1
  equal: 4 x = 8
`},
		{"a column of a marker's name, and blank lines of nothing", "\n\nROWS\n N c\n\nCOLUMNS\n\n 'MARKER' c 1\n\n\nENDATA\n\n", "minimise\n  'MARKER'\nsubject to\n"},
		{"second right-hand side vector dropped", twoRows + "RHS\n a most 1\n b most 2\nENDATA\n", `program t
minimise
  x - y
subject to
  most: 2 x + 0.5 y <= 1
  least: 3 x >= 0
  equal: 4 x = 0
`},
		{"other N rows dropped, with their right-hand sides and ranges", `NAME
ROWS
 N cost
 N weight
 L r
COLUMNS
 x cost 1 weight 5
 x r 1
RHS
 b weight 7 r 2
RANGES
 g weight 7
ENDATA`, `minimise
  x
subject to
  r: x <= 2
`},
		{"no objective", "ROWS\n G r\nCOLUMNS\n x r 1\nENDATA\n", "minimise\n  0\nsubject to\n  r: x >= 0\n"},
		{"objective row not the first", "ROWS\n G r\n N c\nCOLUMNS\n x r 1 c 2\nENDATA\n", "minimise\n  2 x\nsubject to\n  r: x >= 0\n"},
		{"maximise, on the next line", "NAME\nOBJSENSE\n    MAX\nROWS\n N c\nCOLUMNS\n x c 1\nENDATA\n", "maximise\n  x\nsubject to\n"},
		{"maximise, on the same line", "NAME\nOBJSENSE MAXIMIZE\nROWS\n N c\nCOLUMNS\n x c 1\nENDATA\n", "maximise\n  x\nsubject to\n"},
		{"minimise after the name of free form", "NAME two words FREE\nOBJSENSE MIN\nROWS\n N c\nCOLUMNS\n x c 1\nENDATA\n", "program two words\nminimise\n  x\nsubject to\n"},
		{"comments, blank lines, tabs, CRLF, byte order mark", "\ufeff* first\r\nNAME\tt\r\n\r\nROWS\r\n\tN\tc\r\n*in between\r\n L\tr\r\n   \r\nCOLUMNS\r\n\tx\tc\t1\tr\t1\r\nRHS\r\n\tr\t9\r\nENDATA\r\n", "program t\nminimise\n  x\nsubject to\n  r: x <= 9\n"},
		{"numbers", "ROWS\n N c\n L r\nCOLUMNS\n x c 8.33E-4 r 1.5D3\n y c .5 r 1.\n z c +2 r -0\nENDATA\n", "minimise\n  0.000833 x + 0.5 y + 2 z\nsubject to\n  r: 1500 x + y <= 0\n"},
		{"rows out of order within a column", "ROWS\n N c\n L a\n L b\nCOLUMNS\n x b 2\n x a 1\n x c 3\nENDATA\n", "minimise\n  3 x\nsubject to\n  a: x <= 0\n  b: 2 x <= 0\n"},
		{"right-hand sides and ranges that mean none", twoRows + "RHS\n b most 1e30 least -1e31\nRANGES\n g equal 1e30\nENDATA\n", `program t
minimise
  x - y
subject to
  most: 2 x + 0.5 y free
  least: 3 x free
  equal: 4 x >= 0
`},
	} {
		t.Run(c.name, func(t *testing.T) {
			m, err := read(c.text)
			if err != nil {
				t.Fatal(err)
			}
			if got := m.Problem.String(); got != c.want {
				t.Errorf("got\n%swant\n%s", got, c.want)
			}
			if err := m.Problem.Validate(); err != nil {
				t.Error(err)
			}
			roundTrip(t, m.Problem)
			// A pipe may give a byte at a time.
			slow, err := linear.ReadMPS(context.Background(), "m.mps", iotest.OneByteReader(strings.NewReader(c.text)))
			if err != nil || slow.Problem.String() != c.want || fmt.Sprint(slow.Notes) != fmt.Sprint(m.Notes) {
				t.Errorf("byte by byte: %v, %+v", err, slow)
			}
		})
	}
}

func TestReadBounds(t *testing.T) {
	for _, c := range []struct{ name, bounds, want string }{
		{"none", "", ""},
		{"UP", " UP b x 4", "bounds\n  0 <= x <= 4\n"},
		{"UP without a vector name", " UP x 4", "bounds\n  0 <= x <= 4\n"},
		{"UP zero keeps the lower bound", " UP b x 0", "bounds\n  x = 0\n"},
		{"UP negative removes the lower bound", " UP b x -4", "bounds\n  x <= -4\n"},
		{"UP negative after LO negative", " LO b x -9\n UP b x -4", "bounds\n  -9 <= x <= -4\n"},
		{"UP negative before LO negative", " UP b x -4\n LO b x -9", "bounds\n  -9 <= x <= -4\n"},
		{"LO", " LO b x 2", "bounds\n  x >= 2\n"},
		{"FX", " FX b x 3.5", "bounds\n  x = 3.5\n"},
		{"FR", " FR b x", "bounds\n  x free\n"},
		{"FR without a vector name", " FR x", "bounds\n  x free\n"},
		{"FR with a number", " FR b x 0", "bounds\n  x free\n"},
		{"FR with a number and no vector name", " FR x 0", "bounds\n  x free\n"},
		{"MI", " MI b x", "bounds\n  x free\n"},
		{"MI and UP", " MI b x\n UP b x 7", "bounds\n  x <= 7\n"},
		{"UP negative after MI", " MI b x\n UP b x -7", "bounds\n  x <= -7\n"},
		{"PL", " UP b x 7\n PL b x", ""},
		{"BV", " BV b x", "bounds\n  0 <= x <= 1\ninteger\n  x\n"},
		{"BV without a vector name", " BV x", "bounds\n  0 <= x <= 1\ninteger\n  x\n"},
		{"BV with a number", " BV b x 1", "bounds\n  0 <= x <= 1\ninteger\n  x\n"},
		{"LI", " LI b x 2", "bounds\n  x >= 2\ninteger\n  x\n"},
		{"UI", " UI b x 5", "bounds\n  0 <= x <= 5\ninteger\n  x\n"},
		{"UI negative", " UI b x -5", "bounds\n  x <= -5\ninteger\n  x\n"},
		{"LI and UI", " LI b x -2\n UI b x 5", "bounds\n  -2 <= x <= 5\ninteger\n  x\n"},
		{"UP of none", " UP b x 1e30", ""},
		{"LO of none", " LO b x -1e+30", "bounds\n  x free\n"},
		{"lower case", " up b x 4", "bounds\n  0 <= x <= 4\n"},
		{"UP negative after PL", " PL b x\n UP b x -4", "bounds\n  x <= -4\n"},
		{"UI negative after UP", " UP b x 9\n UI b x -4", "bounds\n  x <= -4\ninteger\n  x\n"},
		{"UP negative after FX", " FX b x -9\n UP b x -4", "bounds\n  -9 <= x <= -4\n"},
		{"UP negative after FR", " FR b x\n UP b x -4", "bounds\n  x <= -4\n"},
		{"UP negative after LI", " LI b x -5\n UP b x -4", "bounds\n  -5 <= x <= -4\ninteger\n  x\n"},
		{"the later wins", " FX b x 3\n UP b x 4", "bounds\n  3 <= x <= 4\n"},
		{"second vector dropped", " UP a x 4\n UP b x 5", "bounds\n  0 <= x <= 4\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := "ROWS\n N c\nCOLUMNS\n x c 1\nBOUNDS\n" + c.bounds + "\nENDATA\n"
			m, err := read(text)
			if err != nil {
				t.Fatal(err)
			}
			if got, want := m.Problem.String(), "minimise\n  x\nsubject to\n"+c.want; got != want {
				t.Errorf("got\n%swant\n%s", got, want)
			}
			roundTrip(t, m.Problem)
		})
	}
}

func TestReadIntegerMarkers(t *testing.T) {
	m, err := read(`ROWS
 N c
COLUMNS
 a c 1
 M1 'MARKER' 'INTORG'
 b c 1
 d c 1
 M2 'MARKER' 'INTEND'
 e c 1
 M3 'MARKER' 'INTORG'
 f c 1
BOUNDS
 UP bd d 9
 BV bd f
ENDATA
`)
	if err != nil {
		t.Fatal(err)
	}
	want := "minimise\n  a + b + d + e + f\nsubject to\nbounds\n  0 <= d <= 9\n  0 <= f <= 1\ninteger\n  b, d, f\n"
	if got := m.Problem.String(); got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
	wantNotes := []string{
		`m.mps:6: integer column "b" has no bound: taken as 0 or more; some programs take 0 or 1, so give it one`,
		`m.mps:12: no 'INTEND' closes the last 'INTORG'; the columns up to the end of COLUMNS are integer`,
	}
	if got := fmt.Sprint(m.Notes); got != fmt.Sprint(wantNotes) {
		t.Errorf("notes %v, want %v", got, wantNotes)
	}
}

func TestReadNotes(t *testing.T) {
	m, err := read(`ROWS
 N c
 N d
 N e
COLUMNS
 x c 1
RHS
 a c 1
 b c 1
BOUNDS
 UP q x -1
ENDATA
left over
`)
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		`m.mps:3: row "d" is dropped: the first N row is the objective (and 1 more like it)`,
		`m.mps:9: RHS vector "b" is dropped: "a" came first`,
		`m.mps:11: column "x" has a negative upper bound and no lower one: taken to have none`,
		`m.mps:12: what follows ENDATA is not read`,
	}
	if got := fmt.Sprint(m.Notes); got != fmt.Sprint(want) {
		t.Errorf("notes\n%v\nwant\n%v", m.Notes, want)
	}
}

// Without an N row nothing is minimised, and a stretch of integer columns may be open to the
// end of a file without bounds; each is told, and a dropped vector once however long it is.
func TestReadNotesAtTheEnd(t *testing.T) {
	m, err := read("ROWS\n G r\n G s\nCOLUMNS\n M 'MARKER' 'INTORG'\n x r 1\nRHS\n a r 1\n b r 1\n b s 1\nENDATA\n")
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		`m.mps:1: there is no N row: the objective is zero`,
		`m.mps:6: integer column "x" has no bound: taken as 0 or more; some programs take 0 or 1, so give it one`,
		`m.mps:9: RHS vector "b" is dropped: "a" came first`,
		`m.mps:11: no 'INTEND' closes the last 'INTORG'; the columns up to the end of COLUMNS are integer`,
	}
	if got := fmt.Sprint(m.Notes); got != fmt.Sprint(want) {
		t.Errorf("notes\n%v\nwant\n%v", m.Notes, want)
	}
}

// A bound's vector may have the name of a column: of two columns, the second is meant.
func TestReadVectorNamedLikeColumn(t *testing.T) {
	m, err := read("ROWS\n N c\nCOLUMNS\n x c 1\n y c 1\nBOUNDS\n FR x y\nENDATA\n")
	if err != nil {
		t.Fatal(err)
	}
	if got, want := m.Problem.String(), "minimise\n  x + y\nsubject to\nbounds\n  y free\n"; got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
}

// Minus nothing is nothing, wherever it stands.
func TestReadMinusZero(t *testing.T) {
	m, err := read("ROWS\n N c\n G r\n L s\nCOLUMNS\n x c -0 r 1\nRHS\n b r -0 s -0.0\n b c 0\nBOUNDS\n LO b x -0\nENDATA\n")
	if err != nil {
		t.Fatal(err)
	}
	p := m.Problem
	for name, v := range map[string]float64{"cost": p.Cols[0].Cost, "lower": p.Cols[0].Lower, "G": p.Rows[0].Lower, "L": p.Rows[1].Upper, "constant": p.Offset} {
		if v != 0 || math.Signbit(v) {
			t.Errorf("%s is read as %g, want 0", name, v)
		}
	}
}

// Names with blanks are told from fields by the columns they stand in.
func TestReadFixedFormNames(t *testing.T) {
	text := "NAME          TERNSUND\nROWS\n" +
		fixedCard("N", "cost a d", "", "", "", "") +
		fixedCard("G", "iron mg", "", "", "", "") +
		fixedCard("L", "salt mg", "", "", "", "") +
		"COLUMNS\n" +
		fixedCard("", "dry figs", "cost a d", "1.5", "iron mg", "2") +
		fixedCard("", "dry figs", "salt mg", "10", "", "") +
		fixedCard("", "rye", "iron mg", "3", "", "") +
		"RHS\n" +
		fixedCard("", "", "iron mg", "8", "salt mg", "2300") +
		"RANGES\n" +
		fixedCard("", "my range", "iron mg", "4", "", "") +
		"BOUNDS\n" +
		fixedCard("UP", "my bound", "dry figs", "7", "", "") +
		fixedCard("FR", "my bound", "rye", "", "", "") +
		"ENDATA\n"
	want := `program TERNSUND
minimise
  1.5 "dry figs"
subject to
  "iron mg": 8 <= 2 "dry figs" + 3 rye <= 12
  "salt mg": 10 "dry figs" <= 2300
bounds
  0 <= "dry figs" <= 7
  rye free
`
	m, err := read(text)
	if err != nil {
		t.Fatal(err)
	}
	if m.Form != linear.FixedForm {
		t.Errorf("read as %v form, want fixed", m.Form)
	}
	if got := m.Problem.String(); got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
	roundTrip(t, m.Problem)
}

func TestReadErrors(t *testing.T) {
	const body = "ROWS\n N c\n L r\nCOLUMNS\n x c 1 r 1\n" // five lines
	for _, c := range []struct{ name, text, want string }{
		{"empty", "", `m.mps:1:1: file: it is empty; give a model in MPS form`},
		{"blank", " \n\r\n", `m.mps:1:1: file: it is empty; give a model in MPS form`},
		{"no ENDATA", body, `m.mps:5:1: ENDATA: the file ends without it; end the model with a line ENDATA; it may have been cut off`},
		{"no COLUMNS", "ROWS\n N c\nENDATA\n", `m.mps:3:1: COLUMNS: the section is missing; give the sections ROWS and COLUMNS`},
		{"data first", " x c 1\n" + body + "ENDATA\n", `m.mps:1:1: line: data before the first section header; start with NAME or ROWS in the first column`},
		{"unknown section", body + "SOS\n s1 x\nENDATA\n", `m.mps:6:1: section "SOS": there is no such section here; the sections are NAME, OBJSENSE, ROWS, COLUMNS, RHS, RANGES, BOUNDS, ENDATA; data lines start with a blank`},
		{"section twice", body + "RHS\nRHS\nENDATA\n", `m.mps:7:1: section "RHS": comes a second time, first on line 6; write each section once`},
		{"section out of order", "COLUMNS\n x c 1\nROWS\n N c\nENDATA\n", `m.mps:1:1: section "COLUMNS": comes before ROWS; write ROWS, then COLUMNS, then the rest`},
		{"something after a header", "ROWS now\n N c\nCOLUMNS\n x c 1\nENDATA\n", `m.mps:1:6: section "now": something follows ROWS; start a new line after a section header; data lines start with a blank`},
		{"row type", "ROWS\n N c\n S r\nCOLUMNS\n x c 1\nENDATA\n", `m.mps:3:2: row type "S": not a row type; write N, L, G or E`},
		{"row twice", "ROWS\n N c\n L c\nCOLUMNS\n x c 1\nENDATA\n", `m.mps:3:4: row "c": there is a row of this name already; give each row its own name`},
		{"unknown row in COLUMNS", "ROWS\n N c\nCOLUMNS\n x iron 1\nENDATA\n", `m.mps:4:4: row "iron": there is no such row; declare it in ROWS, or correct the name`},
		{"coefficient twice", "ROWS\n N c\nCOLUMNS\n x c 1\n x c 2\nENDATA\n", `m.mps:5:4: coefficient "c": the column has one in this row already; add them up and write one`},
		{"column comes back", "ROWS\n N c\n L r\nCOLUMNS\n x c 1\n y c 1\n x r 1\nENDATA\n", `m.mps:7:2: column "x": the column has ended before, it starts on line 5; keep the lines of a column together`},
		{"too few fields", "ROWS\n N c\nCOLUMNS\n x c\nENDATA\n", `m.mps:4:2: COLUMNS: 2 fields on the line; write a column and one or two pairs of row and number`},
		{"decimal comma", "ROWS\n N c\nCOLUMNS\n x c 1,5\nENDATA\n", `m.mps:4:6: coefficient "1,5": not a number; write a decimal number such as 12.5 or -3e-4`},
		{"NaN", "ROWS\n N c\nCOLUMNS\n x c NaN\nENDATA\n", `m.mps:4:6: coefficient "NaN": not a number; write a decimal number such as 12.5 or -3e-4`},
		{"hex", "ROWS\n N c\nCOLUMNS\n x c 0x1p-2\nENDATA\n", `m.mps:4:6: coefficient "0x1p-2": not a number; write a decimal number such as 12.5 or -3e-4`},
		{"underscore", "ROWS\n N c\nCOLUMNS\n x c 1_000\nENDATA\n", `m.mps:4:6: coefficient "1_000": not a number; write a decimal number such as 12.5 or -3e-4`},
		{"infinity", body + "BOUNDS\n UP b x Inf\nENDATA\n", `m.mps:7:9: bound "Inf": infinity is not a number; write 1e30 for none, or the bound type MI, PL or FR`},
		{"too large", "ROWS\n N c\nCOLUMNS\n x c 1e999\nENDATA\n", `m.mps:4:6: coefficient "1e999": too large for a number; write a decimal number such as 12.5 or -3e-4`},
		{"right-hand side twice", body + "RHS\n b r 1\n b r 2\nENDATA\n", `m.mps:8:4: right-hand side "r": the row has one already, on line 7; keep one`},
		{"range twice", body + "RANGES\n b r 1 r 2\nENDATA\n", `m.mps:7:8: range "r": the row has one already, on line 7; keep one`},
		{"range of the objective", body + "RANGES\n b c 1\nENDATA\n", `m.mps:7:4: range "c": the objective row has no bounds; delete the range`},
		{"infinite right-hand side", body + "RHS\n b r -1e30\nENDATA\n", `m.mps:7:1: right-hand side "r": -1e+30 means none, which a row of type L cannot have here; write a number`},
		{"lower bound of plus infinity", body + "BOUNDS\n LO b x 1e30\nENDATA\n", `m.mps:7:9: bound "1e30": a lower bound of plus infinity; write the smallest value of the column`},
		{"upper bound of minus infinity", body + "BOUNDS\n UP b x -1e30\nENDATA\n", `m.mps:7:9: bound "-1e30": an upper bound of minus infinity; write the largest value of the column`},
		{"infinity in small letters, with a sign", body + "BOUNDS\n LO b x -inf\nENDATA\n", `m.mps:7:9: bound "-inf": infinity is not a number; write 1e30 for none, or the bound type MI, PL or FR`},
		{"unknown column in BOUNDS", body + "BOUNDS\n UP b y 1\nENDATA\n", `m.mps:7:7: column "y": there is no such column; declare it in COLUMNS, or correct the name`},
		{"bound type", body + "BOUNDS\n UB b x 1\nENDATA\n", `m.mps:7:2: bound type "UB": not a bound type; write UP, LO, FX, FR, MI, PL, BV, LI or UI`},
		{"semi-continuous", body + "BOUNDS\n SC b x 1\nENDATA\n", `m.mps:7:2: bound type "SC": semi-continuous columns are not supported; model it with a binary column z and a row x <= upper z`},
		{"bound twice", body + "BOUNDS\n UP b x 1\n UP b x 2\nENDATA\n", `m.mps:8:7: bound "x": the column has a bound UP already; keep one`},
		{"bound twice, another between", body + "BOUNDS\n LO b x 1\n UP b x 4\n LO b x 2\nENDATA\n", `m.mps:9:7: bound "x": the column has a bound LO already; keep one`},
		{"bound without number", body + "BOUNDS\n UP x\nENDATA\n", `m.mps:7:2: BOUNDS: 2 fields on the line; write a bound's type, the vector's name, a column and a number`},
		{"fractional LI", body + "BOUNDS\n LI b x 1.5\nENDATA\n", `m.mps:7:9: bound "1.5": not a whole number, as LI asks; round it, or use LO or UP`},
		{"crossed bounds", body + "BOUNDS\n LO b x 2\n UP b x 1\nENDATA\n", `m.mps:8:1: bound "x": lower bound 2 is above upper bound 1; correct one of them`},
		{"a lower bound of zero that was given stays", body + "BOUNDS\n LO b x 0\n UP b x -1\nENDATA\n", `m.mps:8:1: bound "x": lower bound 0 is above upper bound -1; correct one of them`},
		{"fixed at infinity", body + "BOUNDS\n FX b x 1e30\nENDATA\n", `m.mps:7:9: bound "1e30": fixed at infinity; write the value of the column`},
		{"sense", "OBJSENSE\n UP\n" + body + "ENDATA\n", `m.mps:2:2: OBJSENSE "UP": not a sense; write MAX or MIN`},
		{"markers", "ROWS\n N c\nCOLUMNS\n m 'MARKER' 'INTEND'\n x c 1\nENDATA\n", `m.mps:4:13: marker "'INTEND'": the one before is the same; close each 'INTORG' with one 'INTEND'`},
		{"unknown marker", "ROWS\n N c\nCOLUMNS\n m 'MARKER' 'SOSORG'\n x c 1\nENDATA\n", `m.mps:4:4: marker "'MARKER'": not a marker this program knows; write NAME 'MARKER' 'INTORG' or NAME 'MARKER' 'INTEND'`},
		{"control character", "ROWS\n N c\x00\nCOLUMNS\n x c 1\nENDATA\n", `m.mps:2:5: line "\x00": a control character; give a text file, one record a line`},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := read(c.text)
			if err == nil {
				t.Fatal("no error")
			}
			if first, _, _ := strings.Cut(err.Error(), "\n"); first != c.want {
				t.Errorf("got  %s\nwant %s", err, c.want)
			}
			var one *linear.SyntaxError
			if !errors.As(err, &one) || one.File != "m.mps" || one.Line == 0 {
				t.Errorf("error %T carries no place", err)
			}
		})
	}
}

// One slip is told once: what follows from it alone is not told on top.
func TestReadTellsOneSlipOnce(t *testing.T) {
	const body = "ROWS\n N c\n L r\nCOLUMNS\n x c 1 r 1\n"
	for name, text := range map[string]string{
		"unknown section":       body + "SOS\n s1 x\n s2 x y z\n s3\nRHS\n b r 1\nENDATA\n",
		"section out of order":  "RHS\n b r 1\n b r 2\n" + body + "ENDATA\n",
		"crossed bounds":        body + "BOUNDS\n LO b x 2\n UP b x 1\nENDATA\n",
		"infinite side":         body + "RHS\n b r -1e30\nENDATA\n",
		"data before a section": " x c 1\n y c 1\n" + body + "ENDATA\n",
	} {
		_, err := read(text)
		var all linear.SyntaxErrors
		if !errors.As(err, &all) || len(all) != 1 {
			t.Errorf("%s: told as\n%v", name, err)
		}
	}
}

// What only fixed form can get wrong: a field that is empty. The blanks in names keep the
// text from being read as free form.
func TestReadFixedFormErrors(t *testing.T) {
	head := "ROWS\n" + fixedCard("N", "cost a d", "", "", "", "") + fixedCard("G", "iron mg", "", "", "", "")
	columns := "COLUMNS\n" + fixedCard("", "dry figs", "cost a d", "1.5", "iron mg", "2")
	for _, c := range []struct{ name, text, field, problem string }{
		{"row without a name", head + fixedCard("L", "", "", "", "", "") + columns, "row", "the name is missing"},
		{"column without a name", head + columns + fixedCard("", "", "iron mg", "1", "", ""), "column", "the name is missing"},
		{"number without a row", head + columns + fixedCard("", "dry peas", "cost a d", "1", "", "7"), "row", "the name is missing"},
		{"row without a number", head + columns + fixedCard("", "dry peas", "cost a d", "1", "iron mg", ""), "coefficient", "the number is missing"},
	} {
		_, err := read(c.text + "ENDATA\n")
		var all linear.SyntaxErrors
		if !errors.As(err, &all) || len(all) != 1 || all[0].Field != c.field || all[0].Problem != c.problem {
			t.Errorf("%s: told as\n%v", c.name, err)
		}
	}
}

// All errors come in one run, in the order of the lines, up to a number.
func TestReadAllErrors(t *testing.T) {
	_, err := read("ROWS\n N c\n X r\nCOLUMNS\n x c one\n x q 1\nBOUNDS\n UP b z 1\nENDATA\n")
	var all linear.SyntaxErrors
	if !errors.As(err, &all) || len(all) != 4 {
		t.Fatalf("want four errors, got:\n%v", err)
	}
	for k, line := range []int{3, 5, 6, 8} {
		if all[k].Line != line {
			t.Errorf("error %d is on line %d, want %d", k, all[k].Line, line)
		}
	}
	// What shows only at the end, of rows before columns, comes in the order of the lines too.
	_, err = read("ROWS\n N c\n L r\nCOLUMNS\n x c 1\n y c 1\nBOUNDS\n LO b y 3\n UP b y 1\n LO b x 3\n UP b x 1\nRHS\n b r -1e30\nENDATA\n")
	if !errors.As(err, &all) || len(all) != 3 || all[0].Line != 9 || all[1].Line != 11 || all[2].Line != 13 {
		t.Errorf("want errors of the lines 9, 11 and 13, got:\n%v", err)
	}
	_, err = read("ROWS\n N c\nCOLUMNS\n" + strings.Repeat(" x c one two\n", 100) + "ENDATA\n")
	if !errors.As(err, &all) || len(all) != linear.MaxErrors+1 || !errors.Is(err, linear.ErrTooMany) {
		t.Fatalf("want %d errors and ErrTooMany, got:\n%v", linear.MaxErrors, err)
	}
}

// Garbage ends soon, with errors of a readable size.
func TestReadGarbage(t *testing.T) {
	for name, text := range map[string]string{
		"one long line":   strings.Repeat("garbage ", 1<<20),
		"one long word":   "ROWS\n N " + strings.Repeat("x", 1<<23) + "\n",
		"many long lines": strings.Repeat(strings.Repeat("y", 1<<15)+"\n", 1<<8),
		"many lines":      "ROWS\n N c\n" + strings.Repeat(" L c\n", 1<<20),
		"zeros":           strings.Repeat("\x00", 1<<23),
		"no text":         strings.Repeat("\xff\xfe\n", 1<<20),
		"many sections":   strings.Repeat("SECTION\n", 1<<20),
	} {
		t.Run(name, func(t *testing.T) {
			_, err := read(text)
			var all linear.SyntaxErrors
			if !errors.As(err, &all) {
				t.Fatalf("error %v", err)
			}
			if n := len(err.Error()); n > 1<<14 {
				t.Errorf("the errors are %d bytes long", n)
			}
		})
	}
}

// endless is a reader that never ends.
type endless struct {
	pattern string
	read    int
}

func (e *endless) Read(b []byte) (int, error) {
	for n := copy(b, e.pattern); n < len(b); n *= 2 {
		copy(b[n:], b[:n])
	}
	e.read += len(b)
	return len(b), nil
}

func TestReadTooLarge(t *testing.T) {
	if testing.Short() {
		t.Skip("reads 128 MB")
	}
	e := &endless{pattern: "* \n"}
	_, err := linear.ReadMPS(context.Background(), "big.mps", e)
	var one *linear.SyntaxError
	if !errors.As(err, &one) || !strings.Contains(one.Problem, "128 MB") {
		t.Errorf("got %v", err)
	}
	if e.read > 2*linear.MaxMPSBytes {
		t.Errorf("read %d bytes before refusing", e.read)
	}
}

// model is a small program with so many more rows and columns.
func model(rows, cols int) io.Reader {
	var b strings.Builder
	b.WriteString("NAME\nROWS\n N c\n")
	for i := range rows {
		fmt.Fprintf(&b, " G r%d\n", i)
	}
	b.WriteString("COLUMNS\n")
	for j := range cols {
		fmt.Fprintf(&b, " x%d c 1\n", j)
	}
	b.WriteString("ENDATA\n")
	return strings.NewReader(b.String())
}

// TestReadLimits holds each stated limit from both sides.
func TestReadLimits(t *testing.T) {
	line := func(n int) io.Reader {
		return strings.NewReader("NAME\n" + "*" + strings.Repeat("x", n-1) + "\nROWS\n N c\nCOLUMNS\n x c 1\nENDATA\n")
	}
	for _, c := range []struct {
		name string
		in   io.Reader
		want string // of the error, empty for none
	}{
		{"as many rows and columns", model(linear.MaxMPSRows, linear.MaxMPSColumns), ""},
		{"a row more", model(linear.MaxMPSRows+1, 1), "row: more than 500000 of them"},
		{"a column more", model(1, linear.MaxMPSColumns+1), "column: more than 500000 of them"},
		{"the longest line", line(linear.MaxMPSLine), ""},
		{"a byte more", line(linear.MaxMPSLine + 1), "m.mps:2:1: line: longer than 65536 bytes"},
		{"one line without end", iotest.HalfReader(&endless{pattern: "x"}), "m.mps:1:1: line: longer than 65536 bytes"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := linear.ReadMPS(context.Background(), "m.mps", c.in)
			switch {
			case c.want == "" && err != nil:
				t.Errorf("refused: %v", err)
			case c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)):
				t.Errorf("error %v, want %q in it", err, c.want)
			}
		})
	}
}

// stopping cancels after the first read.
type stopping struct {
	io.Reader
	cancel context.CancelFunc
}

func (s *stopping) Read(b []byte) (int, error) {
	s.cancel()
	return s.Reader.Read(b)
}

// TestReadStops cancels reading before it begins and on the way, in an input
// that would go on.
func TestReadStops(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	if _, err := linear.ReadMPS(ctx, "pipe", &stopping{&endless{pattern: "* \n"}, cancel}); !errors.Is(err, context.Canceled) {
		t.Errorf("on the way: %v", err)
	}
	if _, err := linear.ReadMPS(ctx, "m.mps", model(1, 1)); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled before: %v", err)
	}
	// All has been read when it is cancelled: half a model, or none, is no answer.
	ctx, cancel = context.WithCancel(context.Background())
	if m, err := linear.ReadMPS(ctx, "m.mps", &stopping{iotest.DataErrReader(model(1, 1)), cancel}); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled with the last byte: %v, %v", m, err)
	}
}
