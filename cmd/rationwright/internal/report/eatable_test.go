package report

import (
	"strings"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/ration"
)

// TestTabletThatSpares: where rules give for somebody, the tablet is named of what the
// ration just reaches; not one of what there is plenty, nor one for whom no rule gives.
func TestTabletThatSpares(t *testing.T) {
	floor := func(v float64) *float64 { return &v }
	asked := []nutrients.Tablet{{Name: "vitamin D 10 ug", Nutrient: "vitamin_d"}, {Name: "vitamin B12 10 ug", Nutrient: "vitamin_b12"}, {Name: "iodine 150 ug", Nutrient: "iodine_ug"}}
	person := func(name string, d, b12 float64) ration.PlanPerson {
		return ration.PlanPerson{Name: name, AskAbout: asked, Needs: []ration.PersonNeed{
			{Nutrient: "vitamin_d", Amount: d, Floor: floor(15)}, {Nutrient: "vitamin_b12", Amount: b12, Floor: floor(2.4)}}}
	}
	gave := []ration.Loosened{{Person: "Solveig", Kind: "plant drinks", Unit: "g", Amount: 1010, Limit: 500}}
	for _, c := range []struct {
		name  string
		d     float64
		b12   float64
		gave  []ration.Loosened
		named []string
	}{
		{"vitamin D is scarce", 15, 4, gave, []string{"vitamin D"}},
		{"both are scarce", 15, 2.4, gave, []string{"vitamin D", "vitamin B12"}},
		{"none is scarce", 20, 4, gave, nil},
		{"no rule gives", 15, 2.4, nil, nil},
		{"a rule gives for another", 15, 2.4, []ration.Loosened{{Person: "Ola", Kind: "rice", Unit: "g", Amount: 300, Limit: 200}}, nil},
	} {
		p := &ration.Plan{Eatable: &ration.Eatable{Loosened: c.gave}, People: []ration.PlanPerson{person("Solveig", c.d, c.b12), {Name: "Ola"}}}
		var said string
		for _, line := range Loosened(p) {
			if strings.HasPrefix(line, "A tablet may spare this: ") {
				said += line
			}
		}
		for _, name := range []string{"vitamin D", "vitamin B12", "iodine", "Solveig"} {
			want := name == "Solveig" && len(c.named) > 0
			for _, n := range c.named {
				want = want || n == name
			}
			if got := strings.Contains(said, name); got != want {
				t.Errorf("%s: %q, names %s: %v, want %v", c.name, said, name, got, want)
			}
		}
	}
}
