package rules

import (
	"slices"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// liftG is the heaviest full pack that weak hands lift and pour from with one
// hand, in g: planning default, common practice, no source. It lets a carton of
// one litre pass and keeps large cans, jugs and sacks out.
const liftG = 1500

// EasyToOpen reports whether weak hands can open k and lift it.
func EasyToOpen(k *foods.Pack) bool { return k.EasyOpen && k.GrossG <= liftG }

// CanOpen reports whether k may be used by a household that asks for packs that
// weak hands can open, or does not.
func CanOpen(req *ration.Request, k *foods.Pack) bool { return !req.EasyOpen || EasyToOpen(k) }

// anyOpens reports whether one pack of f may be used.
func anyOpens(req *ration.Request, f *foods.Food) bool {
	return slices.ContainsFunc(f.Packs, func(k *foods.Pack) bool { return CanOpen(req, k) })
}

// Ages of those who open packs in a household, in months: from 14 years on, and
// older adults from 65. Common practice, no source.
const (
	openerFrom = 14 * 12
	olderFrom  = 65 * 12
)

// OlderOnly reports whether everybody who would open the packs is 65 or over.
func OlderOnly(people []nutrients.Person) bool {
	openers := 0
	for _, p := range people {
		switch {
		case p.AgeMonths >= olderFrom:
			openers++
		case p.AgeMonths >= openerFrom:
			return false
		}
	}
	return openers > 0
}
