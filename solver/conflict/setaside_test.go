package conflict

import (
	"context"
	"strings"
	"testing"

	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestOneOrderSetsAside: a single order that no food keeps beside the energy that is needed
// leaves that person out, by name of the order and of who gave it; one that can be kept
// does not, nor does an order leave out anybody else. The 130 g of carbohydrate that are
// needed (IOM 2005, RDA) are 520 kcal, more than 400.
func TestOneOrderSetsAside(t *testing.T) {
	for order, aside := range map[string]bool{"sodium at most 2000 mg": false, "energy at most 400 kcal": true} {
		text := "name,age_years,sex,weight_kg,orders\nAud,60,f,70,\"" + order + "; by Dr Ardal, 2026-06-01\"\nSigne,30,f,60,\n"
		people, _, err := nutrients.ReadHousehold("home.csv", strings.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		req := ration.Filled(rationtest.Request(t, people...))
		got, err := SetAside(context.Background(), req)
		if err != nil {
			t.Fatal(err)
		}
		why := got.People[0].Unplanned
		if (why != nil) != aside || got.People[1].Unplanned != nil {
			t.Errorf("%s: set aside %v, want %v", order, why, aside)
		}
		if why != nil && (!strings.Contains(why.Reason, "energy at most 400 kcal a day; against carbohydrate") || !strings.Contains(why.Reason, "Dr Ardal")) {
			t.Errorf("%s: the reason is %q", order, why.Reason)
		}
		if req.People[0].Unplanned != nil {
			t.Error("the request itself is changed")
		}
	}
}

// TestOrdersAreJudgedByAllFood: orders that food can keep leave nobody out where money, room,
// packs or the stock are short, nor by a planning rule or the others: of what is short the plan
// itself tells. Orders that no food keeps do, whatever is short: see
// [TestOneOrderSetsAside] for the 400 kcal.
func TestOrdersAreJudgedByAllFood(t *testing.T) {
	nothing := 0.0
	for name, short := range map[string]func(*ration.Request){
		"nothing is short":  func(*ration.Request) {},
		"of an empty stock": func(r *ration.Request) { r.StockOnly = true },
		"of a little stock": func(r *ration.Request) {
			r.StockOnly, r.Stock = true, rationtest.StockOf(t, r.Table, "white-rice-907g-bag,1,,,,").Lines
		},
		"without money":             func(r *ration.Request) { r.Limits.Budget = &nothing },
		"without room":              func(r *ration.Request) { r.Limits.VolumeL, r.Limits.WeightKg = &nothing, &nothing },
		"without water and heat":    func(r *ration.Request) { r.Limits.WaterL, r.Limits.HeatMJ = &nothing, &nothing },
		"by the usual allowance":    func(r *ration.Request) { r.Allowance = true },
		"of packs that are to stay": func(r *ration.Request) { r.Keep = map[string]int{"white-rice-907g-bag": 900} },
	} {
		for order, aside := range map[string]bool{"energy 1800-2000 kcal; protein at least 55 g": false, "energy at most 400 kcal": true} {
			text := "name,age_years,sex,weight_kg,orders\nAud,60,f,70,\"" + order + "; by Dr Ardal, 2026-06-01\"\nSigne,30,f,60,\n"
			people, _, err := nutrients.ReadHousehold("home.csv", strings.NewReader(text))
			if err != nil {
				t.Fatal(err)
			}
			req := rationtest.Request(t, people...)
			short(req)
			got, err := SetAside(context.Background(), ration.Filled(req))
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			if why := got.People[0].Unplanned; (why != nil) != aside || got.People[1].Unplanned != nil {
				t.Errorf("%s, %s: set aside %+v, want %v", name, order, why, aside)
			}
		}
	}
}
