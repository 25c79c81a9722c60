package menu

import (
	"cmp"
	"math"
	"slices"

	"rationwright/solver/linear"
	"rationwright/solver/ration"
)

// program gathers a linear program in any order of its coefficients.
type program struct {
	linear.Problem
	marks
	uneaten []int // columns of what of a food is not eaten, g
}

var inf = math.Inf(1)

func (p *program) row(lower, upper float64) int {
	p.added(true)
	return p.AddRow("", lower, upper)
}

func (p *program) col(cost, upper float64) int {
	p.added(false)
	return p.AddCol("", cost, 0, upper, false)
}

func (p *program) whole(cost, upper float64) int { return p.AddCol("", cost, 0, upper, true) }

// goal adds a row that may be missed: by over above its upper end and by under below
// its lower one, at cost a unit; more than free units of either cost far times that.
func (p *program) goal(lower, upper, cost float64) int {
	r := p.row(lower, upper)
	if !math.IsInf(lower, -1) {
		p.Set(r, p.col(cost, inf), 1)
	}
	if !math.IsInf(upper, 1) {
		p.Set(r, p.col(cost, inf), -1)
	}
	return r
}

// A serving over its most by more than largeRoom of it costs costHuge times as much: a bowl
// of three is no bowl. Planning rules of this program, no source.
const (
	largeRoom = 0.4
	costHuge  = 6
)

// over lets a row be over its upper end, at cost a unit and from near units on at times that.
func (p *program) over(row int, cost, near, times float64) {
	p.Set(row, p.col(cost, near), -1)
	p.Set(row, p.col(times*cost, inf), -1)
}

// tiers lets low be under its lower end and high over its upper one, by cost a unit and
// beyond near units by far.
func (p *program) tiers(low, high int, cost, near, far float64) {
	for _, tier := range []struct{ cost, upper float64 }{{cost, near}, {far, inf}} {
		p.Set(low, p.col(tier.cost, tier.upper), 1)
		p.Set(high, p.col(tier.cost, tier.upper), -1)
	}
}

// setPer adds entries, columns with their values, each as a part of per, to a row.
func (p *program) setPer(row int, list []linear.Entry, per float64) {
	for _, y := range list {
		p.Set(row, y.Row, y.Value/per)
	}
}

// Set adds value to the coefficient of col in row.
func (p *program) Set(row, col int, value float64) {
	if value == 0 {
		return
	}
	entries := p.Cols[col].Entries
	for i := range entries {
		if entries[i].Row == row {
			entries[i].Value += value
			return
		}
	}
	p.Cols[col].Entries = append(entries, linear.Entry{Row: row, Value: value})
}

// problem returns the program with the coefficients of each column in order.
func (p *program) problem() *linear.Problem {
	for j := range p.Cols {
		slices.SortFunc(p.Cols[j].Entries, func(a, b linear.Entry) int { return cmp.Compare(a.Row, b.Row) })
	}
	return &p.Problem
}

// keeps reports whether a point keeps every row and bound.
func (p *program) keeps(x []float64) bool {
	if x == nil {
		return false
	}
	broken, err := p.Check(x, ration.CheckTolerance)
	return err == nil && len(broken) == 0
}

// costGram is what a gram of what gives no energy counts as, in kcal.
const costGram = 0.05
