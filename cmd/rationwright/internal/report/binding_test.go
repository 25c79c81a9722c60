package report

import (
	"fmt"
	"strings"
	"testing"

	"rationwright/solver/ration"
)

// Where a row stands for several people, the table says that prices are of one.
func TestPricesOfSeveralAlikePeople(t *testing.T) {
	for heads, want := range map[int]bool{1: false, 2: true} {
		p := &ration.Plan{
			Least: ration.LeastWeight, People: []ration.PlanPerson{{Name: "Maja", Count: heads}},
			Prices: []ration.Price{{Limit: "energy at least", Person: "Maja", Unit: "kcal", Marginal: 0.002}},
		}
		if got := strings.Contains(strings.Join(binding(p).Notes, " "), "the price is that of one of them"); got != want {
			t.Errorf("a row of %d: said %v, want %v", heads, got, want)
		}
	}
}

func TestMarginal(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{marginal(0.00012345), "0.00012"},
		{marginal(98765), "99,000"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

// A warning that may cost a life says STOP first, whom it is about and its source.
func TestStopIsSaid(t *testing.T) {
	p := &ration.Plan{
		People: []ration.PlanPerson{{Name: "Maja", Count: 1}},
		Cautions: []ration.Caution{
			{ID: "A", Severity: "stop", Text: "Do not taste it.", Source: "USDA FSIS"},
			{ID: "B", Severity: "warn", Text: "Keep it dry.", Source: "USDA FSIS"},
		},
	}
	lead := cautions(p).Lead
	if len(lead) != 2 || !strings.Contains(lead[0], "STOP. Do not taste it") || strings.Contains(lead[1], "STOP") {
		t.Errorf("the cautions read %q", lead)
	}
}

// Everyone is short where nobody is not; the worst off stands for a need.
func TestWhoIsShort(t *testing.T) {
	short := func(name string, amount float64) ration.Shortfall {
		return ration.Shortfall{Person: name, Nutrient: "iron", Unit: "mg", Amount: amount, Target: 10}
	}
	both := []ration.Shortfall{short("Maja", 8), short("Odd", 5)}
	if got := whoIsShort(both, 3); got != "Maja, Odd" {
		t.Errorf("two of three are short: %q", got)
	}
	if got := whoIsShort(both, 2); got != "all 2" {
		t.Errorf("two of two are short: %q", got)
	}
	rows := shortGrid(both, 3).Rows()
	if len(rows) != 1 || !strings.Contains(strings.Join(rows[0], "|"), "Odd|5") {
		t.Errorf("the worst off of %v: %q", both, rows)
	}
}

// TestDearestLimits: twelve limits are listed, the others counted; a price has its sign and
// two digits, in the unit of the least for one of the limit.
func TestDearestLimits(t *testing.T) {
	p := &ration.Plan{Least: ration.LeastWeight}
	for i := range 12 {
		p.Prices = append(p.Prices, ration.Price{Limit: fmt.Sprint("limit ", i), Person: "Maja", Unit: "g a day", Marginal: -0.0123})
	}
	sec := binding(p)
	if rows := barred(sec.Table); len(rows) != 12 || rows[0] != "limit 0|Maja|-0.012|kg per g a day" || len(sec.Notes) != 1 {
		t.Errorf("%q, %q", rows, sec.Notes)
	}
	p.Prices = append(p.Prices, p.Prices[0])
	sec = binding(p)
	if len(sec.Table.Rows()) != 12 || len(sec.Notes) != 2 || !strings.HasPrefix(sec.Notes[1], "1 limit binds more:") {
		t.Errorf("%d rows, %q", len(sec.Table.Rows()), sec.Notes)
	}
	for v, want := range map[float64]string{0: "0", 1: "1.0", 0.994: "0.99", 10: "10", 9.94: "9.9", 99.6: "100", 12345: "12,000", -1.26: "-1.3", 3e-8: "0.00000003"} {
		if got := marginal(v); got != want {
			t.Errorf("%g: %q, want %q", v, got, want)
		}
	}
}
