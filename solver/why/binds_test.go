package why

import (
	"context"
	"errors"
	"math"
	"slices"
	"testing"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/answer"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestOnlyWhatBindsIsTold: a limit is told of a row that stands at it in the relaxation, at
// that side, and of no other; of an equation once.
func TestOnlyWhatBindsIsTold(t *testing.T) {
	w := relaxation(t, rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female)))
	told, apart := 0, 0
	for i, row := range w.model.Problem.Rows {
		for _, upper := range []bool{false, true} {
			amount := row.Lower
			if upper {
				amount = row.Upper
			}
			if math.Abs(amount) == linear.Inf {
				continue
			}
			far := math.Abs(w.root.RowValue[i]-amount) > 1e-3*math.Max(1, math.Abs(amount))
			p, binds, err := w.limit(context.Background(), i, upper)
			if err != nil {
				t.Fatal(err)
			}
			switch {
			case binds && far:
				t.Errorf("%s is at %g, told at %g: %+v", row.Name, w.root.RowValue[i], amount, p)
			case binds && row.Lower != row.Upper && (upper && p.Marginal > 1e-9 || !upper && p.Marginal < -1e-9):
				t.Errorf("%s has the price of its other side: %+v", row.Name, p)
			case binds && p.largest() < answer.DullPrice:
				t.Errorf("%s costs nothing and is told: %+v", row.Name, p)
			case binds:
				told++
			case far:
				apart++
			}
		}
	}
	if told < 2 || apart < 2 {
		t.Errorf("%d limits bind and %d stand apart: the test shows nothing", told, apart)
	}
}

// TestAlmostReachedIsNotReached: a limit that is missed by less than the step with which
// slopes are taken has no price, though its slopes would say so: it does not bind.
func TestAlmostReachedIsNotReached(t *testing.T) {
	w := relaxation(t, rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female)))
	bound := 0
	for i := range w.model.Problem.Rows {
		row := &w.model.Problem.Rows[i]
		if row.Lower == row.Upper || math.Abs(row.Lower) < 1e-3 || math.IsInf(row.Lower, 0) {
			continue
		}
		if _, binds, err := w.limit(t.Context(), i, false); err != nil || !binds {
			continue
		}
		bound++
		was := row.Lower
		row.Lower = was - limitStep/5*math.Abs(was)
		if p, binds, err := w.limit(t.Context(), i, false); err != nil || binds {
			t.Errorf("%s is at %g, told at %g: %+v, %v", row.Name, w.root.RowValue[i], row.Lower, p, err)
		}
		row.Lower = was
		w.lp.Solver.SetRowBounds(w.lp.At[i], row.Lower, row.Upper)
	}
	if bound == 0 {
		t.Error("nothing binds: the test shows nothing")
	}
}

// TestReserveIsNotEaten: of the packs of a food those that are set aside do not count.
func TestReserveIsNotEaten(t *testing.T) {
	w := &explainer{plan: &ration.Plan{Packs: []ration.PlanPack{
		{Food: "sugar, white", Count: 2}, {Food: "sugar, white", Count: 5, Reserve: true}, {Food: "salt", Count: 9}, {Food: "sugar, white", Count: 1, FromStock: 1},
	}}}
	for name, want := range map[string]int{"sugar, white": 3, "salt": 9, "rice": 0} {
		if got := w.inPlan(&foods.Food{Name: name}); got != want {
			t.Errorf("%d packs of %s, want %d", got, name, want)
		}
	}
}

// TestLessCannotBe: where a budget is hardly over the least that a ration costs, a step more
// of it saves weight and a step less leaves no ration: there is no price for less, and it is
// said that there is none. Where the budget is ample there are both.
func TestLessCannotBe(t *testing.T) {
	req := rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female))
	req.Least = ration.LeastCost
	least := relaxation(t, req).root.Value
	for _, c := range []struct {
		budget float64
		none   bool
	}{{1.001 * least, true}, {1.05 * least, false}} {
		asked := *req
		asked.Least, asked.Limits.Budget = ration.LeastWeight, &c.budget
		w := relaxation(t, &asked)
		row := slices.IndexFunc(w.model.Problem.Rows, func(r linear.Row) bool { return r.Upper == c.budget })
		if row < 0 {
			t.Fatal("no row of the budget")
		}
		p, binds, err := w.limit(t.Context(), row, true)
		if err != nil || !binds || p.Marginal >= 0 {
			t.Fatalf("budget %g of at least %g: %+v binds %v, %v", c.budget, least, p, binds, err)
		}
		more, less, err := w.slopes(t.Context(), row, true, c.budget)
		if err != nil || more == nil || *more > 0 || p.NoMore != c.none || (less == nil) != c.none {
			t.Errorf("budget %g of at least %g: more %v, less %v, none %v, %v", c.budget, least, more, less, p.NoMore, err)
		}
		if less != nil && *less > *more+1e-9 { // kg saved a unit of money: the first units save most
			t.Errorf("budget %g: %g kg a unit of less, %g of more", c.budget, *less, *more)
		}
		step := limitStep * c.budget
		for _, by := range []float64{step, -step} {
			moved := c.budget + by
			asked.Limits.Budget = &moved
			m, err := model.Build(&asked)
			if err != nil {
				t.Fatal(err)
			}
			got := map[bool]*float64{true: more, false: less}[by > 0]
			if by < 0 && c.none {
				continue
			}
			again := &explainer{model: m, plan: &ration.Plan{}}
			if err := again.start(t.Context()); err != nil {
				t.Fatal(err)
			}
			if want := (again.root.Value - w.root.Value) / by; got == nil || math.Abs(*got-want) > 1e-5*math.Abs(want) {
				t.Errorf("budget %g moved by %g: %v kg a unit, want %g as solved anew", c.budget, by, got, want)
			}
		}
	}
}

// TestHowFarAPriceIs: a food that would enter at half of its price is as far as one that would
// leave at twice as much; without a factor, or at no price, it is out of reach. The largest
// slope of a limit is that of any side, whatever its sign.
func TestHowFarAPriceIs(t *testing.T) {
	for factor, want := range map[float64]float64{0.5: 2, 2: 2, 1: 1, 1.25: 1.25, 0.8: 1.25, 0: math.Inf(1), -1: math.Inf(1)} {
		if got := (&FoodPrice{Factor: &factor}).distance(); math.Abs(got-want) > 1e-12 && got != want {
			t.Errorf("factor %g: %g away, want %g", factor, got, want)
		}
	}
	if got := (&FoodPrice{}).distance(); !math.IsInf(got, 1) {
		t.Errorf("without a factor %g away", got)
	}
	small, large, amount := 1., -9., -4.
	for _, c := range []struct {
		p    LimitPrice
		want float64
	}{{LimitPrice{Marginal: -3}, 3}, {LimitPrice{Marginal: -3, More: &small}, 3}, {LimitPrice{Marginal: -3, More: &large}, 9}, {LimitPrice{Marginal: -3, More: &small, Less: &large}, 9}} {
		if got := c.p.largest(); got != c.want {
			t.Errorf("%+v: %g, want %g", c.p, got, c.want)
		}
	}
	if got := (&LimitPrice{}).size(); got != 0 {
		t.Errorf("a limit without an amount is %g large", got)
	}
	if got := (&LimitPrice{Amount: &amount}).size(); got != 4 {
		t.Errorf("a limit of −4 is %g large, want 4", got)
	}
}

// TestNothingFitsHasNoPrices: where no ration keeps a limit it is said that nothing fits.
func TestNothingFitsHasNoPrices(t *testing.T) {
	req := rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female))
	little := 1.0
	req.Limits.WeightKg = &little
	m, err := model.Build(ration.Filled(req))
	if err != nil {
		t.Fatal(err)
	}
	w := &explainer{model: m}
	if err := w.start(context.Background()); !errors.Is(err, ration.ErrNoPlan) {
		t.Errorf("a kilogram for all: %v, want that nothing fits", err)
	}
}
