package answer

import (
	"math"

	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
	"rationwright/solver/verify"
)

// Gladder is what the second aim found: a point, its value by the weights, that of
// the point it began with, and the bound.
type Gladder struct {
	X      []float64 // of the model; nil where nothing better was found
	Value  float64
	Before float64
	Bound  float64

	// SodiumLeast is proven of the sodium of all who are to have little, mg a day: no plan
	// within the slack has less. nil where nobody is.
	SodiumLeast *float64

	ByClock bool // stopped by the clock: may differ next time
}

// noPrice is the part of the value under which a price is what the arithmetic leaves.
const noPrice = 1e-12

// Second writes the plan of the second aim beside the first, whose bound, proof and
// prices it keeps: value and gap are those of the plan shown, First those of the best
// found. It is the first where nothing better was found, or where what was found
// does not pass the check.
func Second(m *model.Model, first *ration.Plan, found Gladder) *ration.Plan {
	p := first
	if found.X != nil {
		p = Write(m, found.X)
		p.Shortfalls = Gets(p, first.Shortfalls)
		p.Notes = append(p.Notes, AdviseSupplements(p.Shortfalls)...)
		p.Status, p.Stopped, p.Prices, p.Audit = first.Status, first.Stopped, first.Prices, first.Audit
		if first.Bound != nil {
			bound := *first.Bound
			gap := ration.GapOf(*p.Value, bound, ration.SmallestStep(m.Request.Least))
			p.Bound, p.Gap = &bound, &gap
		}
		Complete(m, p)
		if len(verify.Check(m.Request, p)) > 0 {
			p, found.Value = first, found.Before
		}
	}
	p.First = &ration.First{
		Value: *first.Value, Gap: first.Gap, Products: first.Eatable.Products, MostSizes: first.Eatable.MostSizes, Crumbs: first.Eatable.Crumbs,
	}
	price := (*p.Value - *first.Value) / math.Max(math.Abs(*first.Value), ration.SmallestStep(m.Request.Least))
	if math.Abs(price) < noPrice {
		price = 0
	}
	p.Eatable.Price, p.Eatable.Weight = &price, &found.Value
	if !math.IsInf(found.Bound, 0) {
		p.Eatable.Bound = &found.Bound
	}
	if found.SodiumLeast != nil {
		p.Eatable.LittleSodium = LittleSodium(m, p, *found.SodiumLeast)
	}
	if found.ByClock {
		p.Eatable.Stopped = "by the clock, may differ next time"
	}
	return p
}

// LittleSodium is what those who are to have little sodium have of it in a plan, beside
// the least that is proven, in mg a day together.
func LittleSodium(m *model.Model, p *ration.Plan, least float64) *ration.LittleSodium {
	out := &ration.LittleSodium{Least: least}
	for i, e := range m.Eaters {
		if rules.LittleSodium(&e.Person) {
			out.People = append(out.People, e.Person.Name)
			if need := p.People[i].Need(nutrients.Sodium.Name()); need != nil {
				out.Amount += e.Count * need.Amount
			}
		}
	}
	return out
}
