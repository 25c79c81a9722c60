package swap

import (
	"context"
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
	"rationwright/solver/simplex"
	"rationwright/solver/verify"
)

// What could replace a food is ranked as trying each food by itself ranks it,
// and every replacement that is called balanced makes a plan that passes the
// check.
func TestReplacementsAgainstTryingEachFood(t *testing.T) {
	made, err := plantest.OnePlan()
	if err != nil {
		t.Fatal(err)
	}
	req := rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female))
	heaviest := made.People[0].Foods[0]
	for _, f := range made.People[0].Foods {
		if f.Grams > heaviest.Grams {
			heaviest = f
		}
	}
	out, err := ReplacementsFor(context.Background(), req, made, heaviest.Food, "")
	if err != nil {
		t.Fatal(err)
	}
	if out.Needless || len(out.Short) == 0 || len(out.Replacements) == 0 {
		t.Fatalf("without %s: needless %v, short of %v, %d replacements", heaviest.Food, out.Needless, out.Short, len(out.Replacements))
	}
	balanced := 0
	for k, a := range out.Replacements {
		if a.Balanced {
			balanced++
		}
		if k > 0 && a.Balanced && !out.Replacements[k-1].Balanced {
			t.Errorf("%s keeps the balance, but %s before it does not", a.Food, out.Replacements[k-1].Food)
		}
		if a.Food == heaviest.Food {
			t.Errorf("%s replaces itself", a.Food)
		}
		CheckReplacement(t, req, made, heaviest.Food, a)
	}
	t.Logf("without %s: %d looked at, %d shown, %d balanced, first %s", heaviest.Food, out.Considered, len(out.Replacements), balanced, out.Replacements[0].Food)

	// Every food tried by itself, in parts of packs: none that is not shown is
	// better than the best shown.
	change := SwapRequest{Drop: []string{heaviest.Food}}
	changed, gone, err := change.apply(req, made)
	if err != nil {
		t.Fatal(err)
	}
	m, err := model.Build(changed)
	if err != nil {
		t.Fatal(err)
	}
	w := &replaceSearch{model: m, plan: made, gone: gone}
	if err := w.start(context.Background()); err != nil {
		t.Fatal(err)
	}
	needs := w.soft.Costs(func(model.RowInfo) bool { return true }) // of a whole need 1
	best, name := math.Inf(1), ""
	type alone struct {
		food              string
		value, own, short float64
	}
	var tried []alone
	for li, lf := range m.Larder {
		if gone[lf.Food] || len(lf.Buy) == 0 {
			continue
		}
		result := w.with(context.Background(), li)
		if result.Status == simplex.Optimal && result.Value < best {
			best, name = result.Value, lf.Food.Name
		}
		if result.Status == simplex.Optimal {
			a := alone{food: lf.Food.Name, value: result.Value, own: m.ValueOf(result.X[:len(m.Cols)])}
			for k, col := range w.soft.Cols {
				a.short += needs[k] * result.X[col]
			}
			tried = append(tried, a)
		}
	}
	found := false
	for _, a := range out.Replacements {
		found = found || a.Food == name
	}
	if !found {
		t.Errorf("%s is the best by itself (%g) and is not shown", name, best)
	}

	// A balanced ration comes before a cheap one: what leaves nothing short goes before
	// what leaves a tenth of a need, unless it costs as much more as the whole plan.
	pairs := 0
	for _, a := range tried {
		for _, b := range tried {
			if a.short < 1e-6 && b.short > 0.1 && a.own < b.own+*made.Value {
				if pairs++; a.value >= b.value {
					t.Errorf("%s keeps the balance and ranks behind %s, which leaves %.2f of a need", a.food, b.food, b.short)
				}
			}
		}
	}
	if pairs < 10 {
		t.Errorf("only %d pairs of a balanced food and one that is not were compared", pairs)
	}
}

// CheckReplacement puts a replacement into the plan and holds the result to the
// independent check, but for what it says it leaves short.
func CheckReplacement(t *testing.T, req *ration.Request, plan *ration.Plan, food string, a Replacement) {
	t.Helper()
	changed, _, err := SwapRequest{Drop: []string{food}}.apply(req, plan)
	if err != nil {
		t.Fatal(err)
	}
	m, err := model.Build(changed)
	if err != nil {
		t.Fatal(err)
	}
	p := answer.Write(m, a.x[:len(m.Cols)])
	p.Shortfalls = a.Short
	for _, v := range verify.Check(changed, p) {
		t.Errorf("%s for %s: %v", a.Food, food, v)
	}
	is, was := p.Bought(), plan.Bought()
	added := map[string]int{}
	for _, c := range a.Packs {
		added[c.Pack] = c.Count
	}
	for _, line := range plan.Packs {
		if line.Food != food && is[line.Pack] != was[line.Pack]+added[line.Pack] {
			t.Errorf("%s for %s: %d packs of %s, want %d", a.Food, food, is[line.Pack], line.Pack, was[line.Pack]+added[line.Pack])
		}
	}
	if got := p.Totals.Cost - plan.Totals.Cost; math.Abs(got-a.CostChange) > 1e-9 {
		t.Errorf("%s for %s: cost change %g printed, %g found", a.Food, food, a.CostChange, got)
	}
}

// TestReplacedInSpiteOfARule: a person's rule that asks for more of a kind than is left
// without a food does not end the question of what could stand in: it counts as missing,
// and another food of the kind meets it.
func TestReplacedInSpiteOfARule(t *testing.T) {
	signe := rationtest.Adult("Signe", 30, nutrients.Female)
	signe.Rules = []nutrients.Rule{{Kind: nutrients.RuleLeast, Food: "rice", Low: 60}}
	req := &ration.Request{
		People: []nutrients.Person{signe}, Table: rationtest.SmallTable(t, rationtest.SmallShop...), IgnoreEatable: true, Standard: nutrients.StandardBasic, Days: 5,
		Start: "2026-11-25", Time: time.Minute, Within: 0.05,
	}
	plan := plantest.MustMake(t, req)
	rice, err := req.Table.Pack("white-rice-907g-bag")
	if err != nil {
		t.Fatal(err)
	}
	req.Table = rationtest.SmallTable(t, append([]string{"instant-rice-397g-box"}, rationtest.SmallShop...)...)
	out, err := ReplacementsFor(t.Context(), req, plan, rice.Food.Name, "")
	if err != nil {
		t.Fatal(err)
	}
	if out.Needless || len(out.Replacements) == 0 {
		t.Fatalf("without rice: %+v", out)
	}
	if first := out.Replacements[0].Food; !strings.Contains(first, "instant white rice") {
		t.Errorf("%s stands in for rice, want another rice: %+v", first, out.Replacements)
	}
}

// TestNobodyElsesShareStandsIn: what one of two is to go without, the other still eats, and more
// of it is no replacement: of the ten foods of the shop nine are left to look at.
func TestNobodyElsesShareStandsIn(t *testing.T) {
	plan, req := smallPlan(t, ration.LeastCost, rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Arvid", 40, nutrients.Male))
	for _, pack := range []string{"white-rice-907g-bag", "peanut-butter-454g-jar"} {
		food := ration.FindPack(req, pack).Food
		out, err := ReplacementsFor(t.Context(), req, plan, food.Name, "Signe")
		if err != nil {
			t.Fatal(err)
		}
		if out.Needless || len(out.Replacements) == 0 || out.Considered > len(rationtest.SmallShop)-1 {
			t.Errorf("without %s for Signe: needless %v, %d of %d foods looked at, %d shown", food.Name, out.Needless, out.Considered, len(rationtest.SmallShop)-1, len(out.Replacements))
		}
		for _, a := range out.Replacements {
			if a.Food == food.Name {
				t.Errorf("%s replaces itself", a.Food)
			}
		}
	}
}
