package ration

import "slices"

// NotFed is the worst news of a plan, which stands first in every answer about
// it: whom it leaves out because a clinician must plan for them, who is short of
// what, and which ceilings it passes.
type NotFed struct {
	Notice     string      `json:"notice,omitempty"` // THIS PLAN DOES NOT FEED …
	Refused    []Refused   `json:"refused,omitempty"`
	Shortfalls []Shortfall `json:"shortfalls,omitempty"`
	Over       []Over      `json:"over,omitempty"`
}

// NotFed is the worst news of p, by what its people get: a floor that is missed
// counts although no shortfall is stated.
func (p *Plan) NotFed() NotFed {
	n := NotFed{Notice: p.Notice, Refused: p.Refused, Shortfalls: slices.Clone(p.Shortfalls)}
	for _, e := range p.People {
		for _, need := range e.Needs {
			stated := slices.ContainsFunc(p.Shortfalls, func(s Shortfall) bool { return s.Person == e.Name && s.Nutrient == need.Nutrient })
			if need.Floor != nil && need.Amount < *need.Floor*(1-newsTol) && !stated {
				n.Shortfalls = append(n.Shortfalls, Shortfall{Person: e.Name, Nutrient: need.Nutrient, Unit: need.Unit, Amount: need.Amount, Target: *need.Floor})
			}
			if need.Ceiling != nil && need.Amount > *need.Ceiling*(1+newsTol) {
				n.Over = append(n.Over, Over{Person: e.Name, Nutrient: need.Nutrient, Unit: need.Unit, Amount: need.Amount, Ceiling: *need.Ceiling})
			}
		}
	}
	return n
}

// Refusal is why p does not feed the person called name; nil where it does.
func (p *Plan) Refusal(name string) *Refused {
	for i := range p.Refused {
		if p.Refused[i].Name == name {
			return &p.Refused[i]
		}
	}
	return nil
}
