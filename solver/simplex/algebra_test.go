package simplex

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"rationwright/solver/linear"
)

// parse reads a small program written as algebra, so that the zoo can be read:
//
//	min 2 x + 3 y + 1
//	demand: x + y >= 4
//	range: 1 <= x - y <= 3
//	x in [-1, 5]
//	y free
//
// A column without a line of its own is in [0, inf]. Terms, signs and numbers
// are separated by spaces.
func parse(t testing.TB, text string) *linear.Problem {
	t.Helper()
	p := &linear.Problem{}
	column := map[string]int{}
	terms := func(line string, add func(col int, v float64), constant func(v float64)) {
		sign, factor, number := 1.0, 1.0, false
		flush := func() {
			if number {
				constant(sign * factor)
			}
			sign, factor, number = 1, 1, false
		}
		for _, word := range strings.Fields(line) {
			if word == "+" || word == "-" {
				flush()
				if word == "-" {
					sign = -1
				}
				continue
			}
			if v, err := strconv.ParseFloat(word, 64); err == nil {
				factor, number = v, true
				continue
			}
			j, ok := column[word]
			if !ok {
				j = p.AddCol(word, 0, 0, math.Inf(1), false)
				column[word] = j
			}
			add(j, sign*factor)
			sign, factor, number = 1, 1, false
		}
		flush()
	}
	value := func(word string) float64 {
		v, err := strconv.ParseFloat(strings.TrimSpace(word), 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		name, rest, isRow := strings.Cut(line, ":")
		switch {
		case line == "":
		case strings.HasPrefix(line, "min "), strings.HasPrefix(line, "max "):
			p.Maximize = line[1] == 'a'
			terms(line[4:], func(j int, v float64) { p.Cols[j].Cost += v }, func(v float64) { p.Offset += v })
		case isRow:
			lower, upper := math.Inf(-1), math.Inf(1)
			body := rest
			if left, right, ok := strings.Cut(rest, ">="); ok {
				body, lower = left, value(right)
			} else if parts := strings.Split(rest, "<="); len(parts) == 3 {
				lower, body, upper = value(parts[0]), parts[1], value(parts[2])
			} else if len(parts) == 2 {
				body, upper = parts[0], value(parts[1])
			} else if left, right, ok := strings.Cut(rest, "="); ok {
				body, lower = left, value(right)
				upper = lower
			}
			i := p.AddRow(name, lower, upper)
			terms(body, func(j int, v float64) { p.Set(i, j, v) }, func(v float64) { t.Fatalf("constant %g in row %s", v, name) })
		default:
			name, rest, _ := strings.Cut(line, " ")
			j, ok := column[name]
			if !ok {
				j = p.AddCol(name, 0, 0, math.Inf(1), false)
				column[name] = j
			}
			lower, upper := math.Inf(-1), math.Inf(1)
			if rest != "free" {
				a, b, ok := strings.Cut(strings.Trim(rest, "in []"), ",")
				if !ok {
					t.Fatalf("bounds %q", line)
				}
				lower, upper = value(a), value(b)
			}
			p.Cols[j].Lower, p.Cols[j].Upper = lower, upper
		}
	}
	return p
}

// verify checks on p's own figures, by code of another package, that r is what
// its status says.
func verify(t testing.TB, p *linear.Problem, r Result) {
	t.Helper()
	if err := fault(p, r); err != nil {
		t.Errorf("%v: %v\n%v", r.Status, err, p)
	}
}

// Tolerance of verify, relative.
const verifyTol = 1e-6

func fault(p *linear.Problem, r Result) error {
	p = p.Relaxation()
	switch r.Status {
	case Optimal:
		if missed, err := p.Check(r.X, verifyTol); err != nil || missed != nil {
			return fmt.Errorf("point: %v %v", missed, err)
		}
		at, err := p.Evaluate(r.X)
		if err != nil || math.Abs(at.Value-r.Value) > verifyTol*(1+math.Abs(r.Value)) {
			return fmt.Errorf("value %g, the point has %g %v", r.Value, at.Value, err)
		}
		dual, err := p.Dual(r.Dual)
		if err != nil || math.Abs(dual.Bound-r.Value) > verifyTol*(1+math.Abs(r.Value)) || dual.Residual > verifyTol {
			return fmt.Errorf("value %g, the duals prove %g, residual %g %v", r.Value, dual.Bound, dual.Residual, err)
		}
		if !r.HasBound || math.Abs(r.Bound-r.Value) > verifyTol*(1+math.Abs(r.Value)) {
			return fmt.Errorf("bound %g, %v of value %g", r.Bound, r.HasBound, r.Value)
		}
		for j, d := range dual.Reduced {
			if math.Abs(d-r.Reduced[j]) > verifyTol*(1+math.Abs(d)) {
				return fmt.Errorf("reduced cost %g of column %d, the duals give %g", r.Reduced[j], j, d)
			}
		}
	case Infeasible:
		for _, c := range p.Cols {
			if c.Lower > c.Upper {
				return nil
			}
		}
		for _, w := range p.Rows {
			if w.Lower > w.Upper {
				return nil
			}
		}
		if margin, err := p.FarkasMargin(r.Ray); err != nil || margin <= 0 {
			return fmt.Errorf("the ray proves nothing: margin %g %v", margin, err)
		}
	case Unbounded:
		if missed, err := p.Check(r.X, verifyTol); err != nil || missed != nil {
			return fmt.Errorf("point: %v %v", missed, err)
		}
		return endlessFault(p, r.Ray)
	case Limit:
	default:
		return fmt.Errorf("%s", r.Why)
	}
	return nil
}

// endlessFault checks a direction by going a long way along it.
func endlessFault(p *linear.Problem, ray []float64) error {
	rate, size := make([]float64, len(p.Rows)), make([]float64, len(p.Rows))
	gain := 0.0
	for j, c := range p.Cols {
		if ray[j] > 0 && !math.IsInf(c.Upper, 1) || ray[j] < 0 && !math.IsInf(c.Lower, -1) {
			return fmt.Errorf("the ray leaves the bounds of column %d", j)
		}
		gain += c.Cost * ray[j]
		for _, e := range c.Entries {
			rate[e.Row] += e.Value * ray[j]
			size[e.Row] += math.Abs(e.Value * ray[j])
		}
	}
	for i, r := range p.Rows {
		if rate[i] > 1e-9*size[i] && !math.IsInf(r.Upper, 1) || rate[i] < -1e-9*size[i] && !math.IsInf(r.Lower, -1) {
			return fmt.Errorf("the ray leaves row %d", i)
		}
	}
	if p.Maximize {
		gain = -gain
	}
	if gain >= 0 {
		return fmt.Errorf("the ray gains %g", gain)
	}
	return nil
}
