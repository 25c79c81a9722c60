package solver

import (
	"fmt"
	"math"
	"slices"
	"sync"

	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

var inf = math.Inf(1)

// waterFigures are the planning figures of stored water and of boiling it, all
// from package stores, where their sources are.
type waterFigures struct {
	spare     float64 // what drinking and cooking water is multiplied by for spills and spoiling
	hygieneL  float64 // L a head and day for hands and dishes
	petL      float64 // L a pet and day
	hotFactor float64 // what heat multiplies the need to drink by
	boilMJ    float64 // useful heat, MJ a litre of water that must be boiled
	usualL    float64 // the usual allowance, L a head and day
}

var waterFigure = sync.OnceValue(func() waterFigures {
	return waterFigures{
		spare: stores.SpillFactor().Value, hygieneL: stores.HygieneL().Value, petL: stores.PetL().Value,
		hotFactor: stores.HotFactor().Value, boilMJ: stores.BoilHeat().Value, usualL: stores.UsualAllowance().LPerHeadDay,
	}
})

// climate multiplies the need to drink.
func climate(req *ration.Request) float64 {
	if req.Hot {
		return waterFigure().hotFactor
	}
	return 1
}

// waterPerson is one row of the household as far as water goes: what one of
// them drinks a day, and what published water rules ask about.
func waterPerson(req *ration.Request, p *nutrients.Person, drinkL float64, refused bool) stores.WaterPerson {
	tags := stores.PersonTags(p)
	if slices.Contains(req.Ill, p.Name) {
		tags = append(tags, stores.Ill)
	}
	return stores.WaterPerson{Name: p.Name, Count: p.Count, DrinkLPerDay: drinkL, Tags: tags, Refused: refused}
}

// keptDrinkL is the water kept for one person to drink, L a day: what they
// drink, and never under the published least for the pregnant, the sick, the
// heat and those whom no plan feeds.
func keptDrinkL(req *ration.Request, p *nutrients.Person, drinkL float64, refused bool) float64 {
	return math.Max(drinkL, stores.LeastDrink(waterPerson(req, p, drinkL, refused), req.Hot).Value)
}

// refusedDrinkL is what one person drinks a day whose food a clinician plans:
// all the water they need, as none is known to come with food.
func refusedDrinkL(req *ration.Request, needs *nutrients.Needs) float64 {
	if needs.Water.Total == nil {
		return 0
	}
	return needs.Water.Total.Amount * climate(req)
}

// addSupplyRows makes the columns of stored water and heat, and their rows:
//
//	d_p + Σ_f (moisture_f + water eaten_f) y_pf ≥ D·AI_p
//	k_p ≥ d_p, k_p ≥ D·published least                  water kept for p to drink
//	w − 1.1 (Σ_p n_p k_p + Σ n_p preparation_f y_pf) ≥ D·hygiene·heads + pets + refused
//	h − Σ n_p heat_f y_pf (− boiling of drinking water) ≥ 0
//
// k_p is d_p itself where nothing is published for p.
func (r *Ration) addSupplyRows() {
	r.water = r.addCol("water", 0, inf, false, colInfo{kind: colWater, eater: -1, larder: -1})
	r.heat = r.addCol("heat", 0, inf, false, colInfo{kind: colHeat, eater: -1, larder: -1})
	for ei, e := range r.eaters {
		if e.drink < 0 {
			continue
		}
		total := e.needs.Water.Total
		row := r.addRow(fmt.Sprintf("water[%s]", e.person.Name), r.days()*total.Amount*climate(r.Request), inf, rowInfo{
			kind: rowWater, class: requirement, eater: ei, nutrient: nutrients.Water,
			text: "water in food and drink", unit: "L", perDay: r.days(), source: total.Source,
		})
		r.Problem.Set(row, e.drink, 1)
		for _, y := range e.eats {
			r.Problem.Set(row, y.col, waterEatenLPerG(r.larder[y.food].food))
		}
	}
	r.addOwnSupply("own-water", r.Request.StockWaterL, r.water, colOwnWater)
	r.addOwnSupply("own-heat", r.Request.StockHeatMJ, r.heat, colOwnHeat)
	stored := r.addRow("water-stored", r.fixedWaterL(), inf, rowInfo{
		kind: rowAllWater, class: structural, eater: -1, text: "stored water", unit: "L", perDay: 1,
	})
	heat := r.addRow("heat-used", 0, inf, rowInfo{
		kind: rowHeat, class: structural, eater: -1, text: "useful heat", unit: "MJ", perDay: 1,
	})
	r.Problem.Set(stored, r.water, 1)
	r.Problem.Set(heat, r.heat, 1)
	spare := waterFigure().spare
	for ei, e := range r.eaters {
		if e.drink >= 0 {
			r.Problem.Set(stored, r.keptColumn(ei, e), -spare*e.count)
			if r.Request.BoilWater {
				r.Problem.Set(heat, e.drink, -e.count*waterFigure().boilMJ)
			}
		}
		for _, y := range e.eats {
			f := r.larder[y.food].food
			r.Problem.Set(stored, y.col, -spare*e.count*y.spare*waterTakenLPerG(f))
			r.Problem.Set(heat, y.col, -e.count*y.spare*r.heatMJPerG(f))
		}
	}
}

// keptColumn returns the column of the water kept for e to drink: what e drinks,
// or a column of its own where a least amount is published.
func (r *Ration) keptColumn(ei int, e *eater) int {
	least := keptDrinkL(r.Request, &e.person, 0, false)
	if least <= 0 {
		return e.drink
	}
	kept := r.addCol(fmt.Sprintf("kept[%s]", e.person.Name), least*r.days(), inf, false,
		colInfo{kind: colKept, eater: ei, larder: -1})
	row := r.addRow(fmt.Sprintf("kept[%s]", e.person.Name), 0, inf, rowInfo{
		kind: rowStored, class: structural, eater: ei, text: "water kept to drink", unit: "L", perDay: r.days(),
	})
	r.Problem.Set(row, kept, 1)
	r.Problem.Set(row, e.drink, -1)
	return kept
}

// addOwnSupply makes the column of how much of a supply is on hand already, at
// no cost:
//
//	o ≤ on hand,  o − total ≤ 0
func (r *Ration) addOwnSupply(name string, onHand *float64, total int, kind colKind) {
	if onHand == nil || *onHand <= 0 {
		return
	}
	own := r.addCol(name, 0, *onHand, false, colInfo{kind: kind, eater: -1, larder: -1})
	row := r.addRow(name+"-used", math.Inf(-1), 0, rowInfo{
		kind: rowStored, class: structural, eater: -1, text: ration.Spaced(name), perDay: 1,
	})
	r.Problem.Set(row, own, 1)
	r.Problem.Set(row, total, -1)
}

// fixedWaterL is the stored water that no food changes: hygiene for every head,
// pets, what is kept for infants who are ill, and the drinking of those whose
// food a clinician plans.
func (r *Ration) fixedWaterL() float64 {
	w := waterFigure()
	litres := float64(r.Request.Pets) * w.petL * r.days()
	for _, e := range r.eaters {
		perDay := w.hygieneL
		if e.drink < 0 {
			perDay += w.spare * keptDrinkL(r.Request, &e.person, 0, false)
		}
		litres += e.count * perDay * r.days()
	}
	for _, e := range r.refused {
		kept := keptDrinkL(r.Request, &e.person, refusedDrinkL(r.Request, &e.needs), true)
		litres += e.count * (w.hygieneL + w.spare*kept) * r.days()
	}
	return litres
}

// washingL is the part of the stored water that is for washing hands and dishes.
func (r *Ration) washingL() float64 {
	heads := 0.0
	for _, e := range append(slices.Clone(r.eaters), r.refused...) {
		heads += e.count
	}
	return heads * waterFigure().hygieneL * r.days()
}

// waterEatenLPerG is the water that a gram of f brings: its moisture and what
// is added and eaten.
func waterEatenLPerG(f *foods.Food) float64 {
	litres := f.Per100g.Known(nutrients.Water) / 100 / 1000
	if f.Preparation != nil {
		litres += f.Preparation.EatenML / 100 / 1000
	}
	return litres
}

// waterTakenLPerG is the stored water that preparing a gram of f takes.
func waterTakenLPerG(f *foods.Food) float64 {
	if f.Preparation == nil {
		return 0
	}
	return f.Preparation.WaterML / 100 / 1000
}

// heatMJPerG is the useful heat that preparing a gram of f takes; a food that
// is safe cold takes none where the household does not cook.
func (r *Ration) heatMJPerG(f *foods.Food) float64 {
	if f.Preparation == nil || eatenCold(r.Request, f) {
		return 0
	}
	return f.Preparation.HeatMJ / 100
}
