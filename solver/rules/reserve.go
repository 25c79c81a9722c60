package rules

import (
	"math"
	"slices"
	"strings"

	"rationwright/foods"
	"rationwright/nutrients"
)

// lowDoseG is the sugar that treats one low, in g (ADA Standards of Care, the
// 15-15 rule; nutrients/data/special.csv).
const lowDoseG = 15

// Doses is how many lows one pack treats: its sugar in whole doses, and one where
// it does not keep once it is opened, as juice.
func Doses(k *foods.Pack) float64 {
	doses := math.Floor(k.NetG*k.Food.FastSugarG()/lowDoseG + doseRounding)
	if kept := k.Food.Keeping; kept == nil || kept.AfterOpenHours <= 24 {
		doses = math.Min(doses, 1)
	}
	return doses
}

// HoldsDoses reports whether a pack is bought to hold doses: small enough to be
// carried and kept by the bed, not a bag of sugar for the kitchen. Own planning
// rule.
func HoldsDoses(k *foods.Pack) bool { return Doses(k) > 0 && Doses(k) <= mostDoses }

const mostDoses = 20

// doseRounding keeps sixty grams being four doses.
const doseRounding = 1e-9

// keptForLows is how the eligibility rules begin that keep quick sugar from
// people with diabetes except to treat a low: the reserve is for that.
var keptForLows = []string{"sugary-drink-", "sweets-"}

// MayReserve reports whether packs of f may be set aside for those in need of a
// reserve: every one of them may eat it, it is not left out for the whole household
// (what somebody only dislikes treats a low as well), and it is not what harms a child
// of the household who gets at it: honey under 12 months, what one chokes on under 4
// years.
func (k *kitchen) MayReserve(needy []nutrients.Person, f *foods.Food) bool {
	if f.FastSugarG() <= 0 || k.locks[f] != "" || slices.Contains(f.Kinds, "syrups") {
		return false // a bottle of syrup holds no doses: own planning rule
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
		if all[i].Lows != nil {
			list = append(list, all[i].Person)
		}
	}
	return list
}
