package solver

import (
	"fmt"
	"math"

	"rationwright/foods"
	"rationwright/nutrients"
)

var inf = math.Inf(1)

// Figures of the stored water.
const (
	// spare is the allowance for spills and spoiling: ten per cent on top
	// (provisions/water, planning value, common practice, no source).
	spare = 1.1
	// hygieneLPerDay is water for dishes and hands per head: 1 L with economy
	// (provisions/water, planning value 1–2 L, common practice, no source).
	hygieneLPerDay = 1.0
	// petLPerDay is one US gallon a pet (CDC, Creating and Storing an
	// Emergency Water Supply).
	petLPerDay = 3.785411784
	// hotFactor doubles the drinking need in great heat (FEMA and American Red
	// Cross, Food and Water in an Emergency).
	hotFactor = 2.0
	// boilMJPerL heats a litre from 15 to 100 °C: 4.186 kJ/kg/K × 85 K
	// (provisions/fuel_rules, definitional).
	boilMJPerL = 4.186 * 85 / 1000
	// allowanceLPerDay is the usual allowance of drinking water a head, seven
	// US gallons a fortnight (common practice, no source).
	allowanceLPerDay = 7 * 3.785411784 / 14
)

// climate multiplies the need to drink.
func climate(req *Request) float64 {
	if req.Hot {
		return hotFactor
	}
	return 1
}

// addSupplyRows makes the columns of stored water and heat, and their rows:
//
//	d_p + Σ_f (moisture_f + water eaten_f) y_pf ≥ D·AI_p
//	w − 1.1 (Σ_p n_p d_p + Σ n_p preparation_f y_pf) ≥ D·hygiene·heads + pets + refused
//	h − Σ n_p heat_f y_pf (− boiling of drinking water) ≥ 0
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
		kind: rowStored, class: structural, eater: -1, text: "stored water", unit: "L", perDay: 1,
	})
	heat := r.addRow("heat-used", 0, inf, rowInfo{
		kind: rowHeat, class: structural, eater: -1, text: "useful heat", unit: "MJ", perDay: 1,
	})
	r.Problem.Set(stored, r.water, 1)
	r.Problem.Set(heat, r.heat, 1)
	for _, e := range r.eaters {
		if e.drink >= 0 {
			r.Problem.Set(stored, e.drink, -spare*e.count)
			if r.Request.BoilWater {
				r.Problem.Set(heat, e.drink, -e.count*boilMJPerL)
			}
		}
		for _, y := range e.eats {
			f := r.larder[y.food].food
			r.Problem.Set(stored, y.col, -spare*e.count*y.spare*waterTakenLPerG(f))
			r.Problem.Set(heat, y.col, -e.count*y.spare*r.heatMJPerG(f))
		}
	}
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
		kind: rowStored, class: structural, eater: -1, text: spaced(name), perDay: 1,
	})
	r.Problem.Set(row, own, 1)
	r.Problem.Set(row, total, -1)
}

// fixedWaterL is the stored water that no food changes: hygiene for every head,
// pets, and the drinking of those whose food a clinician plans.
func (r *Ration) fixedWaterL() float64 {
	litres := float64(r.Request.Pets) * petLPerDay * r.days()
	for _, e := range r.eaters {
		litres += e.count * hygieneLPerDay * r.days()
	}
	for _, e := range r.refused {
		perDay := hygieneLPerDay
		if e.needs.Water.Total != nil {
			perDay += spare * e.needs.Water.Total.Amount * climate(r.Request)
		}
		litres += e.count * perDay * r.days()
	}
	return litres
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
	if f.Preparation == nil || eatenCold(r.Request.Cook, f) {
		return 0
	}
	return f.Preparation.HeatMJ / 100
}
