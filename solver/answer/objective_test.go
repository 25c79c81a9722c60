package answer_test

import (
	"context"
	"math"
	"strings"
	"testing"

	"rationwright/solver/answer"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/search"
	"rationwright/solver/simplex"
)

// What the program makes least is what the plan adds up from its packs, its water
// and its heat: stock costs nothing, and weighs and fills all the same.
func TestObjectiveIsTheTotal(t *testing.T) {
	for _, c := range asked {
		if c.name != "stock" && c.name != "diabetes" {
			continue
		}
		for _, least := range []ration.Least{ration.LeastCost, ration.LeastWeight, ration.LeastVolume} {
			req := c.make(t)
			req.Least = least
			m, err := model.Build(req)
			if err != nil {
				t.Fatal(err)
			}
			lp, err := search.Relax(m.Problem)
			if err != nil {
				t.Fatal(err)
			}
			r := lp.Solve(context.Background())
			if r.Status != simplex.Optimal {
				t.Fatalf("%s: %v", c.name, r.Status)
			}
			x := m.PacksUp(r.X[:len(m.Cols)])
			for j, col := range m.Problem.Cols { // with a pack of all that is on hand
				if strings.HasPrefix(col.Name, "stock[") {
					x[j] = math.Min(1, col.Upper)
				}
			}
			x = m.Tightened(x)
			p := answer.Write(m, x)
			if got, want := m.ValueOf(x), p.Totals.Of(least); math.Abs(got-want) > 1e-6*math.Max(1, want) {
				t.Errorf("%s, least %s: the program comes to %g, the plan to %g", c.name, least, got, want)
			}
		}
	}
}
