package swap

import (
	"maps"
	"slices"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestChangeAsRequest: what a change asks for stands in the new request for whom it is
// asked, and for nobody else: two people eat 700 g and 280 g of rice in 14 days, so that
// half of it is 25 and 10 g a day; what stays keeps the packs that were bought.
func TestChangeAsRequest(t *testing.T) {
	table := rationtest.SmallTable(t, rationtest.SmallShop...)
	rice, err := table.Food("white-rice-907g-bag")
	if err != nil {
		t.Fatal(err)
	}
	oil, err := table.Food("sunflower-oil-0.5l-bottle")
	if err != nil {
		t.Fatal(err)
	}
	people := []nutrients.Person{rationtest.Adult("Signe", 30, nutrients.Female), rationtest.Adult("Arvid", 40, nutrients.Male)}
	plan := &ration.Plan{Days: 14, Packs: []ration.PlanPack{{Pack: "sunflower-oil-1l-bottle", Food: oil.Name, Count: 3, FromStock: 1}}, People: []ration.PlanPerson{
		{Name: "Signe", Count: 1, Foods: []ration.PersonFood{{Food: rice.Name, Grams: 700}}}, {Name: "Arvid", Count: 1, Foods: []ration.PersonFood{{Food: rice.Name, Grams: 280}}}}}
	for _, c := range []struct {
		name    string
		change  SwapRequest
		rules   [2]string // of each
		without []string
		kept    map[string]int
	}{
		{"less for all", SwapRequest{Reduce: map[string]float64{rice.Name: 0.5}}, [2]string{"most " + rice.Name + " 25 g/day", "most " + rice.Name + " 10 g/day"}, nil, nil},
		{"less for one", SwapRequest{Reduce: map[string]float64{rice.Name: 0.5}, For: "Arvid"}, [2]string{"", "most " + rice.Name + " 10 g/day"}, nil, nil},
		{"none for all", SwapRequest{Drop: []string{rice.Name}}, [2]string{}, []string{rice.Name}, nil},
		{"none for one", SwapRequest{Drop: []string{rice.Name}, For: "Signe"}, [2]string{"no " + rice.Name, ""}, nil, nil},
		{"oil stays", SwapRequest{Drop: []string{rice.Name}, Keep: []string{oil.Name}}, [2]string{}, []string{rice.Name}, map[string]int{"sunflower-oil-1l-bottle": 2}},
	} {
		old := &ration.Request{People: people, Table: table, Days: 14}
		req, touched, err := c.change.apply(old, plan)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		for i, want := range c.rules {
			got := ""
			for _, r := range req.People[i].Rules {
				got += r.Text
			}
			if got != want {
				t.Errorf("%s: the rules of %s are %q, want %q", c.name, req.People[i].Name, got, want)
			}
			if len(old.People[i].Rules) > 0 {
				t.Errorf("%s: the old request is changed", c.name)
			}
		}
		maps.DeleteFunc(req.Keep, func(_ string, n int) bool { return n == 0 })
		if !slices.Equal(req.Without, c.without) || !maps.Equal(req.Keep, c.kept) || !touched[rice] || touched[oil] {
			t.Errorf("%s: without %q, keeps %v, about %v, want %q, %v and rice", c.name, req.Without, req.Keep, touched, c.without, c.kept)
		}
	}
}
