package why

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"rationwright/nutrients"
	"rationwright/solver/answer"
	"rationwright/solver/model"
	"rationwright/solver/plantest"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// explained explains a plan of one woman by the whole table.
func explained(t testing.TB, least ration.Least, ask WhyRequest) (*Why, *ration.Request, *ration.Plan) {
	t.Helper()
	req := &ration.Request{
		People: []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female)}, Table: rationtest.Table(t), Least: least,
		Within: 0.5, Time: time.Minute, Start: "2026-11-25",
	}
	plan := plantest.MustMake(t, req)
	why, err := ExplainFor(context.Background(), req, plan, ask)
	if err != nil {
		t.Fatal(err)
	}
	return why, req, plan
}

// priceTo makes the program of req with one pack, or all packs of a food, at
// other prices, and solves its relaxation from nothing.
func priceTo(t testing.TB, req *ration.Request, is func(model.PackCol, *model.LarderFood) bool, price func(float64) float64) (simplex.Result, float64) {
	t.Helper()
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	chosen := []model.PackCol{}
	for _, lf := range m.Larder {
		for _, k := range lf.Buy {
			if is(k, lf) {
				m.Problem.Cols[k.Col].Cost = price(m.Problem.Cols[k.Col].Cost)
				chosen = append(chosen, k)
			}
		}
	}
	x, err := search.Relax(m.Problem)
	if err != nil {
		t.Fatal(err)
	}
	result := x.Solve(context.Background())
	if result.Status != simplex.Optimal {
		t.Fatalf("the relaxation ended %v", result.Status)
	}
	packs := 0.0
	for _, k := range chosen {
		packs += result.X[k.Col]
	}
	return result, packs
}

// inside and outside are how far from a price it is tried: relative.
const inside, outside = 0.995, 1.005

// Prices to enter and to leave are confirmed by solving the relaxation anew just
// inside and just outside of them, for twenty foods and more.
func TestPricesToEnterAndLeave(t *testing.T) {
	why, req, _ := explained(t, ration.LeastCost, WhyRequest{})
	enter, leave, factors := 0, 0, 0
	most, mostFoods := 10, 6
	if *rationtest.Campaign >= 10 {
		most, mostFoods = 40, 40
	}
	for _, f := range why.Foods {
		for _, p := range f.Packs {
			at := p.Enters
			if at == nil {
				at = p.Leaves
			}
			if at == nil || *at <= 0 || enter >= most && p.Enters != nil || leave >= most && p.Leaves != nil {
				continue
			}
			is := func(k model.PackCol, _ *model.LarderFood) bool { return k.Pack.Key == p.Pack }
			if _, n := priceTo(t, req, is, func(float64) float64 { return *at * inside }); n <= search.ChosenTolerance {
				t.Errorf("%s at %.4g, just under %.4g (now %.4g): not chosen", p.Pack, *at*inside, *at, p.Price)
			}
			if _, n := priceTo(t, req, is, func(float64) float64 { return *at * outside }); n > tasteOf {
				t.Errorf("%s at %.4g, just over %.4g (now %.4g): %g packs chosen", p.Pack, *at*outside, *at, p.Price, n)
			}
			if p.Enters != nil {
				enter++
			} else {
				leave++
			}
		}
		if f.Factor == nil || factors >= mostFoods {
			continue
		}
		factors++
		is := func(_ model.PackCol, lf *model.LarderFood) bool { return lf.Food.Name == f.Food }
		if f.Chosen != (*f.Factor > 1) {
			t.Errorf("%s: chosen %v, but its factor is %g", f.Food, f.Chosen, *f.Factor)
		}
		if _, n := priceTo(t, req, is, func(v float64) float64 { return v * *f.Factor * inside }); n <= search.ChosenTolerance {
			t.Errorf("%s at %.4g times its prices, just inside: not chosen", f.Food, *f.Factor*inside)
		}
		if _, n := priceTo(t, req, is, func(v float64) float64 { return v * *f.Factor * outside }); n > tasteOf {
			t.Errorf("%s at %.4g times its prices, just outside: %g packs chosen", f.Food, *f.Factor*outside, n)
		}
	}
	t.Logf("%d packs enter, %d leave, %d foods as a whole", enter, leave, factors)
	if enter < 10 || leave < 10 || factors < 5 {
		t.Error("too few prices were confirmed")
	}
}

// pricedLimits prices the limits of a plan of one woman, without its foods, and
// returns the value of the relaxation with them.
func pricedLimits(t testing.TB, least ration.Least) (*ration.Request, []LimitPrice, float64) {
	t.Helper()
	req := &ration.Request{People: []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female)}, Table: rationtest.Table(t), Least: least, Start: "2026-11-25"}
	w := relaxation(t, req)
	limits, err := w.limits(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return req, limits, w.root.Value
}

// relaxation is the solved relaxation of a request.
func relaxation(t testing.TB, req *ration.Request) *explainer {
	t.Helper()
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	w := &explainer{model: m, plan: &ration.Plan{}}
	if err := w.start(context.Background()); err != nil {
		t.Fatal(err)
	}
	return w
}

// Shadow prices against finite differences of the value, by solving anew with
// the limit moved: one unit more costs at least the shadow price, one unit less
// saves at most that, and where only the shadow price is given both are it.
func TestShadowPricesAgainstDifferences(t *testing.T) {
	for _, least := range []ration.Least{ration.LeastCost, ration.LeastWeight}[:min(*rationtest.Campaign, 2)] {
		req, limits, value := pricedLimits(t, least)
		tried, degenerate := 0, 0
		for _, l := range limits {
			m, err := model.Build(req)
			if err != nil {
				t.Fatal(err)
			}
			row := -1
			for i, info := range m.Rows {
				side := m.Problem.Rows[i].Lower
				if l.AtMost {
					side = m.Problem.Rows[i].Upper
				}
				if info.Text == l.Limit && info.Unit == l.Unit && (l.Amount == nil || math.Abs(side/info.PerDay-*l.Amount) < 1e-9) && !math.IsInf(side, 0) {
					row = i
				}
			}
			if row < 0 {
				t.Fatalf("no row for %+v", l)
			}
			slope := func(sign float64) (float64, bool) {
				step := sign * math.Max(1e-3*l.size(), 1e-3) * m.Rows[row].PerDay
				p := m.Problem.Clone()
				if l.AtMost {
					p.Rows[row].Upper += step
				} else {
					p.Rows[row].Lower += step
					if p.Rows[row].Upper < p.Rows[row].Lower {
						p.Rows[row].Upper = p.Rows[row].Lower
					}
				}
				x, err := search.Relax(p)
				if err != nil {
					t.Fatal(err)
				}
				result := x.Solve(context.Background())
				if result.Status != simplex.Optimal {
					return 0, false
				}
				return (result.Value - value) / step * m.Rows[row].PerDay, true
			}
			room := 1e-4 + 0.02*math.Abs(l.Marginal)
			tighter := 1.0 // asks more, or allows less
			if l.AtMost {
				tighter = -1
			}
			if _, fits := slope(tighter); fits == l.NoMore {
				t.Errorf("%s %s: no more %v, but a ration that keeps a thousandth more is there: %v", l.Person, l.Limit, l.NoMore, fits)
			}
			if up, ok := slope(1); ok {
				tried++
				want := l.Marginal
				if l.More != nil {
					want = *l.More
					degenerate++
				}
				if up < l.Marginal-room || l.More == nil && up > want+room {
					t.Errorf("%s %s: one more changes it by %g, want %g (shadow price %g)", l.Person, l.Limit, up, want, l.Marginal)
				}
			}
			if down, ok := slope(-1); ok {
				if down > l.Marginal+room || l.Less == nil && down < l.Marginal-room {
					t.Errorf("%s %s: one less changes it by %g, want the shadow price %g", l.Person, l.Limit, down, l.Marginal)
				}
			}
		}
		t.Logf("least %s: %d limits, %d with another price for more", least, tried, degenerate)
		if tried < 8 {
			t.Error("too few limits bind: the test shows little")
		}
	}
}

// How far the whole-pack plan follows the relaxation's prices: for five foods the
// plan is made anew to a proven optimum inside and outside the price. Near it packs
// are whole and the prices are "about": there no more may be bought at the higher
// price, and what differs is logged. At a tenth of it the food is bought, at ten
// times it not.
func TestWholePacksAtThosePrices(t *testing.T) {
	req := &ration.Request{
		People: []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female)}, Table: rationtest.SmallTable(t, rationtest.SmallShop...), IgnoreEatable: true, Least: ration.LeastCost,
		Standard: nutrients.StandardBasic, Days: 7, Within: 1e-6, Time: time.Minute, Start: "2026-11-25",
	}
	plan := plantest.MustMake(t, req)
	why, err := ExplainFor(context.Background(), req, plan, WhyRequest{})
	if err != nil {
		t.Fatal(err)
	}
	foods, differ := 0, 0
	for _, f := range why.Foods {
		if f.Factor == nil || foods == 5 {
			continue
		}
		foods++
		buys := func(factor float64) float64 {
			m, err := model.Build(req)
			if err != nil {
				t.Fatal(err)
			}
			n := 0.0
			var cols []int
			for _, lf := range m.Larder {
				for _, k := range lf.Buy {
					if lf.Food.Name == f.Food {
						m.Problem.Cols[k.Col].Cost *= factor
						cols = append(cols, k.Col)
					}
				}
			}
			result := search.Run(context.Background(), m.Problem, search.Options{Gap: 1e-6, MinDenom: 0.01, Work: 200000})
			if result.Status != search.Optimal {
				t.Fatalf("%s at %g times its price: not proven: %v", f.Food, factor, result.Status)
			}
			for _, j := range cols {
				n += math.Round(result.X[j])
			}
			return n
		}
		in, out := buys(*f.Factor*0.9), buys(*f.Factor*1.1)
		// Of two proven best plans at two prices, the one at the lower price has no
		// fewer of what the price is for, whatever else changes.
		if in < out {
			t.Errorf("%s: %g packs at a tenth under its price, %g at a tenth over it", f.Food, in, out)
		}
		if far := buys(*f.Factor * 10); far > out || far > 0 {
			t.Errorf("%s: %g packs at ten times the price above which parts of packs are not bought", f.Food, far)
		}
		if near := buys(*f.Factor / 10); near < in || near == 0 {
			t.Errorf("%s: %g packs at a tenth of the price below which parts of packs are bought", f.Food, near)
		}
		if in == 0 || out > 0 {
			differ++
		}
		t.Logf("%s (factor %.3g): whole packs %g ten per cent inside, %g ten per cent outside", f.Food, *f.Factor, in, out)
	}
	t.Logf("%d of %d foods differ from the relaxation", differ, foods)
	if foods < 5 {
		t.Error("fewer than five foods")
	}
}

// A row of the household that stands for two alike people gives the same prices as
// the two in rows of their own: a price is that of one person.
func TestPricesAreThoseOfOnePerson(t *testing.T) {
	signe, twin := rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Tora", 30, nutrients.Female)
	jonas := rationtest.Adult("Jonas", 52, nutrients.Male)
	two := signe
	two.Count = 2
	for _, least := range []ration.Least{ration.LeastCost, ration.LeastWeight, ration.LeastVolume} {
		priced := func(people ...nutrients.Person) (map[string]LimitPrice, map[string]float64, float64) {
			w := relaxation(t, &ration.Request{People: people, Table: rationtest.Table(t), Least: least, Start: "2026-11-25"})
			limits, err := w.limits(context.Background())
			if err != nil {
				t.Fatal(err)
			}
			byName := map[string]LimitPrice{}
			for _, l := range limits {
				if l.More == nil && l.Less == nil { // there is but one price
					byName[fmt.Sprint(l.Person, " ", l.Limit, " ", l.Unit, " ", l.AtMost)] = l
				}
			}
			inPlan := map[string]float64{}
			for _, p := range answer.ShadowPrices(w.model, search.Result{RootDual: w.root.Dual}) {
				inPlan[fmt.Sprint(p.Person, " ", p.Limit, " ", p.Unit)] = p.Marginal
			}
			return byName, inPlan, w.root.Value
		}
		one, onePlan, oneValue := priced(two, jonas)
		rows, rowsPlan, rowsValue := priced(signe, twin, jonas)
		if math.Abs(oneValue-rowsValue) > 1e-6*rowsValue {
			t.Fatalf("least %s: %g in one row, %g in two", least, oneValue, rowsValue)
		}
		same := func(a, b float64) bool { return math.Abs(a-b) <= slopesAgree*math.Max(math.Abs(b), 1e-6) }
		ofTwo := 0
		for name, l := range one {
			other, ok := rows[name]
			if !ok {
				continue // more than one price there
			}
			if l.Person == two.Name {
				ofTwo++
			}
			if !same(l.Marginal, other.Marginal) {
				t.Errorf("least %s, %s: %g in one row, %g in two", least, name, l.Marginal, other.Marginal)
			}
			side := " at least"
			if l.AtMost {
				side = " at most"
			}
			key := fmt.Sprint(l.Person, " ", l.Limit, side, " ", l.Unit)
			if a, b := onePlan[key], rowsPlan[key]; a != 0 && b != 0 && !same(a, b) {
				t.Errorf("least %s, %s in the plan: %g in one row, %g in two", least, name, a, b)
			}
		}
		t.Logf("least %s: %d prices alike, %d of them of the row that stands for two", least, len(one), ofTwo)
		if ofTwo < 3 {
			t.Errorf("least %s: only %d prices of the row that stands for two could be compared", least, ofTwo)
		}
	}
}

// Asked about foods, why explains these only; a share of energy has no amount.
func TestWhyOfFoodsOnly(t *testing.T) {
	why, _, _ := explained(t, ration.LeastWeight, WhyRequest{Foods: []string{"quinoa"}})
	if len(why.Limits) > 0 || len(why.Foods) != 1 || why.Foods[0].Food != "quinoa" {
		t.Errorf("%d limits and %d foods, want quinoa only", len(why.Limits), len(why.Foods))
	}
	_, limits, _ := pricedLimits(t, ration.LeastCost)
	shares := 0
	for _, l := range limits {
		if strings.HasSuffix(l.Limit, "% of energy") {
			shares++
			if l.Amount != nil {
				t.Errorf("%s has the amount %g %s", l.Limit, *l.Amount, l.Unit)
			}
		} else if l.Amount == nil {
			t.Errorf("%s has no amount", l.Limit)
		}
	}
	if shares == 0 {
		t.Error("no share of energy binds: the test shows little")
	}
}

// TestNearestFoodsAreTheNearest: unasked, of the foods that are not chosen those are
// explained of which the dearest pack, beside its price, is worth most in the relaxation:
// price less what its rows pay for it, by hand from their prices.
func TestNearestFoodsAreTheNearest(t *testing.T) {
	req, _, _ := pricedLimits(t, ration.LeastCost)
	w := relaxation(t, req)
	near := func(li int) float64 {
		best := math.Inf(1)
		for _, k := range w.model.Larder[li].Buy {
			c := &w.model.Problem.Cols[k.Col]
			left := c.Cost
			for _, e := range c.Entries {
				left -= e.Value * w.root.Dual[e.Row]
			}
			best = math.Min(best, left/c.Cost)
		}
		return best
	}
	listed := map[int]bool{}
	farthest, others := math.Inf(-1), 0
	for _, li := range w.chooseFoods(nil) {
		listed[li] = true
		lf := w.model.Larder[li]
		if w.chosen(lf) || w.inPlan(lf.Food) > 0 {
			continue
		}
		others++
		if at := near(li); at < farthest-1e-7 {
			t.Errorf("%s, at %.6f of its price, stands behind one at %.6f", lf.Food.Name, at, farthest)
		} else {
			farthest = math.Max(farthest, at)
		}
	}
	if others != nearestFoods {
		t.Errorf("%d foods that are not chosen, want %d", others, nearestFoods)
	}
	for li, lf := range w.model.Larder {
		if len(lf.Buy) > 0 && !listed[li] {
			if at := near(li); at < farthest-1e-7 {
				t.Errorf("%s, at %.6f of its price, is left out; one at %.6f is not", lf.Food.Name, at, farthest)
			}
		}
	}
}
