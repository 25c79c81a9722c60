package aim

import (
	"fmt"
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/solver/answer"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
	"rationwright/solver/search"
)

// program is the second aim over a model: the model's columns come first, in their
// order.
type program struct {
	*linear.Problem
	model   *model.Model
	weights ration.Weights

	bought    []int         // per larder food: column u_f, 1 where it is bought; -1 none
	sizes     []map[int]int // per larder food: column t_k of each column of packs to buy
	eats      []map[int]int // per eater: column z_pf of each larder food: at least a portion
	counts    map[int]int   // column e_f of a larder food: half of those who may have portions of it
	best      float64       // of the first aim
	twins     []twin
	varieties []variety
	mains     mains
	oftens    []often
	rare      map[int]bool // foods of the larder that moves made rarer
	crumb     map[int]bool // columns that say that an amount is a crumb
	sodium    []sodiumRow
	groups    []int // rows that hold together what is one food

	// fill sets what a point of the model makes of the columns beyond, in their order.
	fill []func(x []float64)
}

// newProgram makes the second aim of a model whose best found comes to value.
func newProgram(m *model.Model, value, slack float64, weights ration.Weights) *program {
	p := &program{Problem: m.Problem.Clone(), model: m, weights: weights, best: value, counts: map[int]int{}, crumb: map[int]bool{}, rare: map[int]bool{}}
	p.addSlack(value, slack)
	p.addProducts()
	p.addPortions()
	p.addRemnants()
	p.addKinds()
	addMains(p)
	p.addOften()
	p.addAmounts()
	p.addGroups()
	p.sodium = p.sodiumRows()
	model.MergeAll(p.Problem)
	p.groupsFirst()
	return p
}

// addSlack holds the first aim within its slack and counts what is spent of it.
func (p *program) addSlack(value, slack float64) {
	row := p.AddRow("slack", math.Inf(-1), value+slack*math.Abs(value))
	per := p.perPrice()
	p.Offset = -per * value
	for j := range p.model.Cols {
		if c := p.Cols[j].Cost; c != 0 {
			p.Set(row, j, c)
			p.Cols[j].Cost = per * c
		}
	}
}

// perPrice is what a unit of the first aim counts.
func (p *program) perPrice() float64 {
	return 100 * p.weights.Of(ration.AimPrice) / math.Max(math.Abs(p.best), ration.SmallestStep(p.model.Request.Least))
}

// binary adds a column of yes or no.
func (p *program) binary(name string, cost float64) int { return p.AddCol(name, cost, 0, 1, true) }

// most adds Σ a_j x_j ≤ upper, as a row that seldom binds where lazy.
func (p *program) most(name string, upper float64, lazy bool, terms ...linear.Entry) {
	row := p.AddRow(name, math.Inf(-1), upper)
	p.Rows[row].Lazy = lazy
	for _, t := range terms {
		p.Set(row, t.Row, t.Value)
	}
}

// term is a times column j, in a list for [program.most].
func term(j int, a float64) linear.Entry { return linear.Entry{Row: j, Value: a} }

// addProducts counts the foods that are bought and their sizes beyond the first:
//
//	x_k ≤ U_k t_k,  t_k ≤ u_f ≤ Σ_k t_k,  weight Σ_f u_f + weight Σ_f (Σ_k t_k − u_f)
func (p *program) addProducts() {
	product, size := p.weights.Of(ration.AimProduct), p.weights.Of(ration.AimSize)
	p.bought = make([]int, len(p.model.Larder))
	p.sizes = make([]map[int]int, len(p.model.Larder))
	for li, lf := range p.model.Larder {
		p.bought[li] = -1
		if len(lf.Buy) == 0 {
			continue
		}
		name := lf.Food.Name
		p.sizes[li] = map[int]int{}
		u := p.binary("bought["+name+"]", product-size)
		p.bought[li] = u
		all := []linear.Entry{term(u, 1)}
		for _, k := range lf.Buy {
			t := p.binary("size["+k.Pack.Key+"]", size)
			p.sizes[li][k.Col] = t
			p.most("size["+k.Pack.Key+"]", 0, false, term(k.Col, 1), term(t, -p.Cols[k.Col].Upper))
			p.most("bought["+k.Pack.Key+"]", 0, true, term(t, 1), term(u, -1))
			all = append(all, term(t, -1))
		}
		p.most("bought["+name+"]", 0, false, all...)
		p.fill = append(p.fill, func(x []float64) {
			for _, k := range lf.Buy {
				if math.Round(x[k.Col]) > 0 {
					x[p.sizes[li][k.Col]], x[u] = 1, 1
				}
			}
		})
	}
}

// leastOf is the least portion of a food, at most all that the eater may have of it.
func (p *program) leastOf(eater, food int) float64 {
	e := p.model.Eaters[eater]
	y, ok := e.Eating(food)
	if !ok {
		return 0
	}
	return math.Min(answer.LeastPortionG(&e.Person, p.model.Larder[food].Food), y.CapG)
}

// addPortions lets everybody eat at least one portion of a food or none: o_pf is the
// least, cap_pf the most, z_pf says that it is a portion, c_pf that it is a crumb.
//
//	o_pf z_pf ≤ y_pf ≤ cap_pf z_pf + o_pf c_pf,  z_pf + c_pf ≤ u_f,  weight Σ c_pf
//
// The milk and the jars of infants are apart: they are set by what an infant needs.
func (p *program) addPortions() {
	crumb := p.weights.Of(ration.AimCrumb)
	p.eats = make([]map[int]int, len(p.model.Eaters))
	for ei, e := range p.model.Eaters {
		p.eats[ei] = map[int]int{}
		for _, y := range e.Eats {
			lf := p.model.Larder[y.Food]
			if e.Needs.Feed != nil && (rules.IsMilkFeed(lf.Food) || lf.Food.HasTag(foods.TagInfantFood)) {
				continue
			}
			name := fmt.Sprintf("[%s,%s]", e.Person.Name, lf.Food.Name)
			least := p.leastOf(ei, y.Food)
			if least <= 0 {
				continue
			}
			z, c := p.binary("portion"+name, 0), p.binary("crumb"+name, crumb*e.Count)
			p.eats[ei][y.Food] = z
			p.crumb[c] = true
			p.most("least"+name, 0, false, term(z, least), term(y.Col, -1))
			p.most("most"+name, 0, false, term(y.Col, 1), term(z, -y.CapG), term(c, -least))
			if u := p.bought[y.Food]; u >= 0 && len(lf.Stock) == 0 {
				p.most("of"+name, 0, false, term(z, 1), term(c, 1), term(u, -1))
			} else {
				p.most("of"+name, 1, false, term(z, 1), term(c, 1))
			}
			p.fill = append(p.fill, func(x []float64) {
				switch {
				case x[y.Col] >= least*(1-search.PortionTolerance):
					x[z] = 1
				case x[y.Col] > model.Dust:
					x[c] = 1
				}
			})
		}
	}
}

// addAmounts counts bare salt, sugar and fat, and the sodium of those who are to
// have little.
func (p *program) addAmounts() {
	for _, e := range p.model.Eaters {
		for _, y := range e.Eats {
			p.Cols[y.Col].Cost += e.Count * p.perGram(e, p.model.Larder[y.Food].Food)
		}
	}
}

// addGroups adds a row for every food that all of its columns of yes or no are in:
// what is not bought is not eaten. A search that frees the packs of a food frees the
// others with them.
func (p *program) addGroups() {
	for li, lf := range p.model.Larder {
		u := p.bought[li]
		if u < 0 || len(lf.Stock) > 0 {
			continue
		}
		var terms []linear.Entry
		sum := 0.0
		for _, k := range lf.Buy {
			if most := p.Cols[k.Col].Upper; most > 0 {
				terms = append(terms, term(k.Col, 1/most), term(p.sizes[li][k.Col], 1))
				sum += 2
			}
		}
		for ei, e := range p.model.Eaters {
			y, eats := e.Eating(li)
			z, ok := p.eats[ei][li]
			if !eats || !ok {
				continue
			}
			terms = append(terms, term(y.Col, 1/y.CapG), term(z, 1), term(z+1, 1))
			sum += 2
		}
		if e, ok := p.counts[li]; ok {
			terms = append(terms, term(e, 1))
			sum++
		}
		p.groups = append(p.groups, len(p.Rows))
		p.most("food["+lf.Food.Name+"]", 0, false, append(terms, term(u, -sum))...)
	}
}

// groupsFirst puts the rows of [program.addGroups] before all others: the search
// takes columns with the same first row together.
func (p *program) groupsFirst() {
	order := slices.Clone(p.groups)
	for i := range p.Rows {
		if !slices.Contains(p.groups, i) {
			order = append(order, i)
		}
	}
	at := make([]int, len(p.Rows))
	rows := make([]linear.Row, 0, len(p.Rows))
	for _, i := range order {
		at[i] = len(rows)
		rows = append(rows, p.Rows[i])
	}
	p.Rows = rows
	for j := range p.Cols {
		for k := range p.Cols[j].Entries {
			p.Cols[j].Entries[k].Row = at[p.Cols[j].Entries[k].Row]
		}
	}
	model.MergeAll(p.Problem)
}

// point is the point of the program for one of the model.
func (p *program) point(x []float64) []float64 {
	out := make([]float64, len(p.Cols))
	copy(out, x[:len(p.model.Cols)])
	for _, fill := range p.fill {
		fill(out)
	}
	return out
}

// weigh is the second aim's value at a point of the model.
func (p *program) weigh(x []float64) float64 { return p.value(x, true) }

// value is that, or without its crumbs, which depend on how the packs are shared out.
func (p *program) value(x []float64, crumbs bool) float64 {
	total := p.Offset
	for j, v := range p.point(x) {
		if crumbs || !p.crumb[j] {
			total += p.Cols[j].Cost * v
		}
	}
	return total
}

// wholePacks rounds the packs of a point of m, with columns beyond that are left out.
func wholePacks(m *model.Model, x []float64) []float64 {
	y := slices.Clone(x[:len(m.Cols)])
	for j := range y {
		if m.Problem.Cols[j].Integer {
			y[j] = math.Round(y[j])
		}
	}
	return y
}
