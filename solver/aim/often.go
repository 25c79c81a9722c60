package aim

import (
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
)

// everySecond is the part of the days on which one food is eaten by one person
// before it is too often: planning rule of this program, no source.
const everySecond = 0.5

// often is a food that somebody may have too often.
type often struct {
	eater, food int
	col         int     // what is eaten
	over        int     // sittings beyond
	mostG       float64 // that is not too often, over the horizon
	sittingG    float64
	weight      float64 // of a sitting beyond, of all who eat it
}

// addOften counts what people have of one food beyond a sitting every second day:
//
//	y_pf − s_pf o_pf ≤ everySecond·days·s_pf,  weight Σ n_p o_pf
//
// with s_pf the most at one sitting.
func (p *program) addOften() {
	for ei, e := range p.model.Eaters {
		if e.Needs.Feed != nil {
			continue
		}
		for _, y := range e.Eats {
			f := p.model.Larder[y.Food].Food
			sitting, _, _ := foods.Cap(&e.Person, f)
			most := everySecond * p.model.Days() * sitting
			weight := e.Count * oftenWeight(p.weights, f)
			if weight == 0 || most <= 0 || y.CapG <= most {
				continue
			}
			o := often{ei, y.Food, y.Col, p.AddCol("often["+e.Person.Name+","+f.Name+"]", weight, 0, model.Inf, false), most, sitting, weight}
			p.oftens = append(p.oftens, o)
			p.most("often["+e.Person.Name+","+f.Name+"]", most, true, term(y.Col, 1), term(o.over, -sitting))
			p.fill = append(p.fill, func(x []float64) { x[o.over] = o.beyond(x) })
		}
	}
}

// beyond is how many sittings there are too many at a point.
func (o *often) beyond(x []float64) float64 { return math.Max(0, (x[o.col]-o.mostG)/o.sittingG) }

// oftenWeight is that of the kinds that f is of, the largest.
func oftenWeight(weights ration.Weights, f *foods.Food) float64 {
	weight := 0.0
	for _, w := range weights {
		if w.Part == ration.AimOften && slices.ContainsFunc(w.Kinds, func(k string) bool { return slices.Contains(f.Kinds, k) }) {
			weight = math.Max(weight, w.Value)
		}
	}
	return weight
}

// mostOf is the most that somebody may have, around a point, of the foods that moves
// made rarer: what is not too often, or what it is already.
func (p *program) mostOf(x []float64) map[int]float64 {
	most := make(map[int]float64)
	for _, o := range p.oftens {
		if !p.rare[o.food] {
			continue
		}
		most[o.col] = math.Max(o.mostG, x[o.col]*(1+search.PortionTolerance))
	}
	return most
}

// rarer lists the moves that end what is too often: a food for all who have it so,
// with other foods of its kinds to come in.
func (d *descent) rarer() []*move {
	byFood := map[int]*move{}
	var list []*move
	for _, o := range d.oftens {
		n := o.beyond(d.x)
		if n < oftenStep {
			continue
		}
		v := byFood[o.food]
		if v == nil {
			v = &move{food: o.food, rare: o.food}
			byFood[o.food] = v
			list = append(list, v)
			d.openLike(v, o.food)
		}
		v.set(o.col, 0, o.mostG)
		v.gain += o.weight * n
	}
	return list
}

// oftenStep is the part of a sitting under which nothing is too often.
const oftenStep = 0.1

// openLike lets fewer packs of a food be there, and the packs of others like it come
// in.
func (d *descent) openLike(v *move, li int) {
	f := d.model.Larder[li].Food
	most := d.mostOf(d.x)
	for _, k := range d.model.Larder[li].Buy {
		if math.Round(d.x[k.Col]) > 0 {
			v.set(k.Col, 0, d.model.Problem.Cols[k.Col].Upper)
		}
	}
	for other, lf := range d.model.Larder {
		if other == li || !d.in[other] || d.bought[other] < 0 || !slices.ContainsFunc(lf.Food.Kinds, func(k string) bool { return slices.Contains(f.Kinds, k) && oftenKind(d.weights, k) }) {
			continue
		}
		for _, k := range lf.Buy {
			v.set(k.Col, math.Round(d.x[k.Col]), d.model.Problem.Cols[k.Col].Upper)
		}
		for ei := range d.model.Eaters {
			if y, ok := d.model.Eaters[ei].Eating(other); ok {
				v.set(y.Col, 0, atMost(most, y.Col, y.CapG))
			}
		}
	}
}

func oftenKind(weights ration.Weights, kind string) bool {
	return slices.ContainsFunc(weights, func(w ration.Weight) bool { return w.Part == ration.AimOften && slices.Contains(w.Kinds, kind) })
}
