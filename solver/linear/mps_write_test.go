package linear_test

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"rationwright/solver/linear"
)

func ExampleWriteMPS() {
	p := &linear.Problem{Name: "two meals", Maximize: true, Offset: 2.5}
	iron := p.AddRow("iron", 4, 10)
	salt := p.AddRow("salt", -linear.Inf, 0.1)
	rye := p.AddCol("rye bread", 2, 0, 3, false)
	figs := p.AddCol("figs", 0, 0, linear.Inf, true)
	p.Set(iron, rye, 1.5)
	p.Set(salt, figs, 2)
	if err := linear.WriteMPS(os.Stdout, p); err != nil {
		fmt.Println(err)
	}
	// Output:
	// * In names of this file %XX stands for the byte with that hexadecimal number.
	// NAME two%20meals FREE
	// OBJSENSE
	//     MAX
	// ROWS
	//  N  OBJ
	//  G  iron
	//  L  salt
	// COLUMNS
	//     rye%20bread OBJ 2
	//     rye%20bread iron 1.5
	//     MARKER1 'MARKER' 'INTORG'
	//     figs salt 2
	//     MARKER2 'MARKER' 'INTEND'
	// RHS
	//     RHS OBJ -2.5
	//     RHS iron 4
	//     RHS salt 0.1
	// RANGES
	//     RANGE iron 6
	// BOUNDS
	//  UP BOUND rye%20bread 3
	//  PL BOUND figs
	// ENDATA
}

func TestWriteRefusesInvalid(t *testing.T) {
	p := &linear.Problem{}
	p.AddCol("x", math.NaN(), 0, 1, false)
	var b bytes.Buffer
	err := linear.WriteMPS(&b, p)
	var f linear.Findings
	if !errors.As(err, &f) || b.Len() > 0 {
		t.Errorf("error %v after %d bytes, want findings and nothing written", err, b.Len())
	}
}

// awkward names, each of which a careless writer loses.
var awkward = []string{
	"dry figs", " leading", "trailing ", "two  blanks", "tab\tin it", "line\nbreak", "crå\u00a0wide", "å", "50%", "%20", "%41", "$cost",
	"*star", "'MARKER'", `"quoted"`, "OBJ", "OBJ_2", "RHS", "BOUND", "ENDATA", "-1", "1e5", "a:b", "nul\x00", "bad\xffutf8", "\u2003", "x\x7f", "FREE",
}

func TestWriteKeepsNames(t *testing.T) {
	for _, title := range append([]string{"", "two words", "x FREE", "FREE FREE"}, awkward...) {
		p := &linear.Problem{Name: title}
		for _, name := range awkward {
			r := p.AddRow(name, 1, linear.Inf)
			p.Set(r, p.AddCol(name, 1, -1, 1, true), 2)
		}
		roundTrip(t, p)
		roundTrip(t, &linear.Problem{Name: title}) // alone, so that no name brings escapes on
	}
	for _, name := range awkward { // alone, so that no other name brings escapes on
		p := &linear.Problem{}
		p.Set(p.AddRow(name, 1, 2), p.AddCol(name, 1, -linear.Inf, -1, false), 2)
		roundTrip(t, p)
	}
}

// A foreign file may have % in its names and no comment about escapes.
func TestForeignPercentNames(t *testing.T) {
	m, err := read("ROWS\n N c\n L fat%20\nCOLUMNS\n milk2%41 c 1 fat%20 1\nENDATA\n")
	if err != nil {
		t.Fatal(err)
	}
	if p := m.Problem; p.Cols[0].Name != "milk2%41" || p.Rows[0].Name != "fat%20" {
		t.Errorf("names %q and %q were changed", p.Cols[0].Name, p.Rows[0].Name)
	}
	roundTrip(t, m.Problem)
}

// Bounds whose difference no float64 holds, and others of every kind.
func TestWriteKeepsRanges(t *testing.T) {
	eps := math.Nextafter(1, 2) - 1
	pairs := [][2]float64{
		{-1 - eps, 1 + 2*eps}, {-1 - eps, 1 + eps}, {-(1 + 3*eps), 1 + 4*eps}, {-3 - 2*eps, 3 + 4*eps},
		{0.1, 0.3}, {-0.1, 0.3}, {-1e29, 1e29}, {1e-300, 2e-300}, {-5e-324, 5e-324}, {-1e15 + 0.5, 1e-9}, {1, 1 + eps}, {-0.7, -0.1}, {0, 5e-324},
	}
	rng := rand.New(rand.NewPCG(1, 2))
	for range 20000 {
		a := math.Float64frombits(rng.Uint64()&^(0x7ff<<52) | (1023-3+rng.Uint64N(6))<<52)
		b := math.Float64frombits(rng.Uint64()&^(0x7ff<<52) | (1023-3+rng.Uint64N(6))<<52)
		pairs = append(pairs, [2]float64{min(a, b), max(a, b)})
	}
	p := &linear.Problem{}
	for k, b := range pairs {
		p.AddRow(fmt.Sprint("r", k), b[0], b[1])
	}
	roundTrip(t, p)
}

// number returns figures of every size and shape, bounds among them.
func number(rng *rand.Rand) float64 {
	switch rng.IntN(6) {
	case 0:
		return float64(rng.IntN(7) - 3)
	case 1:
		return rng.NormFloat64()
	case 2:
		return math.Round(rng.NormFloat64()*100) / 100
	case 3:
		return rng.NormFloat64() * math.Pow(10, float64(rng.IntN(40)-20))
	case 4:
		return 1
	}
	return 0
}

func bounds(rng *rand.Rand) (lower, upper float64) {
	lower, upper = number(rng), number(rng)
	if lower > upper {
		lower, upper = upper, lower
	}
	switch rng.IntN(6) {
	case 0:
		lower = -linear.Inf
	case 1:
		upper = linear.Inf
	case 2:
		lower, upper = -linear.Inf, linear.Inf
	case 3:
		upper = lower
	}
	return lower + 0, upper + 0
}

// randomProblem returns a valid program with nothing regular about it.
func randomProblem(rng *rand.Rand) *linear.Problem {
	p := &linear.Problem{Name: fmt.Sprint("n", rng.IntN(9)), Maximize: rng.IntN(2) == 0, Offset: number(rng)}
	for i := range rng.IntN(8) {
		lower, upper := bounds(rng)
		p.AddRow(fmt.Sprint("r", i), lower, upper)
	}
	for j := range rng.IntN(9) {
		lower, upper := bounds(rng)
		col := p.AddCol(fmt.Sprint("x", j), number(rng), lower, upper, rng.IntN(3) == 0)
		for i := range p.Rows {
			if rng.IntN(2) == 0 {
				p.Set(i, col, number(rng))
			}
		}
	}
	return p
}

func TestWriteRandomRoundTrip(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for k := range 2000 {
		p := randomProblem(rng)
		if err := p.Validate(); err != nil {
			t.Fatalf("program %d: %v", k, err)
		}
		roundTrip(t, p)
	}
}

// Every number written must read back as itself and be one other programs read.
func TestWriteIsPlain(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for range 200 {
		var b bytes.Buffer
		if err := linear.WriteMPS(&b, randomProblem(rng)); err != nil {
			t.Fatal(err)
		}
		if s := b.String(); strings.Contains(s, "Inf") || strings.Contains(s, "NaN") || strings.Contains(s, "%") {
			t.Fatalf("not plain:\n%s", s)
		}
	}
}

// Sections that say nothing are left out, but for those that readers of the format ask for.
func TestWriteLeavesOut(t *testing.T) {
	p := &linear.Problem{}
	p.AddCol("x", 1, 0, linear.Inf, false)
	var b strings.Builder
	if err := linear.WriteMPS(&b, p); err != nil {
		t.Fatal(err)
	}
	if got, want := b.String(), "NAME\nROWS\n N  OBJ\nCOLUMNS\n    x OBJ 1\nRHS\nENDATA\n"; got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
}
