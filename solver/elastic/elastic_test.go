package elastic

import (
	"context"
	"math"
	"slices"
	"strconv"
	"testing"
	"time"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/search"
)

// TestWhatThereIsIsShared: a man, a woman and a child have rice with a seventh of the
// energy that all of them need, less than each may eat of it. Least for the worst off is that each falls short by the same
// part, 1 − rice/need; the sum of parts alone would feed the child first, whose part
// takes least rice.
func TestWhatThereIsIsShared(t *testing.T) {
	all := rationtest.SmallTable(t, "white-rice-907g-bag")
	req := &ration.Request{
		People: []nutrients.Person{rationtest.Adult("Arvid", 39, nutrients.Male), rationtest.Adult("Signe", 36, nutrients.Female), rationtest.Adult("Siri", 6, nutrients.Female)},
		Table:  all, StockOnly: true, IgnoreEatable: true, Standard: nutrients.StandardBasic, Days: 14, Start: "2026-11-25", Time: time.Minute, Cook: ration.CookSimmer,
	}
	req = ration.Filled(req)
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	need := 0.0
	for i, info := range m.Rows {
		if info.IsOf(nutrients.Energy) {
			need += m.Problem.Rows[i].Lower * m.Eaters[info.Eater].Count
		}
	}
	rice, err := all.Pack("white-rice-907g-bag")
	if err != nil {
		t.Fatal(err)
	}
	bags := math.Floor(need / 7 / (rice.NetG * rationtest.Kcal(rice.Food) / 100))
	req.Stock = rationtest.StockOf(t, all, "white-rice-907g-bag,"+strconv.Itoa(int(bags))+",,,,").Lines
	if m, err = model.Build(req); err != nil {
		t.Fatal(err)
	}
	want := 1 - bags*rice.NetG*rationtest.Kcal(rice.Food)/100/need
	e := New(m, func(i model.RowInfo) bool { return i.IsOf(nutrients.Energy) || IsNeed(i) }, true)
	point, _ := e.RelaxedLeast(context.Background(), [][]float64{e.Costs(func(i model.RowInfo) bool { return i.IsOf(nutrients.Energy) })}, nil, 0)
	if point == nil {
		t.Fatal("no ration comes closest")
	}
	seen := 0
	for k, i := range e.Rows {
		if !e.Kinds[k].IsOf(nutrients.Energy) {
			continue
		}
		seen++
		if got := point[e.Cols[k]] / m.Problem.Rows[i].Lower; math.Abs(got-want) > 1e-6 {
			t.Errorf("%s is short of %.4f of the energy, want %.4f as all", m.Eaters[e.Kinds[k].Eater].Person.Name, got, want)
		}
	}
	if seen != 3 || want < 0.8 {
		t.Errorf("%d people short by %g: the test shows nothing", seen, want)
	}
}

// TestOnlyPlanningRulesGive: what contradicts the energy that everyone needs gives way
// where it is a rule of this program's own, by as much as it must and no more, and
// never where it is one of safety, a need, or a limit of the household's own.
func TestOnlyPlanningRulesGive(t *testing.T) {
	for _, c := range []struct {
		class model.Class
		ok    bool
	}{{model.Planning, true}, {model.Safety, false}, {model.Requirement, false}, {model.UserLimit, false}} {
		m, err := model.Build(rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female)))
		if err != nil {
			t.Fatal(err)
		}
		var least float64
		row := m.Problem.AddRow("half", math.Inf(-1), 0)
		for i, info := range m.Rows {
			if info.IsOf(nutrients.Energy) {
				least = m.Problem.Rows[i].Lower
				for j := range m.Problem.Cols {
					for _, e := range m.Problem.Cols[j].Entries {
						if e.Row == i {
							m.Problem.Set(row, j, e.Value)
							break
						}
					}
				}
			}
		}
		m.Rows = append(m.Rows, model.RowInfo{Kind: model.RowKindCap, Class: c.class, Eater: 0, Text: "half of the energy", PerDay: m.Days(), Limit: least / 2 / m.Days()})
		m.Problem.Rows[row].Upper = least / 2
		_, start, ok := Loosen(context.Background(), m, nil)
		if ok != c.ok {
			t.Errorf("class %v: loosened %v, want %v", c.class, ok, c.ok)
		}
		if !ok {
			continue
		}
		missed, err := m.Problem.Check(start, search.LimitTolerance)
		if err != nil {
			t.Fatal(err)
		}
		others := m.Problem.Clone()
		for i, info := range m.Rows {
			if info.Class == model.Planning {
				others.Rows[i].Lower, others.Rows[i].Upper = math.Inf(-1), math.Inf(1)
			}
		}
		if broken, err := others.Check(start, search.LimitTolerance); err != nil || len(broken) > 0 {
			t.Errorf("a way to loosen breaks what is no planning rule: %v %v", broken, err)
		}
		if got := m.Problem.Rows[row]; len(missed) == 0 || got.Upper != least/2 {
			t.Errorf("nothing is missed of a row that cannot be kept")
		}
	}
}

// TestLimitsCountInPartsOfThemselves: what passes a limit of the household's own counts in
// parts of it, of one under a unit by the unit.
func TestLimitsCountInPartsOfThemselves(t *testing.T) {
	for most, whole := range map[float64]float64{50: 50, 1.5: 1.5, 0.5: 1} {
		req := rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female))
		req.Limits.WaterL = &most
		m, err := model.Build(ration.Filled(req))
		if err != nil {
			t.Fatal(err)
		}
		e := New(m, func(i model.RowInfo) bool { return i.Kind == model.RowLimit }, true)
		if len(e.Rows) != 1 || math.Abs(e.Weights[0]-EveryoneWeight/whole) > 1e-12 || e.Signs[0] != -1 {
			t.Errorf("a limit of %g L: %d rows, weights %v, want %g", most, len(e.Rows), e.Weights, EveryoneWeight/whole)
		}
	}
}

// TestImpossibleButForStoredVitamins: that no food holds vitamin C is found to be impossible;
// vitamins D and B12, which the body stores, a plan gives up by itself, so that their lack is
// not, and neither is it where all is there.
func TestImpossibleButForStoredVitamins(t *testing.T) {
	for _, c := range []struct {
		without nutrients.Nutrient
		least   float64 // per 100 g: foods with more than that are left out
		want    bool
	}{{nutrients.VitaminC, 0.05, true}, {nutrients.VitaminD, 0.05, false}, {nutrients.VitaminB12, 0.005, false}, {nutrients.VitaminC, math.Inf(1), false}} {
		req := ration.Filled(rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female)))
		gone := func(f *foods.Food) bool { v, known := f.Per100g.Get(c.without); return known && v > c.least }
		req.Table.Foods = slices.DeleteFunc(req.Table.Foods, gone)
		req.Table.Packs = slices.DeleteFunc(req.Table.Packs, func(k *foods.Pack) bool { return gone(k.Food) })
		m, err := model.Build(req)
		if err != nil {
			t.Fatal(err)
		}
		if got := Impossible(t.Context(), m); got != c.want {
			t.Errorf("without foods of over %g of %s: impossible %v, want %v", c.least, c.without, got, c.want)
		}
	}
}

// TestRoundedDownToWholePacks: of what is scarce the relaxation takes all; a hair less than
// three bags are three, since that is rounding, and 2.9 are two.
func TestRoundedDownToWholePacks(t *testing.T) {
	all := rationtest.SmallTable(t, "white-rice-907g-bag")
	ample := 500.0 // kg: packs are rounded where there is a limit on them all
	m, err := model.Build(ration.Filled(&ration.Request{
		Limits: ration.Limits{WeightKg: &ample},
		People: []nutrients.Person{rationtest.Adult("Signe", 36, nutrients.Female)}, Table: all, StockOnly: true, IgnoreEatable: true, Standard: nutrients.StandardBasic,
		Days: 14, Start: "2026-11-25", Time: time.Minute, Cook: ration.CookSimmer, Stock: rationtest.StockOf(t, all, "white-rice-907g-bag,3,,,,").Lines,
	}))
	if err != nil {
		t.Fatal(err)
	}
	bags := m.Larder[0].Stock[0].Col
	for most, want := range map[float64]float64{3: 3, 3 - 1e-9: 3, 2.9: 2, 2 + 1e-9: 2, 1.999: 1, 0: 0} {
		e := New(m, IsNeed, true)
		e.Problem.Cols[bags].Upper = most
		energy := e.Costs(func(i model.RowInfo) bool { return i.IsOf(nutrients.Energy) })
		limit := slices.IndexFunc(e.Problem.Rows, func(r linear.Row) bool { return r.Upper == ample })
		point := e.roundedDown(t.Context(), [][]float64{energy}, []int{limit})
		if point == nil || point[bags] != want {
			t.Errorf("of at most %.10g bags %v are taken, want %g", most, point, want)
		}
	}
}
