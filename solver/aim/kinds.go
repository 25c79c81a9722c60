package aim

import (
	"fmt"
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/foods/kinds"
	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// fortnight is the days that the caps on different foods count for.
const fortnight = 14

// addKinds counts near twins, what is missing to variety, and a household without
// anything warm or sweet:
//
//	Σ_{f in kind} u_f − v ≤ foods-most,  Σ_{f in kind} e_f + v ≥ foods-least
func (p *program) addKinds() {
	heads := 0
	for _, e := range p.model.Eaters {
		heads += int(e.Count)
	}
	twin := p.weights.Of(ration.AimTwin)
	for _, c := range p.model.Request.Table.HouseholdCaps(heads) {
		switch c.Measure {
		case kinds.FoodsMost:
			p.addTwins(c, twin)
		case kinds.FoodsLeast:
			least := math.Round(c.Value * math.Min(1, p.model.Days()/fortnight))
			p.addVariety([]string{c.Kind}, least, p.weights.OfKind(ration.AimVariety, c.Kind))
		}
	}
	for _, w := range p.weights {
		if w.Part == ration.AimTreat {
			p.addVariety(w.Kinds, 1, w.Value)
		}
	}
}

// in lists the foods of the larder that are of one of the kinds.
func (p *program) in(names []string) []int {
	var list []int
	for li, lf := range p.model.Larder {
		if slices.ContainsFunc(names, func(k string) bool { return slices.Contains(lf.Food.Kinds, k) }) {
			list = append(list, li)
		}
	}
	return list
}

func (p *program) addTwins(c kinds.Cap, weight float64) {
	var terms []linear.Entry
	var of []int
	for _, li := range p.in([]string{c.Kind}) {
		if p.bought[li] >= 0 {
			of = append(of, li)
			terms = append(terms, term(p.bought[li], 1))
		}
	}
	if weight == 0 || len(terms) <= int(c.Value) {
		return
	}
	p.twins = append(p.twins, twin{of, c.Value, weight})
	over := p.AddCol("twins["+c.Kind+"]", weight, 0, model.Inf, false)
	p.most("twins["+c.Kind+"]", c.Value, false, append(slices.Clip(terms), term(over, -1))...)
	p.fill = append(p.fill, func(x []float64) { x[over] = math.Max(0, sum(x, terms)-c.Value) })
}

// variety is what is missing to the different foods of some kinds.
type variety struct {
	foods   []int // of the larder
	least   float64
	weight  float64
	missing int // column
}

// twin is what is beyond the most different foods of a kind.
type twin struct {
	foods  []int // of the larder
	most   float64
	weight float64
}

// addVariety counts what is missing to so many foods of the kinds that half of those
// who may eat them have portions of.
func (p *program) addVariety(names []string, least, weight float64) {
	var terms []linear.Entry
	var of []int
	for _, li := range p.in(names) {
		if e, ok := p.count(li); ok {
			of = append(of, li)
			terms = append(terms, term(e, -1))
		}
	}
	least = math.Min(least, float64(len(terms)))
	if weight == 0 || least <= 0 {
		return
	}
	name := fmt.Sprint("variety", names)
	missing := p.AddCol(name, weight, 0, least, false)
	p.varieties = append(p.varieties, variety{of, least, weight, missing})
	p.most(name, -least, false, append(slices.Clip(terms), term(missing, -1))...)
	p.fill = append(p.fill, func(x []float64) { x[missing] = math.Max(0, least+sum(x, terms)) })
}

// count is the column e_f of a food: 1 where at least half of those who may eat it
// have portions of it; ok is false where nobody may.
func (p *program) count(li int) (e int, ok bool) {
	if e, ok = p.counts[li]; ok {
		return e, true
	}
	var terms []linear.Entry
	for ei := range p.eats {
		if z, may := p.eats[ei][li]; may {
			terms = append(terms, term(z, -1))
		}
	}
	if len(terms) == 0 {
		return -1, false
	}
	half := math.Ceil(float64(len(terms)) / 2)
	e = p.binary("counts["+p.model.Larder[li].Food.Name+"]", 0)
	p.counts[li] = e
	p.most("counts["+p.model.Larder[li].Food.Name+"]", 0, false, append(slices.Clip(terms), term(e, half))...)
	p.fill = append(p.fill, func(x []float64) {
		if -sum(x, terms) >= half {
			x[e] = 1
		}
	})
	return e, true
}

func sum(x []float64, terms []linear.Entry) float64 {
	total := 0.0
	for _, t := range terms {
		total += t.Value * x[t.Row]
	}
	return total
}

// gramsCounted is the amount that weights of bare foods are for.
const gramsCounted = 100

// perGram is what one gram of f that e eats counts by itself.
func (p *program) perGram(e *model.Eater, f *foods.Food) float64 {
	total := 0.0
	for _, w := range p.weights {
		if w.Part == ration.AimBare && slices.ContainsFunc(w.Kinds, func(k string) bool { return slices.Contains(f.Kinds, k) }) {
			total += w.Value / gramsCounted
		}
	}
	if mg := f.Per100g.Known(nutrients.Sodium); rules.LittleSodium(&e.Person) && mg > 0 {
		total += p.perMgSodium() * mg / 100
	}
	return total
}

// mains are the different mains that can be made of what people have portions of.
type mains struct {
	least   float64
	weight  float64
	missing int // column; -1 none
	pairs   []pair
}

// pair is a main: foods of the larder that make its base, and its protein.
type pair struct{ base, protein []int }

// proteins are the foods that bring the protein of one of them.
func (m *mains) proteins() []int {
	var list []int
	for _, one := range m.pairs {
		for _, li := range one.protein {
			if !slices.Contains(list, li) {
				list = append(list, li)
			}
		}
	}
	return list
}

// addMains counts what is missing to so many different mains, each of foods that half of
// those who eat, infants apart, have portions of: with g_f for that,
//
//	half g_f ≤ Σ_p z_pf,  v_m ≤ Σ_{f in base} g_f,  v_m ≤ Σ_{f in protein} g_f,  Σ v_m + missing ≥ least
func addMains(p *program) {
	p.mains = mains{least: float64(ration.MainsIn(p.model.Days())), weight: p.weights.Of(ration.AimMain), missing: -1}
	for _, one := range ration.Mains(p.model.Request.Cook) {
		if base, protein := p.in([]string{one.Base}), p.in([]string{one.Protein}); len(base) > 0 && len(protein) > 0 {
			p.mains.pairs = append(p.mains.pairs, pair{base, protein})
		}
	}
	p.mains.least = math.Min(p.mains.least, float64(len(p.mains.pairs)))
	if p.mains.weight == 0 || p.mains.least <= 0 {
		return
	}
	g := map[int]int{}
	made := func(foods []int) []linear.Entry {
		var terms []linear.Entry
		for _, li := range foods {
			if _, ok := g[li]; !ok {
				name := "main[" + p.model.Larder[li].Food.Name + "]"
				g[li] = p.binary(name, 0)
				all := []linear.Entry{term(g[li], halfFed(p))}
				for ei := range p.eats {
					if z, may := p.eats[ei][li]; may {
						all = append(all, term(z, -1))
					}
				}
				p.most(name, 0, true, all...)
			}
			terms = append(terms, term(g[li], -1))
		}
		return terms
	}
	missing := p.AddCol("mains", p.mains.weight, 0, p.mains.least, false)
	p.mains.missing = missing
	count := []linear.Entry{term(missing, -1)}
	var columns []int
	for _, one := range p.mains.pairs {
		v := p.AddCol("main", 0, 0, 1, false)
		columns = append(columns, v)
		p.most("main", 0, true, append(made(one.base), term(v, 1))...)
		p.most("main", 0, true, append(made(one.protein), term(v, 1))...)
		count = append(count, term(v, -1))
	}
	p.most("mains", -p.mains.least, false, count...)
	p.fill = append(p.fill, func(x []float64) {
		n := 0.0
		for li, col := range g {
			if served(p, x, li) {
				x[col] = 1
			}
		}
		for k, one := range p.mains.pairs {
			if makes(p, x, one, -1) {
				x[columns[k]] = 1
				n++
			}
		}
		x[missing] = math.Max(0, p.mains.least-n)
	})
}

// halfFed is half of the eaters, infants on milk apart.
func halfFed(p *program) float64 {
	n := 0
	for _, e := range p.model.Eaters {
		if e.Needs.Feed == nil {
			n++
		}
	}
	return math.Max(1, math.Ceil(float64(n)/2))
}

// served reports whether half of the eaters have portions of a food, at a point with its
// columns of yes or no.
func served(p *program, x []float64, li int) bool {
	n := 0.0
	for ei := range p.eats {
		if z, may := p.eats[ei][li]; may {
			n += x[z]
		}
	}
	return n >= halfFed(p)-model.Dust
}

// makes reports whether a main can be made at such a point, with one food more where
// that is not -1.
func makes(p *program, x []float64, one pair, more int) bool {
	has := func(li int) bool { return li == more || served(p, x, li) }
	return slices.ContainsFunc(one.base, has) && slices.ContainsFunc(one.protein, has)
}

// moreMains lists the moves that make more mains: portions of a food that nobody, or too
// few, have.
func (d *descent) moreMains(full []float64) []*move {
	if d.mains.missing < 0 || full[d.mains.missing] < 1 {
		return nil
	}
	var list []*move
	for li := range d.model.Larder {
		if !d.in[li] || d.bought[li] < 0 || served(d.program, full, li) {
			continue
		}
		n := 0.0
		for _, one := range d.mains.pairs {
			if (slices.Contains(one.base, li) || slices.Contains(one.protein, li)) && makes(d.program, full, one, li) && !makes(d.program, full, one, -1) {
				n++
			}
		}
		if n == 0 {
			continue
		}
		more := d.serving(full, li, d.mains.weight*math.Min(n, full[d.mains.missing]))
		if more.gain > 0 {
			list = append(list, more)
		}
	}
	return list
}

// serving is the move that lets half of those who may have portions of a food, for what
// that gains less what a food more counts.
func (d *descent) serving(full []float64, li int, gain float64) *move {
	more := &move{rare: -1, food: li, gain: gain}
	d.serve(more, d.x, li)
	if full[d.bought[li]] == 0 {
		more.gain -= d.Cols[d.bought[li]].Cost + d.Cols[d.sizes[li][d.model.Larder[li].Buy[0].Col]].Cost
		for _, k := range d.model.Larder[li].Buy {
			more.set(k.Col, 0, d.model.Problem.Cols[k.Col].Upper)
		}
	}
	return more
}
