package solver

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// dust is the amount of a food under which nobody is said to eat it, in g over
// the horizon: well under what a kitchen scale shows, and far above the
// residue of floating-point arithmetic.
const dust = 1e-6

// answer writes the point x of the model as a plan: whole packs, what each
// person eats, and what each gets per day against the needs. Everything is
// recomputed from the packs and the food table, nothing read from the program's
// rows.
func (r *Ration) answer(x []float64) *ration.Plan {
	x = r.tightened(x)
	p := r.emptyPlan()
	p.Packs = r.planPacks(x)
	for _, e := range r.eaters {
		p.People = append(p.People, r.planPerson(e, x))
	}
	p.Totals = r.totals(p, x)
	value := p.Totals.Of(r.Request.Least)
	p.Value = &value
	return p
}

// tightened stores no more water and heat than the rows ask for. Where some of
// them is on hand and free, a point of least cost may hold more than that.
func (r *Ration) tightened(x []float64) []float64 {
	out := slices.Clone(x)
	activity := r.activities(x)
	for _, col := range []int{r.water, r.heat} {
		least := 0.0
		for _, entry := range r.Problem.Cols[col].Entries {
			if row := r.Problem.Rows[entry.Row]; entry.Value > 0 && !math.IsInf(row.Lower, -1) {
				rest := activity[entry.Row] - entry.Value*x[col]
				least = math.Max(least, (row.Lower-rest)/entry.Value)
			}
		}
		out[col] = math.Min(x[col], least)
	}
	return out
}

// emptyPlan is a plan with everything but an answer.
func (r *Ration) emptyPlan() *ration.Plan {
	p := &ration.Plan{
		Version:    ration.PlanVersion,
		Least:      r.Request.Least,
		Days:       r.Request.Days,
		Standard:   string(r.Request.Standard),
		NotChecked: r.notChecked(),
		WeakHands:  olderOnly(r.Request.People),
		Notes:      slices.Clone(r.notes),
	}
	var names []string
	for _, e := range r.refused {
		names = append(names, strings.ToUpper(e.person.Name))
		p.Refused = append(p.Refused, ration.Refused{
			Name: e.person.Name, Reason: e.needs.Refused.Reason, Source: e.needs.Refused.Source,
		})
	}
	if len(names) > 0 {
		p.Notice = "THIS PLAN DOES NOT FEED " + strings.Join(names, ", ")
	}
	return p
}

// notChecked lists, once each, the requirements that the food table has no
// column for.
func (r *Ration) notChecked() []string {
	var names []string
	for _, e := range r.eaters {
		for _, name := range e.needs.NotChecked {
			if !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
	}
	slices.Sort(names)
	return names
}

// planPacks lists the packs of the store in the order of the shop's groups,
// then of the foods, then of size. Packs of stock and packs bought are one line.
func (r *Ration) planPacks(x []float64) []ration.PlanPack {
	var lines []ration.PlanPack
	for _, lf := range r.larder {
		lines = append(lines, r.linesOf(lf, x)...)
	}
	groups := r.Request.Table.Groups()
	slices.SortStableFunc(lines, func(a, b ration.PlanPack) int {
		return cmp.Compare(slices.Index(groups, a.Group), slices.Index(groups, b.Group))
	})
	return lines
}

// linesOf lists the packs of one food.
func (r *Ration) linesOf(lf *larderFood, x []float64) []ration.PlanPack {
	var lines []ration.PlanPack
	at := map[string]int{}
	add := func(k packCol, fromStock, reserve bool) {
		count := int(math.Round(x[k.col]))
		if count == 0 {
			return
		}
		key := k.pack.Key
		if reserve {
			key += " reserve"
		}
		i, ok := at[key]
		if !ok {
			i = len(lines)
			at[key] = i
			lines = append(lines, ration.PlanPack{
				Pack: k.pack.Key, Food: lf.food.Name, NDB: ration.NDBOf(lf.food), NetG: k.pack.NetG,
				Group: lf.food.Group, Reserve: reserve, EasyOpen: easyToOpen(k.pack),
			})
		}
		s := packSupply(k.pack)
		lines[i].Count += count
		lines[i].WeightKg += float64(count) * s.WeightKg
		lines[i].VolumeL += float64(count) * s.VolumeL
		if fromStock {
			lines[i].FromStock += count
		} else {
			lines[i].Cost += float64(count) * s.Cost
		}
	}
	for _, k := range lf.buy {
		add(k, false, false)
	}
	for _, k := range lf.stock {
		add(k, true, false)
	}
	for _, k := range lf.reserve {
		add(k, k.line >= 0, true)
	}
	slices.SortStableFunc(lines, func(a, b ration.PlanPack) int { return cmp.Compare(a.NetG, b.NetG) })
	return lines
}

// planPerson writes what e eats and gets.
func (r *Ration) planPerson(e *eater, x []float64) ration.PlanPerson {
	p := ration.PlanPerson{Name: e.person.Name, Count: e.person.Count}
	p.Foods = []ration.PersonFood{}
	var eaten []portion
	for _, y := range e.eats {
		if grams := x[y.col]; grams > dust {
			f := r.larder[y.food].food
			p.Foods = append(p.Foods, ration.PersonFood{Food: f.Name, NDB: ration.NDBOf(f), Grams: grams})
			eaten = append(eaten, portion{f, grams})
		}
	}
	for _, v := range r.byDate {
		if f := r.larder[v.larder].food; r.eaters[v.eater] == e && x[v.col] > dust {
			p.ByDate = append(p.ByDate, ration.DatedFood{Food: f.Name, NDB: ration.NDBOf(f), Day: v.day, Grams: x[v.col]})
		}
	}
	if e.drink >= 0 {
		p.DrinkLPerDay = ration.NoResidue(x[e.drink] / r.days())
	}
	p.Needs = personNeeds(e.needs, eaten, p.DrinkLPerDay, r.days(), climate(r.Request))
	p.Carbohydrate, p.Rules = r.told(e, eaten)
	return p
}

// handling says, once for each way, how what a person eats must be made ready
// for them in particular: mashed, spread thin. What holds for everybody is said
// once for all, among the cautions.
func handling(person nutrients.Person, eaten []portion) []ration.RuleNote {
	var list []ration.RuleNote
	food := map[string][]string{}
	for _, p := range eaten {
		for _, why := range foods.Handling(person, p.food) {
			if why.Everyone {
				continue
			}
			if food[why.Text] == nil {
				list = append(list, ration.RuleNote{Text: why.Text, Source: ration.SourceOf(why.Source, why.Verified)})
			}
			food[why.Text] = append(food[why.Text], p.food.Name)
		}
	}
	for i := range list {
		list[i].Text = fmt.Sprintf("%s (%s)", list[i].Text, strings.Join(food[list[i].Text], ", "))
	}
	return list
}

// totals adds up the lines of the plan, the water and the heat.
func (r *Ration) totals(p *ration.Plan, x []float64) *ration.Totals {
	t := &ration.Totals{Currency: r.currency(), WaterL: ration.NoResidue(x[r.water]), HeatMJ: ration.NoResidue(x[r.heat])}
	for _, k := range p.Packs {
		t.Food.Cost += k.Cost
		t.Food.WeightKg += k.WeightKg
		t.Food.VolumeL += k.VolumeL
	}
	t.OwnWaterL, t.OwnHeatMJ = onHand(r.Request.StockWaterL, t.WaterL), onHand(r.Request.StockHeatMJ, t.HeatMJ)
	water, heat := r.supplies.water, r.supplies.heat
	t.Cost = t.Food.Cost + (t.WaterL-t.OwnWaterL)*water.Cost + (t.HeatMJ-t.OwnHeatMJ)*heat.Cost
	t.WeightKg = t.Food.WeightKg + t.WaterL*water.WeightKg + t.HeatMJ*heat.WeightKg
	t.VolumeL = t.Food.VolumeL + t.WaterL*water.VolumeL + t.HeatMJ*heat.VolumeL
	return t
}

// onHand is how much of a supply is there already.
func onHand(have *float64, need float64) float64 {
	if have == nil {
		return 0
	}
	return math.Min(*have, need)
}

// portion is an amount of a food over the horizon.
type portion struct {
	food  *foods.Food
	grams float64
}

// intake adds up n per day over what is eaten; unknown is true where a food
// eaten has no figure.
func intake(eaten []portion, n nutrients.Nutrient, days float64) (perDay float64, unknown bool) {
	for _, p := range eaten {
		amount, known := p.food.Per100g.Get(n)
		if !known {
			unknown = true
			continue
		}
		perDay += amount * p.grams / 100 / days
	}
	return perDay, unknown
}
