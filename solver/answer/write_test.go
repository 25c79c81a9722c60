package answer

import (
	"math"
	"slices"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestLinesOfThePlan: packs of stock and packs bought are one line, of which only the bought
// ones cost, what is set aside another; lines stand by shop group, food and size, and the
// totals add them up with water and heat, of which what is on hand costs nothing.
func TestLinesOfThePlan(t *testing.T) {
	ola := rationtest.Adult("Ola", 40, nutrients.Male)
	ola.Conditions = []nutrients.Condition{nutrients.Diabetes1} // sugar is set aside
	req := rationtest.Request(t, ola)
	req.Stock = rationtest.StockOf(t, req.Table, "sugar-454g-bag,3,2028-01-01,,,", "white-rice-907g-bag,3,2028-01-01,,,").Lines
	onHand := 5.0
	req.StockWaterL = &onHand
	m, err := model.Build(ration.Filled(req))
	if err != nil {
		t.Fatal(err)
	}
	x := make([]float64, len(m.Cols))
	kg, l, cost := 0.0, 0.0, 0.0
	add := func(k model.PackCol, n float64, bought bool) {
		x[k.Col] += n
		kg, l = kg+n*k.Pack.GrossG/1000, l+n*k.Pack.VolumeL
		if bought {
			cost += n * k.Pack.Price
		}
	}
	for _, lf := range m.Larder {
		if lf.Food.NDB != "19335" && lf.Food.NDB != "20044" && lf.Food.NDB != "04506" { // sugar, rice, sunflower oil
			continue
		}
		for _, k := range lf.Buy {
			if key := k.Pack.Key; key == "white-rice-907g-bag" || key == "white-rice-454g-bag" || key == "sunflower-oil-1l-bottle" {
				add(k, 2.0000001, true) // packs are whole
			}
		}
		for _, k := range lf.Stock {
			add(k, 1, false)
		}
		for i, k := range lf.Reserve {
			if i < 2 {
				add(k, 1, k.Line < 0)
			}
		}
	}
	lines := PlanPacks(m, x)
	type line struct {
		pack       string
		count, own int
		reserve    bool
	}
	var got []line
	for _, p := range lines {
		got = append(got, line{p.Pack, p.Count, p.FromStock, p.Reserve})
		k := ration.FindPack(m.Request, p.Pack)
		n := float64(p.Count)
		if p.Food != k.Food.Name || p.Group != k.Food.Group || p.NetG != k.NetG || math.Abs(p.WeightKg-n*k.GrossG/1000) > 1e-9 || math.Abs(p.VolumeL-n*k.VolumeL) > 1e-9 || math.Abs(p.Cost-float64(p.Count-p.FromStock)*k.Price) > 1e-9 {
			t.Errorf("%+v is not what %d of its pack are", p, p.Count)
		}
	}
	for _, want := range []line{{"white-rice-907g-bag", 3, 1, false}, {"white-rice-454g-bag", 2, 0, false}, {"sunflower-oil-1l-bottle", 2, 0, false}, {"sugar-454g-bag", 1, 1, true}} {
		if !slices.Contains(got, want) {
			t.Errorf("%+v is not in %+v", want, got)
		}
	}
	groups := m.Request.Table.Groups()
	for i, p := range lines[1:] {
		before := lines[i]
		if a, b := slices.Index(groups, before.Group), slices.Index(groups, p.Group); a > b || a == b && before.Food == p.Food && before.NetG > p.NetG {
			t.Errorf("%s stands before %s", before.Pack, p.Pack)
		}
	}
	x[m.Water], x[m.Heat] = 20, 3
	p := EmptyPlan(m)
	p.Packs = lines
	water, heat := m.Supplies.Water, m.Supplies.Heat
	if tot := totals(m, p, x); tot.WaterL != 20 || tot.HeatMJ != 3 || tot.OwnWaterL != 5 || tot.OwnHeatMJ != 0 || math.Abs(tot.Food.Cost-cost) > 1e-5 || math.Abs(tot.Cost-(cost+15*water.Cost+3*heat.Cost)) > 1e-5 ||
		math.Abs(tot.WeightKg-(kg+20*water.WeightKg+3*heat.WeightKg)) > 1e-5 || math.Abs(tot.VolumeL-(l+20*water.VolumeL+3*heat.VolumeL)) > 1e-5 {
		t.Errorf("%+v, food costs %g, weighs %g kg, %g L", tot, cost, kg, l)
	}
	p = Write(m, x)
	if *p.Value != p.Totals.Of(m.Request.Least) || p.People[0].Name != "Ola" {
		t.Errorf("value %g", *p.Value)
	}
	for _, c := range []struct {
		have *float64
		want float64
	}{{nil, 0}, {&onHand, 5}} {
		if got := OnHand(c.have, 9); got != c.want {
			t.Errorf("on hand %g of 9, want %g", got, c.want)
		}
	}
	if got := OnHand(&onHand, 3); got != 3 {
		t.Errorf("on hand %g of 3", got)
	}
}

// TestNotFedIsSaid: who is not fed stands in the notice and with the reason, and the plan says
// once what the food table does not tell of those who are.
func TestNotFedIsSaid(t *testing.T) {
	nils, per := rationtest.Adult("Nils", 50, nutrients.Male), rationtest.Adult("Per", 50, nutrients.Male)
	nils.Conditions, per.Conditions = []nutrients.Condition{nutrients.TubeFeeding}, []nutrients.Condition{nutrients.TubeFeeding}
	m, err := model.Build(rationtest.Request(t, nils, rationtest.Adult("Ida", 33, nutrients.Female), per, rationtest.Adult("Leif", 34, nutrients.Male)))
	if err != nil {
		t.Fatal(err)
	}
	p := EmptyPlan(m)
	if p.Notice != "THIS PLAN DOES NOT FEED NILS, PER" || len(p.Refused) != 2 || p.Refused[0].Name != "Nils" || p.Refused[1].Name != "Per" || p.Refused[0].Reason == "" || p.Refused[0].Source == "" {
		t.Errorf("%q, %+v", p.Notice, p.Refused)
	}
	want := map[string]bool{}
	for _, e := range m.Eaters {
		for _, n := range e.Needs.NotChecked {
			want[n] = true
		}
	}
	if len(want) == 0 || len(p.NotChecked) != len(want) || !slices.IsSorted(p.NotChecked) {
		t.Errorf("%v, want each of %v once", p.NotChecked, want)
	}
	if p.Days != m.Request.Days || p.Least != m.Request.Least || p.Version != ration.PlanVersion || p.Standard != string(m.Request.Standard) {
		t.Errorf("%+v", p)
	}
	m, err = model.Build(rationtest.Request(t, rationtest.Adult("Ida", 33, nutrients.Female)))
	if err != nil {
		t.Fatal(err)
	}
	if p := EmptyPlan(m); p.Notice != "" || len(p.Refused) > 0 {
		t.Errorf("%q, %+v of who is fed", p.Notice, p.Refused)
	}
	if got := AdviseSupplements(nil); got != nil {
		t.Errorf("%q where nothing is short", got)
	}
	if got := AdviseSupplements([]ration.Shortfall{{}}); len(got) != 1 {
		t.Errorf("%q", got)
	}
}

// TestEatenByAPerson: what is eaten, what of it by a date, and what is drunk a day, of each
// person what is theirs; what the arithmetic leaves of a food is none.
func TestEatenByAPerson(t *testing.T) {
	req := rationtest.Request(t, rationtest.Adult("Ida", 33, nutrients.Female), rationtest.Adult("Leif", 60, nutrients.Male))
	req.Days = 10
	m, err := model.Build(ration.Filled(req))
	if err != nil {
		t.Fatal(err)
	}
	x := make([]float64, len(m.Cols))
	ida, leif := m.Eaters[0], m.Eaters[1]
	x[ida.Eats[0].Col], x[ida.Eats[1].Col], x[leif.Eats[0].Col] = 700, model.Dust/2, 300
	if ida.Drink < 0 {
		t.Fatal("nothing is drunk: the test shows nothing")
	}
	x[ida.Drink] = 17
	for i, e := range []*model.Eater{ida, leif} {
		p := PlanPerson(m, e, x, nil)
		f := m.Larder[e.Eats[0].Food].Food
		if p.Name != []string{"Ida", "Leif"}[i] || p.Count != 1 || len(p.Foods) != 1 || p.Foods[0].Food != f.Name || p.Foods[0].Grams != []float64{700, 300}[i] || p.DrinkLPerDay != []float64{1.7, 0}[i] || len(p.ByDate) > 0 {
			t.Errorf("%+v", p)
		}
		want := []float64{70, 30}[i] / 100 * f.Per100g.Known(nutrients.Energy)
		if need := p.Need(nutrients.Energy.Name()); need == nil || math.Abs(need.Amount-want) > 1e-6 {
			t.Errorf("%s gets %+v of energy, want %g", p.Name, need, want)
		}
	}
}
