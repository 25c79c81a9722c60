package model_test

import (
	"math"
	"strings"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/rationtest"
)

// TestOrdersAreRowsOfTheirOwn: what a clinician ordered is held by rows that say so, in the
// amounts of the order over 14 days. The most of each thing is a limit of safety, which
// neither the ration that comes closest nor a way out passes; the least is a need. The same
// amounts by the household's own rules are no safety limits.
func TestOrdersAreRowsOfTheirOwn(t *testing.T) {
	const days = 14
	people, _, err := nutrients.ReadHousehold("home.csv", strings.NewReader(`name,age_years,sex,weight_kg,conditions,orders
Aud,60,f,70,kidney-disease,"protein 55-60 g; sodium at most 1800 mg; potassium at most 2500 mg; phosphorus at most 900 mg; fluid at most 1.3 L; energy 1800-2000 kcal; texture soft; by Dr Ardal, 2026-06-01"
Odd,60,m,80,diabetes-1,"carbohydrate 45-60 g per meal; sodium at least 1000 mg; fluid at least 1.5 L; by Dr Ardal, 2026-06-01"
Siri,40,f,60,,
`))
	if err != nil {
		t.Fatal(err)
	}
	m, err := model.Build(rationtest.Basics(t, people...))
	if err != nil {
		t.Fatal(err)
	}
	no := math.Inf(1)
	want := map[string][2]float64{ // a day
		"ordered-protein[Aud]": {55, no}, "ordered-protein-at-most[Aud]": {-no, 60}, "ordered-sodium-at-most[Aud]": {-no, 1800},
		"ordered-potassium-at-most[Aud]": {-no, 2500}, "ordered-phosphorus-at-most[Aud]": {-no, 900}, "ordered-fluid-at-most[Aud]": {-no, 1.3},
		"ordered-energy[Aud]": {1800, no}, "ordered-energy-at-most[Aud]": {-no, 2000},
		"ordered-sodium[Odd]": {1000, no}, "ordered-fluid[Odd]": {1.5, no},
		"ordered-carbohydrate[Odd]": {3*45 + 2*15, no}, "ordered-carbohydrate-at-most[Odd]": {-no, 3*60 + 2*15}, // three meals and two snacks of 15 g
	}
	seen := 0
	for i, info := range m.Rows {
		row := m.Problem.Rows[i]
		w, ordered := want[row.Name]
		if ordered != info.Ordered || ordered != strings.HasPrefix(row.Name, "ordered-") {
			t.Errorf("%s, %g to %g: ordered %v, want %v", row.Name, row.Lower, row.Upper, info.Ordered, ordered)
			continue
		}
		if !ordered {
			if info.Kind == model.RowFluid && info.Class != model.Requirement {
				t.Errorf("%s is of class %v", row.Name, info.Class)
			}
			continue
		}
		seen++
		if math.Abs(row.Lower-days*w[0]) > 1e-9 || math.Abs(row.Upper-days*w[1]) > 1e-9 {
			t.Errorf("%s: %g to %g in 14 days, want %g to %g a day", row.Name, row.Lower, row.Upper, w[0], w[1])
		}
		if safety := !math.IsInf(w[1], 1); (info.Class == model.Safety) != safety || !safety && info.Class != model.Requirement || info.MayPass {
			t.Errorf("%s: class %v, may be passed %v; a limit of safety: %v", row.Name, info.Class, info.MayPass, safety)
		}
	}
	if seen != len(want) {
		t.Errorf("%d rows of orders, want %d", seen, len(want))
	}
}
