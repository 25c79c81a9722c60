package rules

import (
	"slices"
	"strings"

	"rationwright/foods"
	"rationwright/nutrients"
)

// FastSugarG is the sugar of one pack, in g.
func FastSugarG(k *foods.Pack) float64 {
	return k.NetG * k.Food.FastSugarG()
}

// IsFastSugar reports whether packs of f can be set aside against a low blood
// sugar.
func IsFastSugar(f *foods.Food) bool {
	return f.FastSugarG() > 0
}

// keptForLows is how the eligibility rules begin that keep quick sugar from
// people with diabetes except to treat a low: the reserve is for that.
var keptForLows = []string{"sugary-drink-", "sweets-"}

// MayReserve reports whether packs of f may be set aside for those in need of a
// reserve: every one of them may eat it, no wish leaves it out, and it is not
// what harms a child of the household who gets at it: honey under 12 months,
// what one chokes on under 4 years.
func (k *kitchen) MayReserve(needy []nutrients.Person, f *foods.Food) bool {
	if !IsFastSugar(f) || k.locks[f] != "" {
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

// NeedReserve lists the people for whom fast sugar is set aside.
func NeedReserve(all []nutrients.Needs) []nutrients.Person {
	var list []nutrients.Person
	for i := range all {
		if all[i].ReserveG > 0 {
			list = append(list, all[i].Person)
		}
	}
	return list
}
