package rules

import (
	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// WaterInput returns what the stored water of a plan is computed from: what the people
// of a request who are fed eat and drink.
func WaterInput(req *ration.Request, served []ration.PlanPerson) stores.WaterInput {
	r := ration.Filled(req)
	in := stores.WaterInput{Days: r.Days, Hot: r.Hot, HeatCounted: true, WashingL: r.WashingL}
	if r.Pets > 0 {
		in.Pets = []stores.Pet{{Count: r.Pets}}
	}
	var refused []stores.WaterPerson
	for _, person := range r.People {
		needs, err := nutrients.For(person, NeedOptions(r))
		switch {
		case err != nil:
		case needs.Refused != nil:
			refused = append(refused, WaterPerson(r, &person, RefusedDrinkL(r, &needs), true))
		case len(served) > 0:
			in.People = append(in.People, WaterPerson(r, &person, served[0].DrinkLPerDay, false))
			for _, line := range served[0].Foods {
				f := FoodNamed(r.Table, line.Food)
				if f == nil {
					continue
				}
				litres := float64(person.Count) * line.Grams * SpareFactor(&needs, f) * WaterTakenLPerG(f)
				if IsMilkFeed(f) {
					in.FormulaL += litres
				} else {
					in.PreparationL += litres
				}
			}
			served = served[1:]
		}
	}
	in.People = append(in.People, refused...)
	return in
}

// WaterShort says what to give up, in the order that harms least, and for how many days
// haveL litres last, where people eat and drink as they do in a plan or in the closest
// ration. Nobody is reckoned to drink less than they must.
func WaterShort(req *ration.Request, served []ration.PlanPerson, haveL float64) stores.Shortage {
	in := WaterInput(req, served)
	for i := range in.People {
		for k := range req.People {
			p := req.People[k]
			if p.Name != in.People[i].Name || in.People[i].Refused {
				continue
			}
			if needs, err := nutrients.For(p, NeedOptions(req)); err == nil {
				in.People[i].DrinkLPerDay = max(in.People[i].DrinkLPerDay, LeastDrinksL(req, &needs.Water))
			}
		}
	}
	return stores.Short(stores.ComputeWater(in), haveL, in.Pets)
}
