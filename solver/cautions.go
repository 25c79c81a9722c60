package solver

import (
	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/solver/ration"
)

// cautions lists, once each and the gravest first, the warnings that touch
// this household and what it stores.
func (r *Ration) cautions(p *ration.Plan) []ration.Caution {
	s := stores.Situation{People: r.Request.People, Pets: r.Request.Pets}
	for _, line := range p.Packs {
		if k := r.packNamed(line.Pack); k != nil {
			s.Packs = append(s.Packs, k)
		}
	}
	if len(s.Packs) > 0 {
		s.Tags = append(s.Tags, stores.AnyWater)
	}
	if p.Totals != nil && p.Totals.HeatMJ > 0 {
		s.Stoves = []string{r.Request.Stove}
	}
	if len(r.Request.Ill) > 0 {
		s.Tags = append(s.Tags, stores.Illness)
	}
	if r.Request.BoilWater {
		s.Tags = append(s.Tags, stores.DoubtfulWater)
	}
	if len(p.Shortfalls) > 0 {
		s.Tags = append(s.Tags, stores.Supplements)
	}
	if r.Request.Lean {
		s.Tags = append(s.Tags, stores.LowEnergy)
	}
	return cautionsOf(s)
}

// packNamed finds a pack of the table or of the stock by its key.
func (r *Ration) packNamed(key string) *foods.Pack { return ration.FindPack(r.Request, key) }
