package community

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"testing"
	"time"

	"rationwright/foods"
	"rationwright/nutrients"
	"rationwright/solver/linear"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/simplex"
)

// TestPricesOfAUse: a household that spends 30 and takes 2 packs of the first line and 1 of the
// second pays 30·1.5 + 2·4 + 1·10 at a price of 1.5 for money and 4 and 10 for the packs.
func TestPricesOfAUse(t *testing.T) {
	u := use{level: 0.9, money: 30, packs: []float64{2, 1.0000001}}
	at := price{money: 1.5, level: 7, packs: []float64{4, 10}}
	if got := at.of(use{money: 30, packs: []float64{2, 1}}); math.Abs(got-63) > 1e-9 {
		t.Errorf("%g, want 63", got)
	}
	left := []float64{5, 1}
	u.takeFrom(left, 1)
	if !slices.Equal(left, []float64{3, 0}) {
		t.Errorf("%v left of 5 and 1", left)
	}
	u.takeFrom(left, -1)
	if !slices.Equal(left, []float64{5, 1}) {
		t.Errorf("%v after giving it back", left)
	}
	for _, c := range []struct {
		left []float64
		want bool
	}{{nil, true}, {[]float64{2, 1}, true}, {[]float64{1, 1}, false}, {[]float64{2, 0}, false}, {[]float64{9, 9}, true}} {
		if got := u.within(c.left); got != c.want {
			t.Errorf("2 and 1 packs within %v: %v", c.left, got)
		}
	}
	// For dealing the level has no price, and money some.
	if got := at.forDealing(); got.level != 0 || got.money != 1.5 || !slices.Equal(got.packs, at.packs) {
		t.Errorf("%+v", got)
	}
	if got := (price{money: 0, level: 1}).forDealing(); got.money != 1e-3 || got.level != 0 {
		t.Errorf("%+v", got)
	}
	// Half the way to the next prices.
	if got := at.towards(price{money: 2.5, packs: []float64{0, 20}}); got.money != 2 || !slices.Equal(got.packs, []float64{2, 15}) {
		t.Errorf("%+v", got)
	}
}

// TestCheapestPoint: of the points that reach the level and keep to what is left, the cheapest
// by the prices: with the stock free and dear.
func TestCheapestPoint(t *testing.T) {
	list := []use{
		{level: 0.8, money: 10, packs: []float64{0}}, {level: 1, money: 40, packs: []float64{0}}, {level: 1, money: 30, packs: []float64{2}}, {level: 0.95, money: 20, packs: []float64{3}},
	}
	for _, c := range []struct {
		pack, level float64
		left        []float64
		want        float64 // its money
	}{
		{0, 0, nil, 10}, {0, 0.9, nil, 20}, {0, 0.95, nil, 20}, {0, 0.96, nil, 30}, {0, 0.9, []float64{2}, 30}, {0, 0.9, []float64{1}, 40},
		{4.9, 1, nil, 30}, {5.1, 1, nil, 40}, {0, 1.1, nil, -1}, {0, 1, []float64{2}, 30},
	} {
		u := cheapestOf(list, price{money: 1, packs: []float64{c.pack}}, c.level, c.left)
		if got := map[bool]float64{true: -1}[u == nil]; u == nil && c.want != got || u != nil && u.money != c.want {
			t.Errorf("%+v: %+v", c, u)
		}
	}
}

// TestChosenTogether: of two households' points those that together keep to two bags and the
// budget and cost the least; with less of either another choice, or the start where there is
// none.
func TestChosenTogether(t *testing.T) {
	found := [][]use{
		{{money: 50, packs: []float64{0}}, {money: 30, packs: []float64{1}}, {money: 12, packs: []float64{2}}},
		{{money: 60, packs: []float64{0}}, {money: 20, packs: []float64{2}}},
	}
	for _, c := range []struct {
		bags, budget float64
		start        []int
		want         []int
	}{
		{9, math.Inf(1), nil, []int{2, 1}}, {3, math.Inf(1), nil, []int{1, 1}}, {2, math.Inf(1), nil, []int{0, 1}}, {1, math.Inf(1), nil, []int{1, 0}}, {0, math.Inf(1), nil, []int{0, 0}},
		{3, 50, nil, []int{1, 1}}, {3, 49, nil, nil}, {3, 49, []int{0, 0}, []int{0, 0}}, {3, math.Inf(1), []int{0, 0}, []int{1, 1}},
	} {
		if got := choose(context.Background(), found, []float64{c.bags}, c.budget, c.start); !slices.Equal(got, c.want) {
			t.Errorf("%g bags, %g to spend, from %v: %v, want %v", c.bags, c.budget, c.start, got, c.want)
		}
	}
	if got := sum(found, []int{1, 1}); got != 50 {
		t.Errorf("together %g, want 50", got)
	}
}

// TestReachOfABudget: of 100 that all together cost, 40 for what nobody may go without: a budget
// of 70 reaches for half of the rest, one of 40 or less for none; what costs over twice the
// budget counts as that.
func TestReachOfABudget(t *testing.T) {
	for _, c := range []struct{ budget, cost, want float64 }{{70, 100, 0.5}, {100, 100, 1}, {130, 100, 1.5}, {40, 100, 0}, {30, 100, 0}, {60, 500, 0.25}, {60, 120, 0.25}} {
		g := &group{budget: c.budget, found: [][]use{{{money: 15}, {money: 99}}, {{money: 25}}}}
		if got := g.reach(c.cost); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%g of %g: %g, want %g", c.budget, c.cost, got, c.want)
		}
	}
}

// TestBoundsOfTheShop: households that need 50 and 70 at the prices of the shop need at least
// that less what the stock is worth there: 3 bags at 4 and 2 cans at 5. Who cannot have all
// needs is left out.
func TestBoundsOfTheShop(t *testing.T) {
	req := &ration.Request{Stock: []foods.StockLine{{Pack: &foods.Pack{Price: 4}}, {Pack: &foods.Pack{Price: 5}}}}
	at := shopPrice(req)
	if at.money != 1 || at.level != 0 || !slices.Equal(at.packs, []float64{4, 5}) {
		t.Fatalf("%+v", at)
	}
	stock := []float64{3, 2}
	if got := lessStock(at, stock, []float64{50, 70}); got != 98 {
		t.Errorf("%g, want 98", got)
	}
	programs := []*program{{dearest: 50}, nil, {dearest: math.Inf(1)}, {dearest: 70}}
	if got := leastForAll(programs, at, stock); got != 98 {
		t.Errorf("%g, want 98", got)
	}
	if free := stockFree(2); free.money != 1 || !slices.Equal(free.packs, []float64{0, 0}) {
		t.Errorf("%+v", free)
	}
}

// TestEffortOfMany: up to thirty households all rounds are made, of sixty half of them, never
// fewer than the least; whole packs of more than thirty are taken to come to more.
func TestEffortOfMany(t *testing.T) {
	for _, c := range []struct{ most, least, households, want int }{{40, 2, 1, 40}, {40, 2, 30, 40}, {40, 2, 60, 20}, {40, 2, 31, 38}, {40, 2, 6000, 2}, {3, 1, 200, 1}, {5, 2, 30, 5}, {1, 2, 90, 1}} {
		if got := roundsOf(c.most, c.least, c.households); got != c.want {
			t.Errorf("%d rounds at most among %d: %d, want %d", c.most, c.households, got, c.want)
		}
	}
	if wholeCosts(30) != 0.06 || wholeCosts(31) != 0.1 {
		t.Errorf("whole packs cost %g and %g more", wholeCosts(30), wholeCosts(31))
	}
	// Two at a time: of six households the first two have a third of the time, the next two
	// half of what is left, the last two all of it.
	for h, part := range []float64{1. / 3, 1. / 3, 0.5, 0.5, 1, 1} {
		ctx, cancel := context.WithTimeout(context.Background(), 10*time.Hour)
		own, stop := fairPart(ctx, h, 6)
		end, _ := own.Deadline()
		if got := time.Until(end).Hours() / 10; math.Abs(got-part) > 0.01 {
			t.Errorf("household %d has %g of the time, want %g", h+1, got, part)
		}
		stop()
		cancel()
	}
	if err := inTime(fmt.Errorf("late: %w", context.DeadlineExceeded)); !errors.Is(err, ration.ErrNoPlan) {
		t.Error(err)
	}
	other := errors.New("another")
	if inTime(other) != other || inTime(nil) != nil {
		t.Error("what is no end of the time is changed")
	}
}

// TestLevelOfNeeds: every need that may be missed hangs on the level, with its floor; water,
// orders and what is no need do not, and no other row is changed.
func TestLevelOfNeeds(t *testing.T) {
	m, err := model.Build(ration.Filled(rationtest.Request(t, rationtest.Adult("Aud", 40, nutrients.Female))))
	if err != nil {
		t.Fatal(err)
	}
	p := newProgram(m)
	byRow := map[int]map[int]float64{} // coefficients
	for j, c := range p.problem.Cols {
		for _, e := range c.Entries {
			if byRow[e.Row] == nil {
				byRow[e.Row] = map[int]float64{}
			}
			byRow[e.Row][j] += e.Value
		}
	}
	hanging, fixed := 0, 0
	for i, info := range m.Rows {
		was, is, at := m.Problem.Rows[i], p.problem.Rows[i], p.byLevel[i]
		need := info.Class == model.Requirement && !info.Ordered && info.Kind != model.RowWater && info.Kind != model.RowFluid && was.Lower > 0 && !math.IsInf(was.Lower, 1)
		if !need {
			fixed++
			if at != -1 || is.Lower != was.Lower || is.Upper != was.Upper {
				t.Errorf("%s from %g to %g, was from %g to %g", was.Name, is.Lower, is.Upper, was.Lower, was.Upper)
			}
			continue
		}
		hanging++
		if at < len(m.Rows) || !math.IsInf(is.Lower, -1) || is.Upper != was.Upper || p.problem.Rows[at].Lower != 0 || !math.IsInf(p.problem.Rows[at].Upper, 1) || math.Abs(byRow[at][p.level]+was.Lower) > 1e-9 {
			t.Errorf("%s does not hang on the level with %g", was.Name, was.Lower)
		}
		for j, v := range byRow[i] {
			if math.Abs(byRow[at][j]-v) > 1e-9*math.Abs(v) {
				t.Errorf("%s: %g of column %d, was %g", was.Name, byRow[at][j], j, v)
			}
		}
	}
	if hanging < 10 || fixed < 10 || p.problem.Cols[p.level].Upper != 1 || p.level != len(m.Cols) {
		t.Errorf("%d needs hang on the level, %d rows stay", hanging, fixed)
	}
	// What a point takes: its money by the columns, its level, and none of a stock that is not.
	x := make([]float64, len(p.problem.Cols))
	want := 0.0
	for n, lf := range m.Larder {
		if n < 3 {
			x[lf.Buy[0].Col] = float64(n + 1)
			want += float64(n+1) * lf.Buy[0].Pack.Price
		}
	}
	x[p.level] = 0.75
	if u := p.pointOf(x); u.level != 0.75 || math.Abs(u.money-want) > 1e-9 || len(u.packs) != 0 || len(u.x) != len(x) {
		t.Errorf("%g at level %g, want %g", u.money, u.level, want)
	}
	if u := p.useOf(x); u.x != nil {
		t.Error("a point of the relaxation is kept")
	}
	costs := p.costs(price{money: 2, level: 5})
	if costs[p.level] != -5 || math.Abs(costs[m.Larder[0].Buy[0].Col]-2*m.Larder[0].Buy[0].Pack.Price) > 1e-9 {
		t.Errorf("level %g, pack %g", costs[p.level], costs[m.Larder[0].Buy[0].Col])
	}
}

// TestJointByHand: two households need 4 of a food times the level, bought at 10 and at 20 or
// taken out of 3 packs of stock: what all together cost, and the level that a budget reaches for.
func TestJointByHand(t *testing.T) {
	programOf := func(cost float64) *program {
		q := &linear.Problem{}
		for range 2 {
			q.AddCol("food", 0, 0, 10, false)
		}
		level := q.AddCol("level", 0, 0, 1, false)
		need := q.AddRow("need", 0, math.Inf(1))
		q.Set(need, 0, 1)
		q.Set(need, 1, 1)
		q.Set(need, level, -4)
		return &program{problem: q, cost: []float64{cost, 0, 0}, lines: []int{-1, 0, -1}, level: level}
	}
	programs := []*program{programOf(10), programOf(20)}
	one := 1.0
	relaxed := func(p *linear.Problem) float64 {
		s, err := simplex.New(p)
		if err != nil {
			t.Fatal(err)
		}
		r := s.Solve(context.Background(), simplex.Limits{})
		if r.Status != simplex.Optimal {
			t.Fatalf("%s %s", r.Status, r.Why)
		}
		return r.Value
	}
	if got := relaxed(joint(programs, []float64{3}, math.Inf(1), &one)); math.Abs(got-60) > 1e-6 { // all of the stock for the dear one: 4 of the first's, 1 of the second's
		t.Errorf("level 1 costs %g, want 60", got)
	}
	// Of 8·level food 3 are there: 4·level of the cheap and 4·level − 3 of the dear one are 120·level − 60.
	if got := relaxed(joint(programs, []float64{3}, 48, nil)); math.Abs(got+0.9) > 1e-6 {
		t.Errorf("48 reach for %g, want 0.9", -got)
	}
	if got := relaxed(joint(programs, []float64{3}, math.Inf(1), nil)); math.Abs(got+1) > 1e-6 {
		t.Errorf("without a budget level %g, want 1", -got)
	}
	if got := (&group{programs: programs}).columns(); got != 6 {
		t.Errorf("%d columns, want 6", got)
	}
}

// TestDealtInTurn: the first household takes its cheapest point, two of three bags, the second
// what the one bag that is left allows, though two bags would cost less; what each takes comes
// to its points.
func TestDealtInTurn(t *testing.T) {
	for _, c := range []struct {
		bags, level   float64
		first, second float64 // money
	}{{3, 0.9, 10, 25}, {4, 0.9, 10, 12}, {1, 0.9, 30, 25}, {3, 0.95, 10, 40}} {
		dealt := [][]use{
			{{level: 1, money: 30, packs: []float64{0}}, {level: 1, money: 10, packs: []float64{2}}},
			{{level: 0.9, money: 12, packs: []float64{2}}, {level: 0.9, money: 25, packs: []float64{1}}, {level: 1, money: 40, packs: []float64{0}}},
		}
		free := stockFree(1)
		picked := deal(context.Background(), []*program{{}, {}}, []price{free, free}, c.level, []float64{c.bags}, dealt)
		if !slices.Equal(picked, []int{2, 3}) || dealt[0][2].money != c.first || dealt[1][3].money != c.second {
			t.Errorf("%g bags at level %g: %v, %+v", c.bags, c.level, picked, dealt)
		}
	}
}

// TestPickedOutOfAll: of a point of all households together each has its own columns.
func TestPickedOutOfAll(t *testing.T) {
	of := func(cost float64) *program {
		q := &linear.Problem{}
		for range 3 {
			q.AddCol("", 0, 0, 10, false)
		}
		m := &model.Model{Request: &ration.Request{Stock: make([]foods.StockLine, 1)}}
		return &program{model: m, problem: q, cost: []float64{cost, 0, 0}, lines: []int{-1, 0, -1}, level: 2}
	}
	g := &group{programs: []*program{of(10), of(20)}, dealt: [][]use{{{}}, {}}, picked: make([]int, 2)}
	g.pick([]float64{1, 2, 0.5, 3, 4, 0.7})
	if !slices.Equal(g.picked, []int{1, 0}) || len(g.dealt[0]) != 2 || len(g.dealt[1]) != 1 {
		t.Fatalf("%v of %+v", g.picked, g.dealt)
	}
	for h, want := range []use{{level: 0.5, money: 10, packs: []float64{2}, x: []float64{1, 2, 0.5}}, {level: 0.7, money: 60, packs: []float64{4}, x: []float64{3, 4, 0.7}}} {
		u := g.dealt[h][g.picked[h]]
		if u.level != want.level || u.money != want.money || !slices.Equal(u.packs, want.packs) || !slices.Equal(u.x, want.x) {
			t.Errorf("household %d: %+v, want %+v", h+1, u, want)
		}
	}
}

// TestPricesOfDuals: prices of the stock and of money are what the master's rows are worth, never
// under nothing; where money is made least a unit of it costs one more, and where the level is
// made most each household's level is worth its row.
func TestPricesOfDuals(t *testing.T) {
	for _, c := range []struct {
		what   aim
		budget float64
		money  float64 // dual of the budget's row
		want   price
	}{
		{leastCost, 100, -0.5, price{money: 1.5, packs: []float64{3, 0}}}, {leastCost, math.Inf(1), 0, price{money: 1, packs: []float64{3, 0}}},
		{mostLevel, 100, -0.5, price{money: 0.5, level: 0.25, packs: []float64{3, 0}}}, {mostLevel, 100, 0.5, price{money: 0, level: 0.25, packs: []float64{3, 0}}},
	} {
		m, err := newMaster(c.what, 0, []float64{5, 6}, c.budget, []*program{{}, {}}, make([][]use, 2))
		if err != nil {
			t.Fatal(err)
		}
		dual := make([]float64, 20)
		dual[m.line[0]], dual[m.line[1]] = -3, 2 // the second is worth nothing
		if m.money >= 0 {
			dual[m.money] = c.money
		}
		if c.what == mostLevel {
			dual[m.worst[1]], dual[m.worst[0]] = 0.25, -1
		}
		got := m.prices(dual, 1)
		if got.money != c.want.money || got.level != c.want.level || !slices.Equal(got.packs, c.want.packs) {
			t.Errorf("%+v: %+v, want %+v", c, got, c.want)
		}
		if all := m.pricesAt(dual); len(all) != 2 || all[0].level != 0 || all[1].level != c.want.level {
			t.Errorf("%+v", all)
		}
	}
}

// TestNobodyToShareWith: a household of nobody but who is fed by a clinician's plan shares nothing,
// and that is said; where the time is up before it begins that is the error.
func TestNobodyToShareWith(t *testing.T) {
	nils := rationtest.Adult("Nils", 50, nutrients.Male)
	nils.Conditions = []nutrients.Condition{nutrients.TubeFeeding}
	if p, uses, err := begin(context.Background(), rationtest.Basics(t, nils), false); err == nil || !rationtest.ContainsText(err.Error(), "clinician") || p != nil || uses != nil {
		t.Errorf("%v", err)
	}
	s, err := Make(context.Background(), &Request{Households: []*ration.Request{rationtest.Basics(t, nils)}})
	if err != nil || len(s.Apart) != 1 || s.Apart[0] == nil || len(s.Plans) != 1 || s.Plans[0] != nil {
		t.Errorf("%+v, %v", s, err)
	}
	ended, stop := context.WithCancel(context.Background())
	stop()
	if _, _, err := begin(ended, rationtest.Basics(t, rationtest.Adult("Ida", 33, nutrients.Female)), false); !errors.Is(err, context.Canceled) {
		t.Errorf("%v, want that the time is up", err)
	}
}
