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
	p.most("twins["+c.Kind+"]", c.Value, false, append(terms[:len(terms):len(terms)], term(over, -1))...)
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
	p.most(name, -least, false, append(terms[:len(terms):len(terms)], term(missing, -1))...)
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
	p.most("counts["+p.model.Larder[li].Food.Name+"]", 0, false, append(terms[:len(terms):len(terms)], term(e, half))...)
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
