package recheck

import (
	"strings"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/answer"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestPrintedToItsDigits: a printed amount may differ from what follows by a millionth of
// it, and of less than one by a millionth; what is further off is found, on either side.
func TestPrintedToItsDigits(t *testing.T) {
	for _, c := range []struct {
		have, off float64
		found     bool
	}{
		{200, 0, false}, {200, 1.9e-4, false}, {200, -1.9e-4, false}, {200, 2.1e-4, true}, {200, -2.1e-4, true},
		{0.5, 0.9e-6, false}, {0.5, -0.9e-6, false}, {0.5, 1.1e-6, true}, {0.5, -1.1e-6, true}, {0, 0.9e-6, false}, {0, 1.1e-6, true},
	} {
		have := c.have
		req := rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female))
		req.People, req.StockWaterL = nil, &have
		p := &ration.Plan{Totals: &ration.Totals{WaterL: 300, OwnWaterL: c.have + c.off}}
		if found := printedFindings(req, p); (len(found) > 0) != c.found {
			t.Errorf("%g L on hand, printed %g more: %v, want a finding %v", c.have, c.off, found, c.found)
		}
	}
}

// TestFewerPeopleAreAFinding: a plan read back with fewer people than its request, or none,
// is gone through to its end: what is there is held, and nothing breaks off.
func TestFewerPeopleAreAFinding(t *testing.T) {
	req := rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Odd", 40, nutrients.Male))
	m, err := model.Build(req)
	if err != nil {
		t.Fatal(err)
	}
	for n := range 3 {
		p := answer.EmptyPlan(m)
		p.Totals = &ration.Totals{}
		for _, e := range m.Eaters[:n] {
			p.People = append(p.People, ration.PlanPerson{Name: e.Person.Name, Count: 1})
		}
		found := map[string]bool{}
		for _, line := range rewrittenFindings(req, p) {
			for _, e := range m.Eaters {
				if strings.HasPrefix(line, e.Person.Name+": needs are 0") {
					found[e.Person.Name] = true
				}
			}
		}
		if len(found) != n { // whose needs are missing is found of each who is there
			t.Errorf("%d people of two: findings of %d", n, len(found))
		}
	}
}
