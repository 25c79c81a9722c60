package answer

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rules"
)

// Write writes the point x of the model as a plan: whole packs, what each
// person eats, and what each gets per day against the needs. Everything is
// recomputed from the packs and the food table, nothing read from the program's
// rows.
func Write(m *model.Model, x []float64) *ration.Plan {
	x = m.Tightened(x)
	p := EmptyPlan(m)
	p.Packs = PlanPacks(m, x)
	for _, e := range m.Eaters {
		p.People = append(p.People, PlanPerson(m, e, x, p.Packs))
	}
	p.Totals = totals(m, p, x)
	p.Eatable = Eatable(m, p)
	value := p.Totals.Of(m.Request.Least)
	p.Value = &value
	return p
}

// EmptyPlan is a plan with everything but an answer.
func EmptyPlan(m *model.Model) *ration.Plan {
	p := &ration.Plan{
		Version:    ration.PlanVersion,
		Least:      m.Request.Least,
		Days:       m.Request.Days,
		Standard:   string(m.Request.Standard),
		NotChecked: notChecked(m),
		WeakHands:  rules.OlderOnly(m.Request.People),
		Notes:      slices.Clone(m.Notes),
	}
	var names []string
	for _, e := range m.Refused {
		names = append(names, strings.ToUpper(e.Person.Name))
		p.Refused = append(p.Refused, ration.Refused{
			Name: e.Person.Name, Reason: e.Needs.Refused.Reason, Source: e.Needs.Refused.Source,
		})
	}
	if len(names) > 0 {
		p.Notice = "THIS PLAN DOES NOT FEED " + strings.Join(names, ", ")
	}
	return p
}

// notChecked lists, once each, the requirements that the food table has no
// column for.
func notChecked(m *model.Model) []string {
	var names []string
	for _, e := range m.Eaters {
		for _, name := range e.Needs.NotChecked {
			if !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
	}
	slices.Sort(names)
	return names
}

// PlanPacks lists the packs of the store in the order of the shop's groups,
// then of the foods, then of size. Packs of stock and packs bought are one line.
func PlanPacks(m *model.Model, x []float64) []ration.PlanPack {
	var lines []ration.PlanPack
	for _, lf := range m.Larder {
		lines = append(lines, linesOf(lf, x)...)
	}
	groups := m.Request.Table.Groups()
	slices.SortStableFunc(lines, func(a, b ration.PlanPack) int {
		return cmp.Compare(slices.Index(groups, a.Group), slices.Index(groups, b.Group))
	})
	return lines
}

// linesOf lists the packs of one food.
func linesOf(lf *model.LarderFood, x []float64) []ration.PlanPack {
	var lines []ration.PlanPack
	at := map[string]int{}
	add := func(k model.PackCol, fromStock, reserve bool) {
		count := int(math.Round(x[k.Col]))
		if count == 0 {
			return
		}
		key := k.Pack.Key
		if reserve {
			key += " reserve"
		}
		i, ok := at[key]
		if !ok {
			i = len(lines)
			at[key] = i
			lines = append(lines, ration.PlanPack{
				Pack: k.Pack.Key, Food: lf.Food.Name, NDB: ration.NDBOf(lf.Food), NetG: k.Pack.NetG,
				Group: lf.Food.Group, Reserve: reserve, EasyOpen: rules.EasyToOpen(k.Pack),
			})
		}
		s := rules.PackSupply(k.Pack)
		lines[i].Count += count
		lines[i].WeightKg += float64(count) * s.WeightKg
		lines[i].VolumeL += float64(count) * s.VolumeL
		if fromStock {
			lines[i].FromStock += count
		} else {
			lines[i].Cost += float64(count) * s.Cost
		}
	}
	for _, k := range lf.Buy {
		add(k, false, false)
	}
	for _, k := range lf.Stock {
		add(k, true, false)
	}
	for _, k := range lf.Reserve {
		add(k, k.Line >= 0, true)
	}
	slices.SortStableFunc(lines, func(a, b ration.PlanPack) int { return cmp.Compare(a.NetG, b.NetG) })
	return lines
}

// PlanPerson writes what e eats and gets out of a store of packs.
func PlanPerson(m *model.Model, e *model.Eater, x []float64, packs []ration.PlanPack) ration.PlanPerson {
	p := ration.PlanPerson{Name: e.Person.Name, Count: e.Person.Count}
	p.Foods = []ration.PersonFood{}
	var eaten []rules.Portion
	for _, y := range e.Eats {
		if grams := x[y.Col]; grams > model.Dust {
			f := m.Larder[y.Food].Food
			p.Foods = append(p.Foods, ration.PersonFood{Food: f.Name, NDB: ration.NDBOf(f), Grams: grams})
			eaten = append(eaten, rules.Portion{Food: f, Grams: grams})
		}
	}
	for _, v := range m.ByDate {
		if f := m.Larder[v.Larder].Food; m.Eaters[v.Eater] == e && x[v.Col] > model.Dust {
			p.ByDate = append(p.ByDate, ration.DatedFood{Food: f.Name, NDB: ration.NDBOf(f), Day: v.Day, Grams: x[v.Col]})
		}
	}
	if e.Drink >= 0 {
		p.DrinkLPerDay = ration.NoResidue(x[e.Drink] / m.Days())
	}
	p.Needs = rules.PersonNeeds(m.Request, e.Needs, eaten, p.DrinkLPerDay)
	p.Carbohydrate, p.Rules = Told(m, e, eaten, p.DrinkLPerDay, packs)
	p.AskAbout = e.Needs.AskAbout
	return p
}

// totals adds up the lines of the plan, the water and the heat.
func totals(m *model.Model, p *ration.Plan, x []float64) *ration.Totals {
	t := &ration.Totals{Currency: m.Currency(), WaterL: ration.NoResidue(x[m.Water]), HeatMJ: ration.NoResidue(x[m.Heat])}
	for _, k := range p.Packs {
		t.Food.Cost += k.Cost
		t.Food.WeightKg += k.WeightKg
		t.Food.VolumeL += k.VolumeL
	}
	t.OwnWaterL, t.OwnHeatMJ = OnHand(m.Request.StockWaterL, t.WaterL), OnHand(m.Request.StockHeatMJ, t.HeatMJ)
	water, heat := m.Supplies.Water, m.Supplies.Heat
	t.Cost = t.Food.Cost + (t.WaterL-t.OwnWaterL)*water.Cost + (t.HeatMJ-t.OwnHeatMJ)*heat.Cost
	t.WeightKg = t.Food.WeightKg + t.WaterL*water.WeightKg + t.HeatMJ*heat.WeightKg
	t.VolumeL = t.Food.VolumeL + t.WaterL*water.VolumeL + t.HeatMJ*heat.VolumeL
	return t
}

// OnHand is how much of a supply is there already.
func OnHand(have *float64, need float64) float64 {
	if have == nil {
		return 0
	}
	return math.Min(*have, need)
}
