package dishes

import (
	"fmt"
	"slices"

	"rationwright/foods"
)

// longSimmer is the minutes at the boil from which cooking counts as long.
const longSimmer = 20

// Verify holds every dish against the food table: its cooking against what its foods
// need, its pots against its cooking, what stands before it is eaten against what
// may, and its amounts against what is eaten at a sitting.
// A finding of a dish is an error, of one of the user's own a thing to look at.
func (b *Book) Verify() []foods.Finding {
	var found []foods.Finding
	for _, d := range b.Dishes {
		severity := foods.Error
		if d.Own {
			severity = foods.Warning
		}
		add := func(format string, args ...any) {
			found = append(found, foods.Finding{Severity: severity, Check: "dish", Text: d.Key + ": " + fmt.Sprintf(format, args...)})
		}
		if pots := min(cookRank[d.Cooking], 1); d.Pots != pots && !d.Own {
			add("%d pots; cooking is %s", d.Pots, d.Cooking)
		}
		if d.Cooking == "boil" && d.SimmerMin >= longSimmer {
			add("simmers %g minutes; boil is under %d", d.SimmerMin, longSimmer)
		}
		if d.ColdOnly && d.Cooking != "none" {
			add("is for where nothing is heated; cooking is %s", d.Cooking)
		}
		if d.forMain() && !slices.ContainsFunc(d.Required(), func(p *Part) bool { return p.Role == "base" || p.Role == "protein" }) {
			add("is for a main meal and has neither base nor protein that it cannot do without: who has none of it would count as fed")
		}
		for _, p := range d.Parts {
			f := p.ReckonedAs
			if !p.Cooks(d, f) {
				add("%s needs %s; cooking is %s", f.Name, f.Preparation.Class, d.Cooking)
			}
			if d.UnderMonths == 0 && f.OccasionG > 0 && p.UsualG > f.OccasionG*sittingRoom {
				add("%g g of %s; at most %g g are eaten at a sitting", p.UsualG, f.Name, f.OccasionG)
			}
			if !p.Optional && d.SoakHours > 1 && p.EatenAs == "soaked" && standsBadly(f) {
				add("%s stands %g hours; nothing wet with milk, egg, juice, fruit, fish or meat stands over an hour", p.Name, d.SoakHours)
			}
		}
	}
	return found
}

// forMain reports whether d is served at a main meal.
func (d *Dish) forMain() bool { return d.Has(Breakfast) || d.Has(Midday) || d.Has(Evening) }

// sittingRoom is what a usual amount may be over the most at a sitting: the amounts
// of the two tables are rounded apart.
const sittingRoom = 1.05

// standsBadly reports whether a food must not stand wet for over an hour: milk, egg,
// juice, fruit, fish and meat. Source: the two-hour rule of USDA FSIS between 4 and
// 60 °C, halved for what is handled at table.
func standsBadly(f *foods.Food) bool {
	return slices.ContainsFunc([]string{"milk", "egg", "fish", "shellfish"}, func(w string) bool { return slices.Contains(f.Allergens, w) }) ||
		slices.ContainsFunc([]string{"meat", "poultry", "fish"}, f.HasTag) ||
		slices.ContainsFunc(f.Serves, func(s foods.Serving) bool { return s.Group == "fruit" || s.Group == "dairy" })
}
