package model

import (
	"math"
	"slices"
	"strings"

	"rationwright/foods"
	"rationwright/solver/linear"
	"rationwright/solver/ration"
)

// Tightened stores no more water and heat than the rows ask for. Where some of
// them is on hand and free, a point of least cost may hold more than that.
func (m *Model) Tightened(x []float64) []float64 {
	out := slices.Clone(x)
	activity := m.Activities(x)
	for _, col := range []int{m.Water, m.Heat} {
		least := 0.0
		for _, entry := range m.Problem.Cols[col].Entries {
			if row := m.Problem.Rows[entry.Row]; entry.Value > 0 && !math.IsInf(row.Lower, -1) {
				rest := activity[entry.Row] - entry.Value*x[col]
				least = math.Max(least, (row.Lower-rest)/entry.Value)
			}
		}
		out[col] = math.Min(x[col], least)
	}
	return out
}

// LarderOf returns the food's line of the model, nil where nobody may eat it.
func (m *Model) LarderOf(f *foods.Food) *LarderFood {
	for _, lf := range m.Larder {
		if lf.Food == f && lf.CapG > 0 {
			return lf
		}
	}
	return nil
}

// Activities are the values of all rows at x.
func (m *Model) Activities(x []float64) []float64 {
	total := make([]float64, len(m.Problem.Rows))
	for j := range m.Cols {
		for _, entry := range m.Problem.Cols[j].Entries {
			total[entry.Row] += entry.Value * x[j]
		}
	}
	return total
}

// PointOf is the point of the model that a plan describes.
func (m *Model) PointOf(plan *ration.Plan) []float64 {
	x := make([]float64, len(m.Cols))
	for _, line := range plan.Packs {
		m.PlacePacks(x, line)
	}
	for i, e := range m.Eaters {
		if e.Drink >= 0 {
			x[e.Drink] = plan.People[i].DrinkLPerDay * m.Days()
		}
		for _, y := range e.Eats {
			for _, f := range plan.People[i].Foods {
				if f.Food == m.Larder[y.Food].Food.Name {
					x[y.Col] = f.Grams
				}
			}
		}
	}
	x[m.Water], x[m.Heat] = plan.Totals.WaterL, plan.Totals.HeatMJ
	for j, info := range m.Cols {
		switch info.Kind {
		case colOwnWater:
			x[j] = plan.Totals.OwnWaterL
		case colOwnHeat:
			x[j] = plan.Totals.OwnHeatMJ
		}
	}
	return x
}

// PlacePacks puts one line of a plan into the columns of a point.
func (m *Model) PlacePacks(x []float64, line ration.PlanPack) {
	stock, bought := line.FromStock, line.Count-line.FromStock
	for _, lf := range m.Larder {
		if !strings.EqualFold(lf.Food.Name, line.Food) {
			continue
		}
		cols := lf.Supply()
		if line.Reserve {
			cols = lf.Reserve
		}
		for _, k := range cols {
			switch {
			case k.Pack.Key != line.Pack:
			case k.Line < 0:
				x[k.Col], bought = float64(bought), 0
			default:
				n := min(float64(stock), m.Problem.Cols[k.Col].Upper)
				x[k.Col] = n
				stock -= int(n)
			}
		}
	}
}

// ColumnsOf lists the columns of a food that is bought only: its packs and its
// eaters.
func (m *Model) ColumnsOf(li int) []int {
	var list []int
	for _, k := range m.Larder[li].Buy {
		list = append(list, k.Col)
	}
	for _, e := range m.Eaters {
		if y, ok := e.Eating(li); ok {
			list = append(list, y.Col)
		}
	}
	return list
}

// CloseEmpty fixes at zero what is eaten of foods that have no pack left in p,
// the bounds of the packs' columns being the judge.
func (m *Model) CloseEmpty(p *linear.Problem) {
	open := make([]bool, len(m.Larder))
	for li, lf := range m.Larder {
		open[li] = lf.Balance < 0
		for _, k := range lf.Supply() {
			open[li] = open[li] || p.Cols[k.Col].Upper > 0
		}
	}
	for _, e := range m.Eaters {
		for _, y := range e.Eats {
			if !open[y.Food] {
				p.Cols[y.Col].Upper = 0
			}
		}
	}
	for _, v := range m.ByDate {
		if !open[v.Larder] {
			p.Cols[v.Col].Upper = 0
		}
	}
}

// FixPacks fixes the packs of p at those of a point.
func (m *Model) FixPacks(p *linear.Problem, x []float64) {
	for j := range m.Cols {
		if p.Cols[j].Integer {
			n := math.Round(x[j])
			p.Cols[j].Lower, p.Cols[j].Upper = n, n
		}
	}
}

// FoodsOf marks the foods of the larder that are in a plan.
func (m *Model) FoodsOf(plan *ration.Plan) []bool {
	in := make([]bool, len(m.Larder))
	for li, lf := range m.Larder {
		in[li] = slices.ContainsFunc(plan.Packs, func(k ration.PlanPack) bool { return k.Food == lf.Food.Name })
	}
	return in
}

// ValueOf is the plan's own objective at x, which may have more columns.
func (m *Model) ValueOf(x []float64) float64 {
	value := 0.0
	for j := range m.Cols {
		value += m.Problem.Cols[j].Cost * x[j]
	}
	return value
}
