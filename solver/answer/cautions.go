package answer

import (
	"rationwright/foods/stores"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// Cautions lists, once each and the gravest first, the warnings that touch
// this household and what it stores.
func Cautions(m *model.Model, p *ration.Plan) []ration.Caution {
	s := stores.Situation{People: m.Request.People, Pets: m.Request.Pets, NoMilk: rules.NoMilk(m.Request)}
	for _, line := range p.Packs {
		if k := ration.FindPack(m.Request, line.Pack); k != nil {
			s.Packs = append(s.Packs, k)
		}
	}
	if len(s.Packs) > 0 {
		s.Tags = append(s.Tags, stores.AnyWater)
	}
	if p.Totals != nil && p.Totals.HeatMJ > 0 {
		s.Stoves = []string{m.Request.Stove}
	}
	if len(m.Request.Ill) > 0 {
		s.Tags = append(s.Tags, stores.Illness)
	}
	if m.Request.BoilWater {
		s.Tags = append(s.Tags, stores.DoubtfulWater)
	}
	if len(p.Shortfalls) > 0 {
		s.Tags = append(s.Tags, stores.Supplements)
	}
	if m.Request.LeanEnergy {
		s.Tags = append(s.Tags, stores.LowEnergy)
	}
	return rules.CautionsOf(s)
}
