package report

import (
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
