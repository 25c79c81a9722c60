package plan

import (
	"reflect"
	"slices"
	"testing"
	"time"

	"rationwright/nutrients"
	"rationwright/solver/model"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestModelStays: whatever a plan comes to, the model that it was made of is the one
// that was built: what gives way, or is tried, is a variant of it.
func TestModelStays(t *testing.T) {
	for _, c := range []struct {
		name   string
		needs  nutrients.Standard
		budget float64 // of what the cheapest plan costs; 0 none
		status string  // "" any
		short  bool
	}{
		{"it fits", nutrients.StandardBasic, 0, "", false},
		{"the limit is on what is made least", nutrients.StandardBasic, 1.01, "", false},
		{"nothing fits", nutrients.StandardBasic, 0.3, ration.StatusInfeasible, false},
		{"vitamins give way", nutrients.StandardRDA, 0, "", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			person := rationtest.Adult("Leif", 87, nutrients.Male)
			person.Conditions = []nutrients.Condition{nutrients.Vegan, nutrients.LowSodium} // no shop has the vitamin D
			req := &ration.Request{
				People: []nutrients.Person{person}, Table: rationtest.Table(t),
				Standard: c.needs, Start: "2026-11-25", Time: time.Second, Terse: true, IgnoreEatable: true,
			}
			if c.budget > 0 {
				cheapest, err := Make(t.Context(), req, nil)
				if err != nil {
					t.Fatal(err)
				}
				budget := c.budget * *cheapest.Value
				req.Limits.Budget = &budget
			}
			m, err := model.Build(req)
			if err != nil {
				t.Fatal(err)
			}
			rows, program := slices.Clone(m.Rows), m.Problem.Clone()
			p, err := MakeModel(t.Context(), m, nil)
			if err != nil {
				t.Fatal(err)
			}
			if c.status != "" && p.Status != c.status || c.short != (len(p.Shortfalls) > 0) {
				t.Errorf("%s, %d short: the test shows nothing", p.Status, len(p.Shortfalls))
			}
			if !reflect.DeepEqual(rows, m.Rows) || !reflect.DeepEqual(program, m.Problem) {
				t.Error("the model has changed")
			}
		})
	}
}
