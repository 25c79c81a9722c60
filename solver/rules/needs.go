package rules

import (
	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// NeedOptions are the options of the needs of everyone in a request.
func NeedOptions(req *ration.Request) nutrients.Options {
	return nutrients.Options{Standard: req.Standard, EnergySet: req.Energy, LeanEnergy: req.LeanEnergy, Start: req.Start}
}

// FoodNamed is the food of a table called name, nil where there is none.
func FoodNamed(t *foods.Table, name string) *foods.Food {
	for _, f := range t.Foods {
		if f.Name == name {
			return f
		}
	}
	return nil
}
