package recheck

import (
	"testing"

	"rationwright/nutrients"
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
