package dishes

import (
	"rationwright/foods"
	"rationwright/nutrients"
)

// Figures are what an adult's usual serving holds: the required parts at their usual
// grams, as reckoned; water is what is added to it, and what of that is thrown away.
type Figures struct {
	Grams, Kcal, KcalMin, KcalMax         float64 // KcalMin: required parts at the least; KcalMax: all parts at the most
	ProteinG, FatG, CarbohydrateG, FibreG float64
	AddedSugarsG, LactoseG, SodiumMg      float64
	WaterML, DiscardedML                  float64
}

// Reckon computes the figures of d from the food table. An unknown nutrient counts 0.
func (d *Dish) Reckon() Figures {
	var t Figures
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

// Water returns the mL of water that grams of f take in the part, and what of it is
// thrown away (soaking water, water that is drained off). Where the dish takes other
// water than the food is prepared with, that is said of the food it is reckoned with:
// another takes as much more or less as it does by itself.
func (p *Part) Water(f *foods.Food, grams float64) (addedML, discardedML float64) {
	own, with := f.Preparation, p.ReckonedAs.Preparation
	switch {
	case p.WaterML != nil && f.Form == p.ReckonedAs.Form:
		return grams * *p.WaterML / 100, 0
	case own == nil:
		return 0, 0
	case p.WaterML != nil && with != nil && with.WaterML > 0:
		return grams * *p.WaterML / 100 * own.WaterML / with.WaterML, 0
	}
	return grams * own.WaterML / 100, grams * own.DiscardedML / 100
}
