package rules

import (
	"math"
	"slices"
	"sync"

	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// AllowanceL is the usual allowance of water of everyone over the horizon; the
// pets' water comes on top, as it is for people.
func AllowanceL(req *ration.Request) float64 {
	perDay := float64(req.Pets) * WaterFigure().PetL
	for _, p := range req.People {
		perDay += float64(p.Count) * WaterFigure().usualL
	}
	return perDay * float64(req.Days)
}

// waterFigures are the planning figures of stored water and of boiling it, all
// from package stores, where their sources are.
type waterFigures struct {
	SpillFactor float64 // what drinking and cooking water is multiplied by for spills and spoiling
	HygieneL    float64 // L a head and day for hands and dishes
	PetL        float64 // L a pet and day
	hotFactor   float64 // what heat multiplies the need to drink by
	BoilMJ      float64 // useful heat, MJ a litre of water that must be boiled
	usualL      float64 // the usual allowance, L a head and day
}

var WaterFigure = sync.OnceValue(func() waterFigures {
	return waterFigures{
		SpillFactor: stores.SpillFactor().Value, HygieneL: stores.HygieneL().Value, PetL: stores.PetL().Value,
		hotFactor: stores.HotFactor().Value, BoilMJ: stores.BoilHeat().Value, usualL: stores.UsualAllowance().LPerHeadDay,
	}
})

// WashingL is the water for hands and dishes, L a head and day: the household's
// own amount, or the planning figure.
func WashingL(req *ration.Request) float64 {
	if req.WashingL != nil {
		return *req.WashingL
	}
	return WaterFigure().HygieneL
}

// Climate multiplies the need to drink.
func Climate(req *ration.Request) float64 {
	if req.Hot {
		return WaterFigure().hotFactor
	}
	return 1
}

// WaterPerson is one row of the household as far as water goes: what one of
// them drinks a day, and what published water rules ask about.
func WaterPerson(req *ration.Request, p *nutrients.Person, drinkL float64, refused bool) stores.WaterPerson {
	tags := stores.PersonTags(p)
	if slices.Contains(req.Ill, p.Name) {
		tags = append(tags, stores.Ill)
	}
	return stores.WaterPerson{Name: p.Name, Count: p.Count, DrinkLPerDay: drinkL, Tags: tags, Refused: refused}
}

// KeptDrinkL is the water kept for one person to drink, L a day: what they
// drink, and never under the published least for the pregnant, the sick, the
// heat and those whom no plan feeds.
func KeptDrinkL(req *ration.Request, p *nutrients.Person, drinkL float64, refused bool) float64 {
	return math.Max(drinkL, stores.LeastDrink(WaterPerson(req, p, drinkL, refused), req.Hot).Value)
}

// TotalWaterL is the water that one person needs a day in food and drink, and
// LeastDrinksL the least of it that is drunk, in L: more in the heat, but never
// past what a clinician ordered, which the heat does not raise either.
func TotalWaterL(req *ration.Request, w *nutrients.WaterNeed) float64 {
	return inClimate(req, w, w.Total)
}

func LeastDrinksL(req *ration.Request, w *nutrients.WaterNeed) float64 {
	return inClimate(req, w, w.Drinks)
}

func inClimate(req *ration.Request, w *nutrients.WaterNeed, l *nutrients.Limit) float64 {
	switch {
	case l == nil:
		return 0
	case l.Ordered():
		return l.Amount
	case w.Most != nil:
		return math.Min(l.Amount*Climate(req), w.Most.Amount)
	}
	return l.Amount * Climate(req)
}

// FluidLPerG is the water of a gram of f where that is liquid, as made ready:
// milk, juice, soup and what is mixed into a drink. Clinicians count fluid so
// (common practice, no source).
func FluidLPerG(f *foods.Food) float64 {
	if !f.IsFluid() {
		return 0
	}
	return WaterEatenLPerG(f)
}

// RefusedDrinkL is what one person drinks a day whose food a clinician plans:
// all the water they need, as none is known to come with food.
func RefusedDrinkL(req *ration.Request, needs *nutrients.Needs) float64 {
	if needs.Water.Total == nil {
		return 0
	}
	return needs.Water.Total.Amount * Climate(req)
}

// WaterEatenLPerG is the water that a gram of f brings: its moisture and what
// is added and eaten.
func WaterEatenLPerG(f *foods.Food) float64 {
	litres := f.Per100g.Known(nutrients.Water) / 100 / 1000
	if f.Preparation != nil {
		litres += f.Preparation.EatenML / 100 / 1000
	}
	return litres
}

// WaterTakenLPerG is the stored water that preparing a gram of f takes.
func WaterTakenLPerG(f *foods.Food) float64 {
	if f.Preparation == nil {
		return 0
	}
	return f.Preparation.WaterML / 100 / 1000
}
