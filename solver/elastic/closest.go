package elastic

import (
	"cmp"
	"slices"
	"strings"

	"rationwright/nutrients"
	"rationwright/solver/answer"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
)

// Rank says how much a need matters: water and energy first, then protein; of the
// days after a date likewise.
func Rank(nutrient string) int {
	nutrient, _, _ = strings.Cut(nutrient, " after day ")
	switch nutrient {
	case nutrients.Water.Name(), ration.ShortWater, ration.ShortDrink:
		return 0
	case nutrients.Energy.Name():
		return 1
	case nutrients.Protein.Name():
		return 2
	default:
		return 3
	}
}

// WriteClosest writes the elastic program's point: what each person would get,
// and where it falls short.
func WriteClosest(m *model.Model, x []float64) *ration.Closest {
	c := &ration.Closest{Packs: answer.PlanPacks(m, x)}
	for _, e := range m.Eaters {
		p := answer.PlanPerson(m, e, x, c.Packs)
		c.People = append(c.People, p)
		for _, n := range p.Needs {
			if n.Ceiling == nil || n.Amount <= *n.Ceiling*(1+search.ShortTolerance) {
				continue
			}
			over := ration.Over{Person: p.Name, Nutrient: n.Nutrient, Unit: n.Unit, Amount: n.Amount, Ceiling: *n.Ceiling}
			c.Over, c.Passed = append(c.Over, over), append(c.Passed, over)
		}
		c.Passed = append(c.Passed, sharesPassed(e, &p)...)
	}
	for _, e := range m.Eaters {
		if e.Drink < 0 {
			continue
		}
		if least := m.Problem.Cols[e.Drink].Lower; x[e.Drink] < least*(1-search.ShortTolerance) {
			c.Shortfalls = append(c.Shortfalls, ration.Shortfall{
				Person: e.Person.Name, Nutrient: ration.ShortDrink, Unit: "L", Amount: max(0, x[e.Drink]/m.Days()), Target: least / m.Days(),
			})
		}
	}
	activity := m.Activities(x)
	for i, info := range m.Rows {
		want := m.Problem.Rows[i].Lower
		if short := want - activity[i]; info.Kind == model.RowAllWater && short > search.ShortTolerance*want {
			c.Shortfalls = append(c.Shortfalls, ration.Shortfall{
				Nutrient: ration.ShortWashing, Unit: "L", Amount: (m.WashingL() - short) / m.Days(), Target: m.WashingL() / m.Days(),
			})
		}
		if info.Kind == model.RowShare && want == 0 && activity[i] < -search.ShortTolerance*m.Eaters[info.Eater].Needs.EER.Amount*m.Days() {
			p := &c.People[info.Eater]
			n := p.Need(info.Nutrient.Name())
			if n != nil && n.Floor != nil && n.Amount < *n.Floor && !isShort(c, p.Name, n.Nutrient, n.Unit) {
				c.Shortfalls = append(c.Shortfalls, ration.Shortfall{
					Person: p.Name, Nutrient: n.Nutrient, Unit: n.Unit, Amount: n.Amount, Target: *n.Floor,
				})
			}
		}
		if info.Class == model.Structural || info.Eater < 0 || want <= 0 {
			continue
		}
		if got := activity[i]; got < want*(1-search.ShortTolerance) {
			c.Shortfalls = append(c.Shortfalls, ration.Shortfall{
				Person: m.Eaters[info.Eater].Person.Name, Nutrient: info.Name(), Unit: info.Unit,
				Amount: max(0, got/info.PerDay), Target: want / info.PerDay,
			})
		}
	}
	slices.SortStableFunc(c.Shortfalls, func(a, b ration.Shortfall) int {
		return cmp.Or(cmp.Compare(Rank(a.Nutrient), Rank(b.Nutrient)), cmp.Compare(a.Amount/a.Target, b.Amount/b.Target))
	})
	return c
}

// isShort reports whether a shortfall is listed already.
func isShort(c *ration.Closest, person, nutrient, unit string) bool {
	return slices.ContainsFunc(c.Shortfalls, func(s ration.Shortfall) bool { return s.Person == person && s.Nutrient == nutrient && s.Unit == unit })
}

// sharesPassed lists the shares of p's energy that are passed, however little that
// is.
func sharesPassed(e *model.Eater, p *ration.PlanPerson) []ration.Over {
	energy := p.Need(nutrients.Energy.Name())
	if energy == nil {
		return nil
	}
	var list []ration.Over
	for _, s := range e.Needs.Shares {
		n := p.Need(s.Nutrient.Name())
		if s.Max == nil || n == nil {
			continue
		}
		if most := s.Max.Amount / 100 * energy.Amount / s.KcalPerG; n.Amount > most {
			list = append(list, ration.Over{Person: p.Name, Nutrient: n.Nutrient, Unit: n.Unit, Amount: n.Amount, Ceiling: most})
		}
	}
	return list
}
