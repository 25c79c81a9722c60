package recheck

import (
	"strings"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestPlanOfAnotherRequest: a plan that says another aim, horizon, standard, status or other
// people than its request, one thing at a time, is not gone on with; as it is, it is.
func TestPlanOfAnotherRequest(t *testing.T) {
	ill := rationtest.Adult("Arne", 50, nutrients.Male)
	ill.Conditions = []nutrients.Condition{nutrients.KidneyDisease} // refused without orders
	two := rationtest.Adult("Odd", 40, nutrients.Male)
	two.Count = 2
	req := ration.Filled(rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female), ill, two))
	value := 1.0
	for name, c := range map[string]struct {
		change func(*ration.Plan)
		want   string
	}{
		"as it is":               {func(*ration.Plan) {}, ""},
		"a limit was reached":    {func(p *ration.Plan) { p.Status = ration.StatusLimit }, ""},
		"nothing fits":           {func(p *ration.Plan) { p.Status = ration.StatusInfeasible }, "status"},
		"no totals":              {func(p *ration.Plan) { p.Totals = nil }, "no totals"},
		"no value":               {func(p *ration.Plan) { p.Value = nil }, "no value"},
		"another aim":            {func(p *ration.Plan) { p.Least = ration.LeastVolume }, "least volume"},
		"a day more":             {func(p *ration.Plan) { p.Days++ }, "15 days"},
		"a day fewer":            {func(p *ration.Plan) { p.Days-- }, "13 days"},
		"another standard":       {func(p *ration.Plan) { p.Standard = "ear" }, "standard ear"},
		"one person fewer":       {func(p *ration.Plan) { p.People = p.People[:1] }, "feeds Signe;"},
		"another person":         {func(p *ration.Plan) { p.People[0].Name = "Siv" }, "feeds Siv,"},
		"of two alike one":       {func(p *ration.Plan) { p.People[1].Count = 1 }, "feeds Signe, Odd;"},
		"another is left out":    {func(p *ration.Plan) { p.Refused[0].Name = "Siv" }, "leaves out Siv"},
		"nobody is left out":     {func(p *ration.Plan) { p.Refused = nil }, "leaves out nobody"},
		"one more is left out":   {func(p *ration.Plan) { p.Refused = append(p.Refused, ration.Refused{Name: "Odd"}) }, "leaves out Arne, Odd"},
		"who is left out is fed": {func(p *ration.Plan) { p.People = append(p.People, ration.PlanPerson{Name: "Arne", Count: 1}) }, "Arne; its request"},
	} {
		p := &ration.Plan{
			Status: ration.StatusOptimal, Least: req.Least, Days: 14, Standard: string(req.Standard), Totals: &ration.Totals{}, Value: &value,
			People:  []ration.PlanPerson{{Name: "Signe", Count: 1}, {Name: "Odd", Count: 2}},
			Refused: []ration.Refused{{Name: "Arne"}},
		}
		c.change(p)
		found := headFindings(req, p)
		if text := strings.Join(found, "; "); (c.want == "") != (len(found) == 0) || !strings.Contains(text, c.want) || len(found) > 1 {
			t.Errorf("%s: %q, want one finding with %q", name, text, c.want)
		}
	}
}
