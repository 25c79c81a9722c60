package solver

import (
	"rationwright/foods"
	"rationwright/foods/stores"
)

// cautions lists, once each and the gravest first, the warnings that touch
// this household and what it stores.
func (r *Ration) cautions(p *Plan) []Caution {
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
		s.Tags = append(s.Tags, stores.Cooking, stores.Flame, stores.CarbonMonoxide, stores.StoredFuel)
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
	var list []Caution
	for _, c := range s.Cautions() {
		list = append(list, Caution{
			ID: c.ID, Severity: c.Severity, Text: c.Text + " " + c.Action,
			Source: sourceOf(c.Source, c.Verified), People: c.People,
		})
	}
	return list
}

// packNamed finds a pack of the table or of the stock by its key.
func (r *Ration) packNamed(key string) *foods.Pack { return findPack(r.Request, key) }

// findPack finds a pack of the request's table or stock by its key.
func findPack(req *Request, key string) *foods.Pack {
	for _, k := range req.Table.Packs {
		if k.Key == key {
			return k
		}
	}
	for _, line := range req.Stock {
		if line.Pack.Key == key {
			return line.Pack
		}
	}
	return nil
}
