package recheck

import (
	"fmt"
	"math"
	"slices"

	"rationwright/solver/answer"
	"rationwright/solver/model"
	"rationwright/solver/ration"
)

// eatableFindings are the figures of how far people will eat a plan, and of what the
// second aim spent, where they do not follow from its packs and people.
func eatableFindings(m *model.Model, plan *ration.Plan) []string {
	var found []string
	add := func(format string, args ...any) { found = append(found, fmt.Sprintf(format, args...)) }
	differ := func(what string, got, want float64) {
		if !(math.Abs(got-want) <= ration.CheckTolerance*math.Max(1, math.Abs(want))) {
			add("%s is %g, not %g", what, got, want)
		}
	}
	got, first := plan.Eatable, plan.First
	if got == nil {
		if first != nil {
			add("it has first and no eatable")
		}
		return found
	}
	want := answer.Eatable(m, plan)
	differ("eatable.products", float64(got.Products), float64(want.Products))
	differ("eatable.most_sizes", float64(got.MostSizes), float64(want.MostSizes))
	differ("eatable.crumbs", float64(got.Crumbs), float64(want.Crumbs))
	differ("eatable.mains", float64(got.Mains), float64(want.Mains))
	differ("eatable.largest_food_share", got.LargestFoodShare, want.LargestFoodShare)
	differ("eatable.largest_kind_share", got.LargestKindShare, want.LargestKindShare)
	if len(got.Loosened) != len(want.Loosened) {
		add("eatable.loosened has %d rules, not %d", len(got.Loosened), len(want.Loosened))
	} else {
		for i, l := range want.Loosened {
			differ("eatable.loosened "+l.Kind, got.Loosened[i].Amount, l.Amount)
			if g := got.Loosened[i]; g.Person != l.Person || g.Kind != l.Kind || g.Unit != l.Unit || g.Limit != l.Limit {
				add("eatable.loosened %s is another rule", l.Kind)
			}
		}
	}
	if l := got.LittleSodium; l != nil {
		want := answer.LittleSodium(m, plan, l.Least)
		differ("eatable.little_sodium", l.Amount, want.Amount)
		switch {
		case first == nil || len(want.People) == 0 || !slices.Equal(l.People, want.People):
			add("eatable.little_sodium is not about those who are to have little")
		case !(l.Least >= 0) || l.Least > l.Amount*(1+ration.CheckTolerance):
			add("eatable.little_sodium has a least of %g and an amount of %g", l.Least, l.Amount)
		}
	}
	switch {
	case first == nil && (got.Price != nil || got.Weight != nil || got.Bound != nil):
		add("eatable says what a second aim did, and first is not there")
	case first == nil || plan.Value == nil:
	case m.Request.Slack == 0:
		add("it has first, and its request asks for no second aim")
	case got.Price == nil || got.Weight == nil:
		add("it has first, and eatable has no price or no weight")
	default:
		whole := math.Max(math.Abs(first.Value), ration.SmallestStep(plan.Least))
		differ("eatable.price", *got.Price, (*plan.Value-first.Value)/whole)
		if *plan.Value > first.Value+m.Request.Slack*whole*(1+ration.CheckTolerance) {
			add("its value is %g, beyond the slack of first, %g", *plan.Value, first.Value)
		}
		if (first.Gap == nil) != (plan.Bound == nil) {
			add("first has a gap without a bound, or none with one")
		} else if first.Gap != nil {
			differ("first.gap", *first.Gap, ration.GapOf(first.Value, *plan.Bound, ration.SmallestStep(plan.Least)))
		}
		if got.Bound != nil && *got.Bound > *got.Weight+ration.CheckTolerance*math.Max(1, math.Abs(*got.Weight)) {
			add("eatable.bound passes eatable.weight")
		}
	}
	return found
}
