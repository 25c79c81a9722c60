package rules

import (
	"math"
	"slices"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// Portion is an amount of a food over the horizon.
type Portion struct {
	Food  *foods.Food
	Grams float64
}

// Intake adds up n per day over what is eaten; unknown is true where a food
// eaten has no figure.
func Intake(eaten []Portion, n nutrients.Nutrient, days float64) (perDay float64, unknown bool) {
	for _, p := range eaten {
		amount, known := p.Food.Per100g.Get(n)
		if !known {
			unknown = true
			continue
		}
		perDay += amount * p.Grams / 100 / days
	}
	return perDay, unknown
}

// PersonNeeds sets what a person gets per day beside what is asked. The energy
// shares are in grams at the planned energy, or at the least energy asked where
// less is planned. Water is in litres: drink, and water in food.
func PersonNeeds(req *ration.Request, needs nutrients.Needs, eaten []Portion, drinkL float64) []ration.PersonNeed {
	days := float64(req.Days)
	var list []ration.PersonNeed
	for _, need := range needs.List {
		list = append(list, PersonNeed(need, eaten, days))
	}
	energy, _ := Intake(eaten, nutrients.Energy, days)
	for _, need := range needs.List { // a share of too little energy says nothing
		if need.Nutrient == nutrients.Energy && need.Floor != nil {
			energy = math.Max(energy, need.Floor.Amount)
		}
	}
	for _, share := range needs.Shares {
		list = mergeShare(list, share, eaten, energy, days)
	}
	if needs.Water.Total != nil {
		floor := TotalWaterL(req, &needs.Water)
		list = append(list, ration.PersonNeed{
			Nutrient: nutrients.Water.Name(), Unit: "L",
			Amount: ration.NoResidue(waterIntakeL(eaten, days) + drinkL),
			Floor:  &floor, Target: &floor, Source: needs.Water.Total.Source,
		})
	}
	return list
}

// waterIntakeL is the water in food per day.
func waterIntakeL(eaten []Portion, days float64) float64 {
	litres := 0.0
	for _, p := range eaten {
		litres += WaterEatenLPerG(p.Food) * p.Grams / days
	}
	return litres
}

// PersonNeed sets what a person gets of one nutrient per day beside what is asked.
func PersonNeed(need nutrients.Need, eaten []Portion, days float64) ration.PersonNeed {
	amount, unknown := Intake(eaten, need.Nutrient, days)
	out := ration.PersonNeed{
		Nutrient: need.Nutrient.Name(), Unit: need.Nutrient.Unit(), Amount: ration.NoResidue(amount), Unknown: unknown,
	}
	if need.Ceiling != nil {
		out.Source = ration.SourceOf(need.Ceiling.Source, need.Ceiling.Verified)
		if !need.Shown {
			out.Ceiling = new(need.Ceiling.Amount)
		}
	}
	if need.Floor != nil {
		out.Source = ration.SourceOf(need.Floor.Source, need.Floor.Verified)
		if !need.Shown {
			out.Floor = new(need.Floor.Amount)
		}
	}
	if need.Target != nil {
		out.Target = new(need.Target.Amount)
		if out.Source == "" {
			out.Source = ration.SourceOf(need.Target.Source, need.Target.Verified)
		}
	}
	return out
}

// mergeShare writes a share of energy in grams at the planned energy: into the
// nutrient's own line where that has none on that side or a looser one, else
// as the tighter of the two.
func mergeShare(list []ration.PersonNeed, share nutrients.Share, eaten []Portion, energy, days float64) []ration.PersonNeed {
	at := slices.IndexFunc(list, func(n ration.PersonNeed) bool { return n.Nutrient == share.Nutrient.Name() })
	if at < 0 {
		at = len(list)
		list = append(list, PersonNeed(nutrients.Need{Nutrient: share.Nutrient}, eaten, days))
	}
	line := &list[at]
	if share.Min != nil {
		grams := share.Min.Amount / 100 * energy / share.KcalPerG
		if line.Floor == nil || grams > *line.Floor {
			line.Floor = &grams
			line.Source = ration.SourceOf(share.Min.Source, share.Min.Verified)
		}
	}
	if share.Max != nil {
		grams := share.Max.Amount / 100 * energy / share.KcalPerG
		if line.Ceiling == nil || grams < *line.Ceiling {
			line.Ceiling = &grams
			if line.Source == "" {
				line.Source = ration.SourceOf(share.Max.Source, share.Max.Verified)
			}
		}
	}
	return list
}
