package why

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"slices"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

var inf = math.Inf(1)

// sketch is a model of columns and rows alone, for Signe and two like Arvid over ten days.
type sketch struct{ *model.Model }

func newSketch() sketch {
	return sketch{&model.Model{
		Request: &ration.Request{Days: 10, Least: ration.LeastCost}, Problem: &linear.Problem{},
		Eaters: []*model.Eater{{Person: nutrients.Person{Name: "Signe"}, Count: 1, Drink: -1}, {Person: nutrients.Person{Name: "Arvid"}, Count: 2, Drink: -1}},
	}}
}

func (s sketch) row(lower, upper float64, info model.RowInfo) int {
	s.Rows = append(s.Rows, info)
	return s.Problem.AddRow(info.Text, lower, upper)
}

// col adds a column with what it holds in rows, by row.
func (s sketch) col(cost, lower, upper float64, holds map[int]float64) int {
	s.Cols = slices.Grow(s.Cols, 1)[:len(s.Cols)+1]
	j := s.Problem.AddCol("", cost, lower, upper, false)
	for i := range s.Problem.Rows {
		if v := holds[i]; v != 0 {
			s.Problem.Set(i, j, v)
		}
	}
	return j
}

// food adds a food whose packs cost so much and hold so much.
func (s sketch) food(name string, packs ...pack) {
	f := &foods.Food{Name: name, NDB: "12345"}
	lf := &model.LarderFood{Food: f, Balance: -1}
	for i, p := range packs {
		lf.Buy = append(lf.Buy, model.PackCol{Pack: &foods.Pack{Key: fmt.Sprint(name, "-", i+1), Food: f}, Col: s.col(p.cost, 0, 100, p.holds)})
	}
	s.Larder = append(s.Larder, lf)
}

type pack struct {
	cost  float64
	holds map[int]float64
}

func need(eater int, n nutrients.Nutrient) model.RowInfo {
	return model.RowInfo{Kind: model.RowNutrient, Class: model.Requirement, Eater: eater, Nutrient: n, Text: n.Name(), Unit: n.Unit(), PerDay: 10}
}

// groceries are foods for 400 kcal, of Signe's, and 90 g of protein, of Arvid's:
//
//	minimise 2 rice + 3.5 beans + 10 oil + salt + …
//	100 rice + 50 beans + 200 oil ≥ 400,  10 rice + 30 beans ≥ 90,  10 salt ≥ 5
//
// 3 rice, 2 beans and half a salt at the row prices 0.01, 0.1 and 0.1 come to 13.5. A small pack of
// rice costs 0.6 and holds a quarter.
func groceries(t *testing.T) *explainer {
	t.Helper()
	s := newSketch()
	energy := s.row(400, inf, need(0, nutrients.Energy))
	protein := s.row(90, inf, need(1, nutrients.Protein))
	sodium := s.row(5, inf, need(0, nutrients.Sodium))
	s.food("oats", pack{10, map[int]float64{energy: 100}})
	s.food("rice", pack{2, map[int]float64{energy: 100, protein: 10}}, pack{0.6, map[int]float64{energy: 25, protein: 2.5}})
	s.food("oil", pack{10, map[int]float64{energy: 200}})
	s.food("tea", pack{3, nil})
	s.food("beans", pack{3.5, map[int]float64{energy: 50, protein: 30}})
	s.food("salt", pack{1, map[int]float64{sodium: 10}})
	s.Larder = append(s.Larder, &model.LarderFood{Food: &foods.Food{Name: "stock"}, Balance: -1}) // none for sale
	w := &explainer{model: s.Model, plan: &ration.Plan{Packs: []ration.PlanPack{
		{Food: "oil", Count: 2}, {Food: "oil", Count: 5, Reserve: true}, {Food: "rice", Count: 3}, {Food: "rice", Count: 1, FromStock: 1},
	}}}
	if err := w.start(t.Context()); err != nil {
		t.Fatal(err)
	}
	if math.Abs(w.root.Value-13.5) > 1e-9 {
		t.Fatalf("the value is %g, want 13.5", w.root.Value)
	}
	return w
}

// rounded writes what is compared, to six digits after the point.
func rounded(t *testing.T, v any) string {
	t.Helper()
	text, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	var plain any
	if err := json.Unmarshal(text, &plain); err != nil {
		t.Fatal(err)
	}
	var round func(v any) any
	round = func(v any) any {
		switch v := v.(type) {
		case float64:
			return math.Round(v*1e6) / 1e6
		case []any:
			for i := range v {
				v[i] = round(v[i])
			}
		case map[string]any:
			for k := range v {
				v[k] = round(v[k])
			}
		}
		return v
	}
	if text, err = json.Marshal(round(plain)); err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// TestPricesOfFoodsByHand: four small packs of rice are a large one, so that this leaves above 2.4,
// and the small one comes in below a quarter of 2. Without any rice, beans for the protein and oil for
// the energy that is left are the cheapest, 3 and 1.25 for 23: a kcal is worth 10/200 and a g
// (3.5 − 50/20)/30 = 1/30, a large pack 100/20 + 10/30 = 16/3, 8/3 of its price, a small one 4/3, 20/9
// of its. Without beans 9 packs of rice hold enough of both: a g is worth 0.2, beans 6, 12/7 of the
// price. At the prices as they are oil is worth 200 · 0.01 = 2, oats 1, tea nothing; nothing stands in
// for salt.
func TestPricesOfFoodsByHand(t *testing.T) {
	w := groceries(t)
	of := func(v float64) *float64 { return &v }
	rice := FoodPrice{Food: "rice", NDB: "12345", Chosen: true, InPlan: 4, Factor: of(8. / 3), Packs: []PackPrice{
		{Pack: "rice-1", Price: 2, Chosen: 3, Leaves: of(2.4)}, {Pack: "rice-2", Price: 0.6, Enters: of(0.5)},
	}}
	beans := FoodPrice{Food: "beans", NDB: "12345", Chosen: true, Factor: of(12. / 7), Packs: []PackPrice{{Pack: "beans-1", Price: 3.5, Chosen: 2, Leaves: of(6)}}}
	salt := FoodPrice{Food: "salt", NDB: "12345", Chosen: true, Packs: []PackPrice{{Pack: "salt-1", Price: 1, Chosen: 0.5}}}
	oil := FoodPrice{Food: "oil", NDB: "12345", InPlan: 2, Factor: of(0.2), Packs: []PackPrice{{Pack: "oil-1", Price: 10, Enters: of(2)}}}
	oats := FoodPrice{Food: "oats", NDB: "12345", Factor: of(0.1), Packs: []PackPrice{{Pack: "oats-1", Price: 10, Enters: of(1)}}}
	tea := FoodPrice{Food: "tea", NDB: "12345", Packs: []PackPrice{{Pack: "tea-1", Price: 3, Enters: of(0)}}}
	got, err := w.foods(t.Context(), nil)
	if err != nil {
		t.Fatal(err)
	}
	if got, want := rounded(t, got), rounded(t, []FoodPrice{beans, rice, salt, oil, oats, tea}); got != want {
		t.Errorf("%s\nwant %s", got, want)
	}
	if got, err = w.foods(t.Context(), []*foods.Food{w.model.Larder[3].Food, w.model.Larder[1].Food, w.model.Larder[6].Food}); err != nil {
		t.Fatal(err)
	}
	if got, want := rounded(t, got), rounded(t, []FoodPrice{rice, tea}); got != want {
		t.Errorf("rice and tea: %s\nwant %s", got, want)
	}
}

// TestTheNearestByHand: of 24 foods that are not chosen the twenty are told that are worth the most
// beside their prices, here 0.01 for a kcal: the four with the fewest kcal are not, but one of them is
// bought. Of two packs the better one counts.
func TestTheNearestByHand(t *testing.T) {
	w := groceries(t)
	s := sketch{w.model}
	w.plan.Packs = nil
	for i := range 21 {
		kcal := float64(10 + (i*8)%21) // 10 to 30 in another order
		s.food(fmt.Sprint("food ", kcal), pack{10, map[int]float64{0: kcal}})
	}
	s.food("two packs", pack{10, map[int]float64{0: 1}}, pack{10, map[int]float64{0: 90}})
	w.plan.Packs = []ration.PlanPack{{Food: "food 10", Count: 1}}
	if err := w.start(t.Context()); err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, li := range w.chooseFoods(nil) {
		got = append(got, w.model.Larder[li].Food.Name)
	}
	want := []string{"rice", "beans", "salt", "food 10", "oil", "oats", "two packs"} // 2, 1 and 0.9 of 10
	for kcal := 30; len(want) < 4+nearestFoods; kcal-- {
		want = append(want, fmt.Sprint("food ", kcal))
	}
	if !slices.Equal(got, want) {
		t.Errorf("%q\nwant %q", got, want)
	}
}

// TestPricesOfLimitsByHand: what each limit that binds is worth, in the unit a day of one person: a
// row's price times ten days, divided by two where it stands for two. The largest effect of the whole
// limit comes first: 3 · 8 of the budget, 7 · 3 of what is kept, 0.5 · 9 of the protein, 0.1 · 40 of
// the energy, then 3, 2.5, 2, 1.5 and 1 of what follows; of a share, which has no amount, last. What
// does not bind, what keeps people safe, what a clinician ordered and the arithmetic are not told.
func TestPricesOfLimitsByHand(t *testing.T) {
	w := groceries(t)
	s := sketch{w.model}
	info := func(kind model.RowInfo, text, unit string, eater int, perDay float64) model.RowInfo {
		kind.Text, kind.Unit, kind.Eater, kind.PerDay = text, unit, eater, perDay
		return kind
	}
	budget := s.row(-inf, 8, info(model.RowInfo{Kind: model.RowLimit, Class: model.UserLimit}, "weight", "kg", -1, 1))
	s.col(-6, 0, 100, map[int]float64{budget: 2})
	kept := s.row(3, 3, info(model.RowInfo{Kind: model.RowKeep, Class: model.UserLimit}, "rye stays", "packs", -1, 1))
	s.col(7, 0, 100, map[int]float64{kept: 1})
	share := s.row(0, inf, info(model.RowInfo{Kind: model.RowShare, Class: model.Requirement, Nutrient: nutrients.Fat}, "fat % of energy", "kcal", 0, 10))
	s.col(4, -5, 5, map[int]float64{share: 2})
	safe := need(0, nutrients.Iron)
	safe.Class = model.Safety
	s.col(9, 0, 100, map[int]float64{s.row(4, inf, safe): 1})
	ordered := need(0, nutrients.Sodium)
	ordered.Ordered = true
	s.col(9, 0, 100, map[int]float64{s.row(4, inf, ordered): 1})
	s.col(9, 0, 100, map[int]float64{s.row(4, inf, info(model.RowInfo{Kind: model.RowBalance}, "rice", "g", -1, 1)): 1})
	s.col(9, 5, 100, map[int]float64{s.row(4, inf, need(0, nutrients.Zinc)): 1}) // 5 are there
	cents := 30.
	for _, kind := range []model.RowInfo{{Kind: model.RowWater}, {Kind: model.RowPattern, Group: "fruits"}, {Kind: model.RowGlycaemic}, {Kind: model.RowGroupCap, Group: "oils"}, {Kind: model.RowUser}} {
		i := s.row(10, inf, info(kind, fmt.Sprint("row worth ", cents/10), "g", 1, 10))
		s.col(cents/100, 0, 100, map[int]float64{i: 0.5}) // of one: ten days, for two, a half a unit
		cents -= 5
	}
	if err := w.start(t.Context()); err != nil {
		t.Fatal(err)
	}
	got, err := w.limits(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	of := func(v float64) *float64 { return &v }
	if got, want := rounded(t, got), rounded(t, []LimitPrice{
		{Limit: "weight", Unit: "kg", Amount: of(8), AtMost: true, Marginal: -3},
		{Limit: "rye stays", Unit: "packs", Amount: of(3), Marginal: 7},
		{Person: "Arvid", Limit: "protein", Unit: "g", Amount: of(9), Marginal: 0.5},
		{Person: "Signe", Limit: "energy", Unit: "kcal", Amount: of(40), Marginal: 0.1},
		{Person: "Arvid", Limit: "row worth 3", Unit: "g", Amount: of(1), Marginal: 3},
		{Person: "Arvid", Limit: "row worth 2.5", Unit: "g", Amount: of(1), Marginal: 2.5},
		{Person: "Arvid", Limit: "row worth 1.5", Unit: "g", Amount: of(1), Marginal: 1.5},
		{Person: "Arvid", Limit: "row worth 1", Unit: "g", Amount: of(1), Marginal: 1},
		{Person: "Signe", Limit: "sodium", Unit: "mg", Amount: of(0.5), Marginal: 1},
		{Person: "Signe", Limit: "fat % of energy", Unit: "kcal", Marginal: 20},
		{Person: "Arvid", Limit: "row worth 2", Unit: "g", Marginal: 2}, // of carbohydrate by its index
	}); got != want {
		t.Errorf("%s\nwant %s", got, want)
	}
}

// TestSlopesOfAShare: a share of energy, whose limit is at nothing, is moved by a hundredth of a unit a
// day: 4 for each half of a unit, over ten days, is 20 for one a day, up and down.
func TestSlopesOfAShare(t *testing.T) {
	s := newSketch()
	i := s.row(0, inf, model.RowInfo{Kind: model.RowShare, Class: model.Requirement, Eater: 0, Nutrient: nutrients.Fat, Text: "fat % of energy", PerDay: 10})
	s.col(4, -5, 5, map[int]float64{i: 2})
	w := &explainer{model: s.Model, plan: &ration.Plan{}}
	if err := w.start(t.Context()); err != nil {
		t.Fatal(err)
	}
	more, less, err := w.slopes(t.Context(), i, false, 0)
	if err != nil || more == nil || less == nil || !(math.Abs(*more-20) < 1e-6) || !(math.Abs(*less-20) < 1e-6) {
		t.Errorf("%v and %v, %v, want 20", more, less, err)
	}
}

// TestTwoPricesByHand: of ten units that cost 1 each where ten are to be had, and 3 beyond, one more
// costs 3 and one less saves 1; where no more are to be had there is no price for more, and where no
// fewer are allowed none for less.
func TestTwoPricesByHand(t *testing.T) {
	for _, c := range []struct {
		name       string
		upper      bool // the row is at most −10 of the opposite: the same, on the other side
		equal      bool
		beyond     float64 // 0: none to be had
		more, less float64 // 0: none
		none       bool
		gain       bool // each is a gain of 2 and twenty are to be had
	}{
		{name: "a floor", beyond: 3, more: 3, less: 1},
		{name: "a floor that can be no higher", less: 1, none: true},
		{name: "a ceiling", upper: true, beyond: 3, more: -1, less: -3},
		{name: "a ceiling that can be no lower", upper: true, more: -1, none: true},
		{name: "an equation", equal: true, beyond: 3, more: 3, less: 1},
		{name: "an equation that could well be more", equal: true, gain: true, more: -2, less: -2},
	} {
		s := newSketch()
		sign, lower, upper := 1., 10., inf
		if c.upper {
			sign, lower, upper = -1, -inf, -10
		}
		if c.equal {
			upper = 10
		}
		i := s.row(lower, upper, model.RowInfo{Kind: model.RowLimit, Class: model.UserLimit, Eater: -1, Text: "litres", Unit: "L", PerDay: 1})
		if c.gain {
			s.col(-2, 0, 20, map[int]float64{i: 1})
		} else {
			s.col(1, 0, 10, map[int]float64{i: sign})
		}
		if c.beyond > 0 {
			s.col(c.beyond, 0, 10, map[int]float64{i: sign})
		}
		w := &explainer{model: s.Model, plan: &ration.Plan{}}
		if err := w.start(t.Context()); err != nil {
			t.Fatal(err)
		}
		p, binds, err := w.limit(t.Context(), i, c.upper)
		if err != nil || !binds {
			t.Fatalf("%s: binds %v, %v", c.name, binds, err)
		}
		or := func(v *float64) float64 {
			if v == nil {
				return p.Marginal
			}
			return *v
		}
		near := func(a, b float64) bool { return math.Abs(a-b) < 1e-6 }
		if p.NoMore != c.none || c.more != 0 && !near(or(p.More), c.more) || c.less != 0 && !near(or(p.Less), c.less) || p.AtMost != c.upper || *p.Amount != sign*10 {
			t.Errorf("%s: more %g, less %g, %+v", c.name, or(p.More), or(p.Less), p)
		}
		if p.More != nil && near(*p.More, p.Marginal) || p.Less != nil && near(*p.Less, p.Marginal) {
			t.Errorf("%s: %+v says one price twice", c.name, p)
		}
		if _, other, err := w.limit(t.Context(), i, !c.upper); err != nil || other {
			t.Errorf("%s: told of the other side as well, %v", c.name, err)
		}
		more, less, err := w.slopes(t.Context(), i, c.upper, sign*10)
		if err != nil || (more == nil) != (c.more == 0) || (less == nil) != (c.less == 0) || more != nil && !near(*more, c.more) || less != nil && !near(*less, c.less) {
			t.Errorf("%s: slopes %v and %v, %v", c.name, more, less, err)
		}
		// Of a price of nothing, which may be the dual of a limit with two, both are told.
		w.root.Dual[i] = 0
		if p, binds, err = w.limit(t.Context(), i, c.upper); err != nil || !binds || p.Marginal != 0 || (p.More == nil) != (c.more == 0) || (p.Less == nil) != (c.less == 0) {
			t.Errorf("%s: %+v is told %v of a price of nothing, %v", c.name, p, binds, err)
		}
		if again := w.lp.Solve(t.Context()); !near(again.Value, w.root.Value) {
			t.Errorf("%s: the row is not as it was: %g, want %g", c.name, again.Value, w.root.Value)
		}
	}
}

// TestExplainedWhole: what is explained of a small household: what the relaxation comes to, as its
// prices times their limits and more say, over how many days, in what unit; the limits where no food
// is asked about, and only the foods asked about where some are; of two foods both.
func TestExplainedWhole(t *testing.T) {
	req := &ration.Request{
		People: []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female)}, Table: rationtest.SmallTable(t, rationtest.SmallShop...), Start: "2026-11-25",
		Days: 6, Standard: nutrients.StandardBasic, Least: ration.LeastWeight, IgnoreEatable: true,
	}
	rice, oats := ration.FindPack(req, "white-rice-907g-bag").Food.Name, ration.FindPack(req, "rolled-oats-510g-canister").Food.Name
	made := &ration.Plan{Notice: "THIS PLAN DOES NOT FEED OLA", Refused: []ration.Refused{{Name: "Ola"}}, Packs: []ration.PlanPack{{Food: oats, Count: 2}}}
	out, err := ExplainFor(t.Context(), req, made, WhyRequest{})
	if err != nil {
		t.Fatal(err)
	}
	w := relaxation(t, req)
	if out.Value != w.root.Value || out.Days != 6 || out.Unit != "kg" || out.Least != ration.LeastWeight || out.Notice != made.Notice || len(out.Refused) != 1 || len(out.Unsettled) > 0 {
		t.Errorf("%+v, want %g kg for 6 days", out, w.root.Value)
	}
	limits, err := w.limits(t.Context())
	if err != nil || len(limits) == 0 || rounded(t, out.Limits) != rounded(t, limits) {
		t.Errorf("limits %+v, %v, want %+v", out.Limits, err, limits)
	}
	sold := 0
	for _, lf := range w.model.Larder {
		if len(lf.Buy) > 0 {
			sold++
		}
	}
	if len(out.Foods) != sold { // of ten foods all are near
		t.Errorf("%d foods, want %d", len(out.Foods), sold)
	}
	chosen := true
	for i, f := range out.Foods {
		if f.Chosen && !chosen || i > 0 && f.Chosen == out.Foods[i-1].Chosen && f.distance() < out.Foods[i-1].distance() {
			t.Errorf("%s, chosen %v, stands behind %s", f.Food, f.Chosen, out.Foods[i-1].Food)
		}
		chosen = f.Chosen
		if want := map[string]int{oats: 2}[f.Food]; f.InPlan != want {
			t.Errorf("%d packs of %s are in the plan, want %d", f.InPlan, f.Food, want)
		}
	}
	out, err = ExplainFor(t.Context(), req, made, WhyRequest{Foods: []string{rice, oats}})
	if err != nil || len(out.Limits) > 0 || len(out.Foods) != 2 || out.Foods[0].Food == out.Foods[1].Food {
		t.Fatalf("%+v, %v", out, err)
	}
	for _, f := range out.Foods {
		if f.Food != rice && f.Food != oats {
			t.Errorf("%s is explained", f.Food)
		}
	}
	if _, err := ExplainFor(t.Context(), req, made, WhyRequest{Foods: []string{"ambrosia"}}); !errors.Is(err, foods.ErrUnknown) {
		t.Errorf("ambrosia: %v", err)
	}
	if _, err := Explain(t.Context(), &ration.Plan{}, WhyRequest{}); err == nil {
		t.Error("a plan without its request is explained")
	}
	if _, err := ExplainFor(t.Context(), &ration.Request{Table: req.Table}, made, WhyRequest{}); !errors.Is(err, ration.ErrNobody) {
		t.Errorf("nobody: %v", err)
	}
}

// TestStoredVitaminsAreGivenUp: where no food holds enough vitamin D, a plan gives it up by itself,
// and the prices are those of the rest; where another need cannot be met there are none.
func TestStoredVitaminsAreGivenUp(t *testing.T) {
	for _, c := range []struct {
		scarce nutrients.Nutrient
		fits   bool
	}{{nutrients.VitaminD, true}, {nutrients.Iron, false}} {
		s := newSketch()
		energy, other := s.row(400, inf, need(0, nutrients.Energy)), s.row(15, inf, need(0, c.scarce))
		s.food("rice", pack{2, map[int]float64{energy: 100, other: 0.1}}) // 100 packs hold 10 at most
		w := &explainer{model: s.Model, plan: &ration.Plan{}}
		err := w.start(t.Context())
		if c.fits != (err == nil) || !c.fits && !errors.Is(err, ration.ErrNoPlan) {
			t.Errorf("%s: %v", c.scarce.Name(), err)
		}
		if c.fits && math.Abs(w.root.Value-200) > 1e-3 { // all 100 packs, as much of it as there is
			t.Errorf("%s: the value is %g", c.scarce.Name(), w.root.Value)
		}
	}
}

// TestWithinTheTolerances: a limit binds where its row is within a ten-millionth of it, of one at
// least; two slopes are one up to a hundredth of the shadow price; a price under a billionth is none;
// a food is chosen from over a millionth of a pack on. Both sides of each.
func TestWithinTheTolerances(t *testing.T) {
	for _, c := range []struct {
		amount, off float64
		binds       bool
	}{
		{400, 3.9e-5, true}, {400, -3.9e-5, true}, {400, 4.1e-5, false}, {400, -4.1e-5, false}, // of 400
		{0.5, 0.95e-7, true}, {0.5, 1.05e-7, false}, // of one
		{0, 1e-7, true}, {0, -1e-7, true},
	} {
		s := newSketch()
		i := s.row(c.amount, inf, model.RowInfo{Kind: model.RowLimit, Class: model.UserLimit, Eater: -1, Text: "litres", Unit: "L", PerDay: 1})
		s.col(3, -5, 1000, map[int]float64{i: 1})
		w := &explainer{model: s.Model, plan: &ration.Plan{}}
		if err := w.start(t.Context()); err != nil {
			t.Fatal(err)
		}
		w.root.RowValue[i] = c.amount + c.off
		if _, binds, err := w.limit(t.Context(), i, false); err != nil || binds != c.binds {
			t.Errorf("%g off %g: binds %v, %v, want %v", c.off, c.amount, binds, err, c.binds)
		}
	}
	for off, told := range map[float64]bool{0.0095: false, -0.0095: false, 0.0105: true, -0.0105: true} {
		w := groceries(t) // whose kcal is worth 0.01, more or less of it
		w.root.Dual[0] = 0.01 / (1 + off)
		p, binds, err := w.limit(t.Context(), 0, false)
		if err != nil || !binds || (p.More != nil) != told || (p.Less != nil) != told || told && (math.Abs(*p.More-0.1) > 1e-6 || math.Abs(*p.Less-0.1) > 1e-6) {
			t.Errorf("slopes %g of the shadow price off it: %+v, %v, want them told: %v", off, p, err, told)
		}
	}
	for price, told := range map[float64]bool{0.95e-9: false, 1e-9: true, 1.05e-9: true} {
		s := newSketch()
		i := s.row(2, inf, model.RowInfo{Kind: model.RowLimit, Class: model.UserLimit, Eater: -1, Text: "litres", Unit: "L", PerDay: 1})
		s.col(0, 2, 1000, map[int]float64{i: 1})
		w := &explainer{model: s.Model, plan: &ration.Plan{}}
		if err := w.start(t.Context()); err != nil {
			t.Fatal(err)
		}
		w.root.RowValue[i], w.root.Dual[i] = 2, price
		if p, binds, err := w.limit(t.Context(), i, false); err != nil || binds != told {
			t.Errorf("a price of %g: %+v told %v, %v", price, p, binds, err)
		}
	}
	for packs, chosen := range map[float64]bool{0: false, 1e-6: false, 1.05e-6: true} {
		w := groceries(t)
		w.root.X[w.model.Larder[2].Buy[0].Col] = packs
		oil, err := w.food(t.Context(), 2)
		if p := oil.Packs[0]; err != nil || oil.Chosen != chosen || (p.Chosen == packs) != (chosen || packs == 0) || (p.Leaves != nil) != chosen || (p.Enters != nil) == chosen {
			t.Errorf("%g packs: %+v, %v, chosen %v", packs, oil, err, chosen)
		}
	}
}

// TestLeftOutRowsAreNotTold: a row that the relaxation leaves out, since nothing comes near it, binds
// nothing, though it has no figure there and its limit is none either; that of one food alone is asked
// about, and no other.
func TestLeftOutRowsAreNotTold(t *testing.T) {
	w := groceries(t)
	s := sketch{w.model}
	i := s.row(-inf, 0, model.RowInfo{Kind: model.RowShare, Class: model.Requirement, Eater: 0, Nutrient: nutrients.Fat, Text: "fat % of energy", PerDay: 10})
	s.Problem.Rows[i].Lazy = true
	s.Problem.Set(i, w.model.Larder[1].Buy[0].Col, -1)
	if err := w.start(t.Context()); err != nil {
		t.Fatal(err)
	}
	if p, binds, err := w.limit(t.Context(), i, true); err != nil || binds {
		t.Errorf("%+v is told, %v", p, err)
	}
	if again := w.lp.Solve(t.Context()); math.Abs(again.Value-13.5) > 1e-9 {
		t.Errorf("afterwards all comes to %g, %v", again.Value, again.Status)
	}
	if got, err := w.foods(t.Context(), []*foods.Food{w.model.Larder[3].Food}); err != nil || len(got) != 1 || got[0].Food != "tea" {
		t.Errorf("tea: %+v, %v", got, err)
	}
}
