package referee_test

import (
	"math"
	"strings"
	"testing"

	"rationwright/solver/linear"
	"rationwright/solver/referee"
)

// The minimum-cost subsistence diet: G. J. Stigler, "The Cost of Subsistence",
// Journal of Farm Economics 27 (1945): 77 foods at prices of August 1939, nine
// nutrients, dollars a day. Its exact optimum is known as 39.66 dollars a year
// (five foods). All figures stand in testdata/stigler: optimum.csv, duals.csv
// and reduced_costs.csv are the expected ones.

// perDollar ends the names of the columns of foods.csv that hold contents.
const perDollar = "_per_dollar"

func subsistence(t testing.TB) *linear.Problem {
	t.Helper()
	p := &linear.Problem{Name: "subsistence diet"}
	needs := readTable(t, "stigler", "requirements.csv")
	for _, n := range needs {
		p.AddRow(n["nutrient"], number(t, n["daily_minimum"]), linear.Inf)
	}
	for _, f := range readTable(t, "stigler", "foods.csv") {
		j := p.AddCol(f["food"], 1, 0, linear.Inf, false)
		for i, n := range needs {
			p.Set(i, j, number(t, f[n["nutrient"]+perDollar]))
		}
	}
	if len(p.Rows) != 9 || len(p.Cols) != 77 {
		t.Fatalf("%d nutrients and %d foods, want 9 and 77", len(p.Rows), len(p.Cols))
	}
	return p
}

// solution is what is compared, whoever found it.
type solution struct {
	value            float64
	x, dual, reduced []float64
}

func TestSubsistenceDiet(t *testing.T) {
	p := subsistence(t)
	lp := solveLP(t, p)
	op := opinion(t, p)
	if !op.Proven || !op.HasDual {
		t.Fatalf("the referee says %v", op)
	}
	for name, s := range map[string]solution{
		"simplex": {lp.Value, lp.X, lp.Dual, lp.Reduced},
		"referee": {op.Value, op.X, op.Dual, op.Reduced},
	} {
		t.Run(name, func(t *testing.T) { checkSubsistence(t, p, s) })
	}
}

func checkSubsistence(t *testing.T, p *linear.Problem, s solution) {
	const daysAYear = 365
	if year := s.value * daysAYear; math.Abs(year-39.66) > 0.005 {
		t.Errorf("%.4f dollars a year, want 39.66", year)
	}
	want := map[string]float64{}
	for _, row := range readTable(t, "stigler", "optimum.csv") {
		dollars := number(t, row["dollars_a_day"])
		if row["food"] == "TOTAL" {
			expect(t, "total", s.value, dollars, digit(row["dollars_a_day"]))
			continue
		}
		want[row["food"]] = dollars
	}
	if len(want) != 5 {
		t.Fatalf("%d foods in optimum.csv, want 5", len(want))
	}
	for j, c := range p.Cols {
		expect(t, c.Name, s.x[j], want[c.Name], 1e-10) // as printed
	}
	pt, err := p.Evaluate(s.x)
	if err != nil {
		t.Fatal(err)
	}
	for i, row := range readTable(t, "stigler", "duals.csv") {
		dual := number(t, row["dual_dollars_per_unit"])
		expect(t, "dual of "+p.Rows[i].Name, s.dual[i], dual, digit(row["dual_dollars_per_unit"]))
		expect(t, "supply of "+p.Rows[i].Name, pt.Activity[i], number(t, row["supplied"]), digit(row["supplied"]))
		expect(t, "share of cost of "+p.Rows[i].Name, s.dual[i]*p.Rows[i].Lower/s.value, number(t, row["share_of_cost"]), digit(row["share_of_cost"]))
	}
	for j, row := range readTable(t, "stigler", "reduced_costs.csv") {
		if row["food"] != p.Cols[j].Name {
			t.Fatalf("row %d of reduced_costs.csv is %s, want %s", j, row["food"], p.Cols[j].Name)
		}
		expect(t, "reduced cost of "+row["food"], s.reduced[j], number(t, row["reduced_cost_dollars_per_dollar"]), 1e-9)
	}
}

func expect(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.12g, want %.12g ± %g", what, got, want, tolerance)
	}
}

// Published copies of the table differ in six cells. None of the foods they are
// about is bought, and at the published shadow prices none pays in either copy:
// so both copies have the same optimum, one by one and all together.
func TestSubsistenceVariants(t *testing.T) {
	base := solveLP(t, subsistence(t)).Value
	variants := readTable(t, "stigler", "variants.csv")
	duals := readTable(t, "stigler", "duals.csv")
	all := subsistence(t)
	for _, v := range variants {
		nutrient, isNutrient := strings.CutSuffix(v["column"], perDollar)
		one := subsistence(t)
		j := column(t, one, v["food"])
		if isNutrient {
			for _, p := range []*linear.Problem{one, all} {
				change(t, p, nutrient, j, number(t, v["value_a_used_in_stigler_foods"]), number(t, v["value_b_other_published_copy"]))
			}
		} else if !strings.HasPrefix(v["column"], "price") {
			t.Fatalf("variant of an unknown column %q", v["column"])
		} // contents are per dollar, so a price alone changes nothing
		pays := one.Cols[j].Cost
		for _, e := range one.Cols[j].Entries {
			pays -= e.Value * number(t, duals[e.Row]["dual_dollars_per_unit"])
		}
		if pays <= 0 {
			t.Errorf("%s would be bought: its reduced cost at the published shadow prices is %g", v["food"], pays)
		}
		expect(t, "optimum with the other "+v["food"], solveLP(t, one).Value, base, 1e-12)
	}
	expect(t, "optimum with all", solveLP(t, all).Value, base, 1e-12)
	if op := opinion(t, all); op.Verdict != referee.Optimal || !near(op.Value, base) {
		t.Errorf("with all, the referee says %v", op)
	}
}

// change sets one coefficient from the value it must have now to another.
func change(t testing.TB, p *linear.Problem, row string, j int, from, to float64) {
	t.Helper()
	for k, e := range p.Cols[j].Entries {
		if p.Rows[e.Row].Name == row {
			expect(t, row+" of "+p.Cols[j].Name, e.Value, from, 1e-9)
			p.Cols[j].Entries[k].Value = to
			return
		}
	}
	t.Fatalf("%s has no %s", p.Cols[j].Name, row)
}
