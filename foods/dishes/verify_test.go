package dishes

import (
	"fmt"
	"slices"

	"rationwright/foods"
	"rationwright/nutrients"
)

// longSimmer is the minutes at the boil from which cooking counts as long.
const longSimmer = 20

// finding is a fault of a dish.
type finding struct {
	Dish *Dish
	Text string
}

// String returns the finding as one line.
func (f finding) String() string { return f.Dish.Key + ": " + f.Text }

// verify holds every dish against the food table: its cooking against what its foods
// need, its pots against its cooking, what stands before it is eaten against what
// may, and its amounts against what is eaten at a sitting.
func verify(b *Book) []finding {
	var found []finding
	for _, d := range b.Dishes {
		add := func(format string, args ...any) { found = append(found, finding{d, fmt.Sprintf(format, args...)}) }
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

// standsBadly reports whether a food must not stand wet for over an hour: milk, egg,
// juice, fruit, fish and meat. Source: the two-hour rule of USDA FSIS between 4 and
// 60 °C, halved for what is handled at table.
func standsBadly(f *foods.Food) bool {
	return slices.ContainsFunc([]string{"milk", "egg", "fish", "shellfish"}, func(w string) bool { return slices.Contains(f.Allergens, w) }) ||
		slices.ContainsFunc([]string{"meat", "poultry", "fish"}, f.HasTag) ||
		slices.ContainsFunc(f.Serves, func(s foods.Serving) bool { return s.Group == "fruit" || s.Group == "dairy" })
}

// figures are what an adult's usual serving holds: the required parts at their usual
// grams, as reckoned; water is what is added to it, and what of that is thrown away.
type figures struct {
	Grams, Kcal, KcalMin, KcalMax         float64 // KcalMin: required parts at the least; KcalMax: all parts at the most
	ProteinG, FatG, CarbohydrateG, FibreG float64
	AddedSugarsG, LactoseG, SodiumMg      float64
	WaterML, DiscardedML                  float64
}

// reckon computes the figures of d from the food table. An unknown nutrient counts 0.
func reckon(d *Dish) figures {
	var t figures
	for _, p := range d.Parts {
		f := p.ReckonedAs
		kcal := f.Per100g.Known(nutrients.Energy) / 100
		t.KcalMax += p.MaxG * kcal
		if p.Optional {
			continue
		}
		t.KcalMin += p.MinG * kcal
		t.Kcal += p.UsualG * kcal
		t.Grams += p.UsualG
		for n, to := range map[nutrients.Nutrient]*float64{
			nutrients.Protein: &t.ProteinG, nutrients.Fat: &t.FatG, nutrients.Carbohydrate: &t.CarbohydrateG,
			nutrients.Fibre: &t.FibreG, nutrients.AddedSugars: &t.AddedSugarsG, nutrients.Sodium: &t.SodiumMg,
		} {
			*to += p.UsualG * f.Per100g.Known(n) / 100
		}
		t.LactoseG += p.UsualG * f.LactoseG / 100
		added, discarded := p.Water(f, p.UsualG)
		t.WaterML += added
		t.DiscardedML += discarded
	}
	return t
}
