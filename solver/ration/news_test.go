package ration

import (
	"maps"
	"math"
	"testing"

	"rationwright/foods"
)

func amount(v float64) *float64 { return &v }

// TestNewsByWhatPeopleGet: a floor that is missed by more than a hundred-thousandth is
// news although nothing states it, and once where something does; so is a ceiling passed.
func TestNewsByWhatPeopleGet(t *testing.T) {
	for _, c := range []struct {
		amount      float64
		floor, top  *float64
		stated      bool
		short, over int
	}{
		{18, amount(18), nil, false, 0, 0}, {17.9999, amount(18), nil, false, 0, 0}, {17.999, amount(18), nil, false, 1, 0}, {9, amount(18), nil, true, 1, 0},
		{45, nil, amount(45), false, 0, 0}, {45.0004, nil, amount(45), false, 0, 0}, {45.001, nil, amount(45), false, 0, 1}, {50, amount(18), amount(45), false, 0, 1}, {3, nil, nil, false, 0, 0},
	} {
		p := &Plan{Notice: "n", Refused: []Refused{{Name: "Arne"}}, People: []PlanPerson{{Name: "Signe", Needs: []PersonNeed{{Nutrient: "iron", Unit: "mg", Amount: c.amount, Floor: c.floor, Ceiling: c.top}}}}}
		if c.stated {
			p.Shortfalls = []Shortfall{{Person: "Signe", Nutrient: "iron", Unit: "mg", Amount: c.amount, Target: 18}}
		}
		n := p.NotFed()
		if len(n.Shortfalls) != c.short || len(n.Over) != c.over || n.Notice != "n" || len(n.Refused) != 1 {
			t.Errorf("%+v: %+v", c, n)
		}
		if c.short == 1 && n.Shortfalls[0] != (Shortfall{Person: "Signe", Nutrient: "iron", Unit: "mg", Amount: c.amount, Target: 18}) {
			t.Errorf("%+v: %+v", c, n.Shortfalls)
		}
		if c.over == 1 && (n.Over[0].Amount != c.amount || n.Over[0].Ceiling != 45) {
			t.Errorf("%+v: %+v", c, n.Over)
		}
	}
	p := &Plan{Refused: []Refused{{Name: "Arne", Reason: "r"}}}
	if p.Refusal("Arne") == nil || p.Refusal("Signe") != nil {
		t.Error("whom the plan does not feed is mixed up")
	}
}

// TestJudgeByTheGap: a value of 100 with the bound 98 has a gap of 2 %: proven within 2 %,
// not within 1.9; no bound is no proof; of two aims the first is judged.
func TestJudgeByTheGap(t *testing.T) {
	for _, c := range []struct {
		bound, within float64
		status        string
		gap           float64
	}{{98, 0.02, StatusOptimal, 0.02}, {98, 0.019, StatusLimit, 0.02}, {100.001, 0, StatusOptimal, 0}, {-50, 1, StatusLimit, 1.5}} {
		p := &Plan{Least: LeastWeight, Value: amount(100)}
		p.Judge(c.bound, c.within)
		if p.Status != c.status || p.Gap == nil || math.Abs(*p.Gap-c.gap) > 1e-12 || *p.Bound != c.bound {
			t.Errorf("%+v: %s, gap %v", c, p.Status, p.Gap)
		}
		if p.Proof() != p.Gap {
			t.Errorf("%+v: another proof than the gap", c)
		}
		p.First = &First{Gap: amount(0.5)}
		if *p.Proof() != 0.5 {
			t.Errorf("%+v: the first aim is not judged", c)
		}
	}
	p := &Plan{Value: amount(100), Bound: amount(1), Gap: amount(1), Status: StatusOptimal}
	p.Judge(math.Inf(-1), 1)
	if p.Bound != nil || p.Gap != nil || p.Status != StatusLimit {
		t.Errorf("without a bound: %+v", p)
	}
	for least, step := range map[Least]float64{LeastCost: 0.01, LeastWeight: 0.001, LeastVolume: 0.001} {
		if got := SmallestStep(least); got != step {
			t.Errorf("the least step of %s is %g", least, got)
		}
	}
	if got := GapOf(0.001, 0, 0.01); got != 0.1 { // of nothing, by a cent
		t.Errorf("gap %g, want 0.1", got)
	}
}

// TestBoughtToEat: what is from stock is not bought, what is set aside is not eaten.
func TestBoughtToEat(t *testing.T) {
	p := &Plan{Packs: []PlanPack{{Pack: "rice", Count: 5, FromStock: 2}, {Pack: "oil", Count: 1, FromStock: 1}, {Pack: "sugar", Count: 2}, {Pack: "sugar", Count: 3, Reserve: true}}}
	if got := p.Bought(); !maps.Equal(got, map[string]int{"rice": 3, "sugar": 2}) {
		t.Errorf("%v, want 3 of rice and 2 of sugar", got)
	}
	t3 := &Totals{Cost: 1, WeightKg: 2, VolumeL: 3}
	if t3.Of(LeastCost) != 1 || t3.Of(LeastWeight) != 2 || t3.Of(LeastVolume) != 3 {
		t.Error("the objectives are mixed up")
	}
	own := &foods.Pack{Key: "own"}
	req := &Request{Table: &foods.Table{Packs: []*foods.Pack{{Key: "rice"}}}, Stock: []foods.StockLine{{Pack: own}}}
	if FindPack(req, "own") != own || FindPack(req, "rice") == nil || FindPack(req, "none") != nil {
		t.Error("packs of the stock, or of the table, are not found")
	}
}

// TestSources: what is from memory says so, what was seen does not; computed rows have no
// number.
func TestSources(t *testing.T) {
	for _, c := range [][3]string{{"IOM 2001, 10 ug", "from memory", "IOM 2001, 10 µg (from memory)"}, {"IOM", "yes: a copy", "IOM"}, {"own", "common practice, no source", "own"}} {
		if got := SourceOf(c[0], c[1]); got != c[2] {
			t.Errorf("%q %q: %q, want %q", c[0], c[1], got, c[2])
		}
	}
	if NDBOf(&foods.Food{NDB: "01234"}) != "01234" || NDBOf(&foods.Food{NDB: "01234", Computed: true}) != "" {
		t.Error("numbers of USDA rows are mixed up with others")
	}
	for v, want := range map[float64]float64{9e-10: 0, -9e-10: 0, 1.1e-9: 1.1e-9, -1: -1} {
		if got := NoResidue(v); got != want {
			t.Errorf("%g is written as %g", v, got)
		}
	}
}
