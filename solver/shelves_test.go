package solver

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/plantest"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
	"rationwright/solver/verify"
)

// Plans for shelves of any size stand on them, or say what does not; where
// nothing fits, the shelves are in the conflict.
func TestPlansOnGeneratedShelves(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 11))
	stood, other := 0, 0
	for n := range 5 {
		req := rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female))
		floor := 0.0
		for i := range 2 + rng.IntN(3) {
			s := stores.Shelf{
				Name: fmt.Sprint("board ", i+1), WidthCm: 40 + rng.Float64()*60, DepthCm: 25 + rng.Float64()*25,
				HeightCm: 25 + rng.Float64()*30, LoadKg: 15 + rng.Float64()*60, AboveFloorCm: floor,
			}
			floor += s.HeightCm
			req.Shelves = append(req.Shelves, s)
		}
		p := plantest.MustMake(t, req)
		if p.Totals == nil {
			other++
			if text := fmt.Sprint(p.Conflict); !strings.Contains(text, "shel") {
				t.Errorf("shelves %d: nothing fits and the shelves are not in the conflict: %v", n, p.Conflict)
			}
			continue
		}
		rationtest.StandsOn(t, req, p)
		if p.Shelves.Stands {
			stood++
		} else if other++; len(p.Shelves.Much) == 0 {
			t.Errorf("shelves %d: %v found no place and nothing is said to be too much", n, p.Shelves.Left)
		}
	}
	if stood == 0 || other == 0 {
		t.Errorf("%d plans stand and %d do not: the shelves show only one side", stood, other)
	}
}

// A plan that says that it stands and does not is refused.
func TestVerifyReportsShelves(t *testing.T) {
	req := rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female))
	req.Shelves = []stores.Shelf{{Name: "floor", WidthCm: 150, DepthCm: 60, HeightCm: 60, LoadKg: 400}}
	p := plantest.MustMake(t, req)
	rationtest.StandsOn(t, req, p)
	for _, c := range []struct {
		name  string
		spoil func(*ration.Plan, *ration.Request)
	}{
		{"weaker boards", func(_ *ration.Plan, r *ration.Request) { r.Shelves[0].LoadKg = 30 }},
		{"a smaller board", func(_ *ration.Plan, r *ration.Request) { r.Shelves[0].WidthCm = 45 }},
		{"a lower shelf", func(_ *ration.Plan, r *ration.Request) { r.Shelves[0].HeightCm = 20 }},
		{"a stack moved into another", func(p *ration.Plan, _ *ration.Request) {
			p.Shelves.Stacks[1].X, p.Shelves.Stacks[1].Y = p.Shelves.Stacks[0].X, p.Shelves.Stacks[0].Y
		}},
		{"a stack gone", func(p *ration.Plan, _ *ration.Request) { p.Shelves.Stacks = p.Shelves.Stacks[1:] }},
		{"something left over", func(p *ration.Plan, _ *ration.Request) { p.Shelves.Left = []stores.LeftOver{{Pack: "x", Count: 1}} }},
	} {
		spoilt, other := *p, *req
		fit := *p.Shelves
		fit.Stacks = append([]stores.Stack(nil), p.Shelves.Stacks...)
		spoilt.Shelves = &fit
		other.Shelves = append([]stores.Shelf(nil), req.Shelves...)
		if found := verify.Check(&other, &spoilt); len(found) > 0 {
			t.Fatalf("%s: already %v", c.name, found)
		}
		c.spoil(&spoilt, &other)
		if len(verify.Check(&other, &spoilt)) == 0 {
			t.Errorf("%s: Verify reports nothing", c.name)
		}
	}
}

// A plan stands alone: its record brings back stove, shelves, who is ill, and
// the prices and stock of water and fuel.
func TestRecordOfSupplies(t *testing.T) {
	req := rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female))
	req.Stove, req.Ill, req.Pets = "alcohol", []string{"Signe"}, 2
	req.Shelves = []stores.Shelf{{Name: "floor", WidthCm: 150, DepthCm: 60, HeightCm: 60, LoadKg: 400}}
	prices, err := req.Table.ReadPrices("prices.csv", strings.NewReader("pack,price,currency\nwater,0.5,NOK\nalcohol,60,NOK\n"))
	if err != nil {
		t.Fatal(err)
	}
	stock, err := req.Table.ReadStock("stock.csv", strings.NewReader("pack,count\nwater,12\nalcohol,1\nheat,0.5\n"))
	if err != nil {
		t.Fatal(err)
	}
	req.Stock, req.StockWaterL, req.StockHeatMJ = stock.Lines, stock.WaterL, stores.HeatOfStock(stock)
	req.Files = ration.Files{Prices: prices.Rows, Stock: stock.Rows}
	p := plantest.MustMake(t, req)
	text, err := json.Marshal(p)
	if err != nil {
		t.Fatal(err)
	}
	read, err := ration.ReadPlan(strings.NewReader(string(text)))
	if err != nil {
		t.Fatal(err)
	}
	back, err := read.Request.Load()
	if err != nil {
		t.Fatal(err)
	}
	if back.Stove != req.Stove || !reflect.DeepEqual(back.Ill, req.Ill) || !reflect.DeepEqual(back.Shelves, req.Shelves) {
		t.Errorf("read back: stove %q, ill %v, shelves %v", back.Stove, back.Ill, back.Shelves)
	}
	// fuel.csv: alcohol 21.17 MJ a litre at 0.35, and the half MJ written out.
	if want := 21.17*0.35 + 0.5; back.StockHeatMJ == nil || !rationtest.Near1(*back.StockHeatMJ, want) || back.StockWaterL == nil || !rationtest.Near1(*back.StockWaterL, 12) {
		t.Errorf("read back: %v MJ and %v L on hand, want %g and 12", back.StockHeatMJ, back.StockWaterL, want)
	}
	if found := verify.Check(back, read); len(found) > 0 {
		t.Errorf("the plan read back does not hold: %v", found)
	}
	read.Request.Shelves[0].LoadKg = -1
	read.Request.Options["stove"] = "sun"
	read.Request.Ill = []string{"Nobody"}
	if _, err := read.Request.Load(); err == nil || strings.Count(err.Error(), "\n") != 2 {
		t.Errorf("three faults in the record: %v", err)
	}
}
