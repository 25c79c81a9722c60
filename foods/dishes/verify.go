package dishes

import (
	"fmt"
	"slices"
	"strings"

	"rationwright/foods"
)

// cookRank orders the classes of cooking.
var cookRank = map[string]int{"none": 0, "warm": 1, "boil": 2, "simmer": 3}

// longSimmer is the minutes at the boil from which cooking counts as long.
const longSimmer = 20

// Finding is a fault of a dish.
type Finding struct {
	Dish *Dish
	Text string
}

// String returns the finding as one line.
func (f Finding) String() string { return f.Dish.Key + ": " + f.Text }

// Verify holds every dish against the food table: its cooking against what its foods
// need, its pots against its cooking, what stands before it is eaten against what
// may, and its amounts against what is eaten at a sitting.
func (b *Book) Verify() []Finding {
	var found []Finding
	for _, d := range b.Dishes {
		add := func(format string, args ...any) { found = append(found, Finding{d, fmt.Sprintf(format, args...)}) }
		if pots := min(cookRank[d.Cooking], 1); d.Pots != pots && !d.Own {
			add("%d pots; cooking is %s", d.Pots, d.Cooking)
		}
		if d.Cooking == "boil" && d.SimmerMin >= longSimmer {
			add("simmers %g minutes; boil is under %d", d.SimmerMin, longSimmer)
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

// sittingRoom is what a usual amount may be over the most at a sitting: the amounts
// of the two tables are rounded apart.
const sittingRoom = 1.05

// classCounts in the note of a part says that what the dish does to it counts: starch
// in a sauce is boiled, though by itself it is simmered for long.
const classCounts = "class of the dish counts"

// Cooks reports whether the cooking of d, of which p is a part, makes f ready.
func (p *Part) Cooks(d *Dish, f *foods.Food) bool {
	return f.Preparation == nil || f.Preparation.ColdOK || cookRank[f.Preparation.Class] <= cookRank[d.Cooking] || strings.Contains(p.Note, classCounts)
}

// standsBadly reports whether a food must not stand wet for over an hour: milk, egg,
// juice, fruit, fish and meat. Source: the two-hour rule of USDA FSIS between 4 and
// 60 °C, halved for what is handled at table.
func standsBadly(f *foods.Food) bool {
	return slices.ContainsFunc([]string{"milk", "egg", "fish", "shellfish"}, func(w string) bool { return slices.Contains(f.Allergens, w) }) ||
		slices.ContainsFunc([]string{"meat", "poultry", "fish"}, f.HasTag) ||
		slices.ContainsFunc(f.Serves, func(s foods.Serving) bool { return s.Group == "fruit" || s.Group == "dairy" })
}
