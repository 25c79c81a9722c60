package dishes

import (
	"rationwright/nutrients"
)

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
