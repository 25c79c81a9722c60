package solver

import (
	"slices"
	"strings"

	"rationwright/foods"
	"rationwright/nutrients"
)

// reserveG is the fast sugar to set aside for the whole household, in g. It is
// never ration.
func (r *Ration) reserveG() float64 {
	total := 0.0
	for _, e := range r.eaters {
		total += e.count * e.needs.ReserveG
	}
	return total
}

// fastSugarG is the sugar of one pack, in g.
func fastSugarG(k *foods.Pack) float64 {
	return k.NetG * k.Food.FastSugarG()
}

// isFastSugar reports whether packs of f can be set aside against a low blood
// sugar.
func isFastSugar(f *foods.Food) bool {
	return f.FastSugarG() > 0
}

// keptForLows is how the eligibility rules begin that keep quick sugar from
// people with diabetes except to treat a low: the reserve is for that.
var keptForLows = []string{"sugary-drink-", "sweets-"}

// mayReserve reports whether packs of f may be set aside for those in need of a
// reserve: every one of them may eat it, no wish leaves it out, and it is not
// what harms a child of the household who gets at it: honey under 12 months,
// what one chokes on under 4 years.
func (k *kitchen) mayReserve(needy []nutrients.Person, f *foods.Food) bool {
	if !isFastSugar(f) || k.locks[f] != "" {
		return false
	}
	for _, p := range needy {
		for _, why := range foods.Bars(p, k.req.People, f) {
			if !slices.ContainsFunc(keptForLows, func(s string) bool { return strings.HasPrefix(why.Rule, s) }) {
				return false
			}
		}
	}
	return !slices.ContainsFunc(k.req.People, func(p nutrients.Person) bool {
		return p.AgeMonths < infantBelow && f.HasTag(foods.TagHoney) || p.AgeMonths < chokingBelow && f.HasTag(foods.TagChoking)
	})
}

// Ages under which honey and what one chokes on are barred, in full months
// (data/eligibility.csv, rules honey and choking).
const (
	infantBelow  = 12
	chokingBelow = 48
)

// needReserve lists the people for whom fast sugar is set aside.
func needReserve(all []nutrients.Needs) []nutrients.Person {
	var list []nutrients.Person
	for i := range all {
		if all[i].ReserveG > 0 {
			list = append(list, all[i].Person)
		}
	}
	return list
}

// addReserveRows sets packs of fast sugar aside for people with diabetes:
//
//	Σ_k sugar_k r_k ≥ Σ_p n_p reserve_p
func (r *Ration) addReserveRows() {
	need := r.reserveG()
	if need <= 0 {
		return
	}
	row := -1
	for _, lf := range r.larder {
		for _, k := range lf.reserve {
			if row < 0 {
				row = r.addRow("fast-sugar-reserve", need, inf, rowInfo{
					kind: rowReserve, class: safety, eater: -1,
					text: "fast sugar set aside for a low", unit: "g", perDay: 1,
				})
			}
			r.Problem.Set(row, k.col, k.usable)
		}
	}
	if row < 0 {
		r.notes = append(r.notes, "no fast sugar against a low blood sugar can be set aside from what may be bought: keep some ready")
	}
}
