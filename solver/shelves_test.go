package solver

import (
	"encoding/json"
	"errors"
	"fmt"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/verify"
)

// standsOn recomputes from the packs of a plan and the shelves alone that what
// the plan says of them is so.
func standsOn(t *testing.T, req *ration.Request, p *ration.Plan) {
	t.Helper()
	if p.Shelves == nil {
		t.Fatal("the plan says nothing of the shelves")
	}
	for _, fault := range stores.CheckFit(req.Shelves, p.Shelves.Loads, p.Shelves.Fit) {
		t.Error(fault)
	}
	// Every pack of the plan, and as many containers as hold the water, is placed
	// or left over, once.
	count := map[string]int{}
	for _, line := range p.Packs {
		count[line.Pack] += line.Count
	}
	for _, place := range p.Shelves.Places {
		count[place.Pack] -= place.Count
	}
	for _, left := range p.Shelves.Left {
		count[left.Pack] -= left.Count
	}
	for _, c := range stores.WaterContainers() {
		if n, ok := count[c.Key]; ok {
			holds := float64(-n) * c.NetML / 1000
			if holds < p.Totals.WaterL-1e-3 || holds > p.Totals.WaterL+c.NetML/1000 {
				t.Errorf("%d of %s for %g L", -n, c.Key, p.Totals.WaterL)
			}
			delete(count, c.Key)
		}
	}
	for pack, n := range count {
		if n != 0 {
			t.Errorf("%s: %d more in the plan than on the shelves", pack, n)
		}
	}
	// No shelf bears or holds more than it can.
	for i, use := range p.Shelves.Use {
		s := req.Shelves[i]
		if use.Kg > s.LoadKg+1e-6 || use.BoxL > s.WidthCm*s.DepthCm*s.HeightCm/1000+1e-6 {
			t.Errorf("%s bears %g kg and %g L: %+v", s.Name, use.Kg, use.BoxL, s)
		}
	}
}

// Plans for shelves of any size stand on them, or say what does not; where
// nothing fits, the shelves are in the conflict.
func TestPlansOnGeneratedShelves(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 11))
	stood, other := 0, 0
	for n := range 5 {
		req := basics(t, adult("Signe", 30, nutrients.Female))
		floor := 0.0
		for i := range 2 + rng.IntN(3) {
			s := stores.Shelf{
				Name: fmt.Sprint("board ", i+1), WidthCm: 40 + rng.Float64()*60, DepthCm: 25 + rng.Float64()*25,
				HeightCm: 25 + rng.Float64()*30, LoadKg: 15 + rng.Float64()*60, AboveFloorCm: floor,
			}
			floor += s.HeightCm
			req.Shelves = append(req.Shelves, s)
		}
		p := mustMake(t, req)
		if p.Totals == nil {
			other++
			if text := fmt.Sprint(p.Conflict); !strings.Contains(text, "shel") {
				t.Errorf("shelves %d: nothing fits and the shelves are not in the conflict: %v", n, p.Conflict)
			}
			continue
		}
		standsOn(t, req, p)
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

// Where the first plan finds no arrangement, another with as much less room does
// without what was left over; its gap is to the bound of the first.
func TestReplannedForShelves(t *testing.T) {
	req := basics(t, adult("Signe", 30, nutrients.Female))
	req.Least = ration.LeastCost
	req.Shelves = []stores.Shelf{{Name: "floor", WidthCm: 150, DepthCm: 60, HeightCm: 60, LoadKg: 400}}
	r, err := Build(req)
	if err != nil {
		t.Fatal(err)
	}
	var first *ration.Plan
	p, err := r.makeOnShelves(t.Context(), nil, func(r *Ration, p *ration.Plan) *ration.ShelfFit {
		fit := r.fitOf(p)
		if first == nil {
			// As if one of the largest packs of food had found no place.
			first = p
			largest := fit.Loads[0]
			for _, l := range fit.Loads {
				if l.Key != r.supplies.container.Key && l.BoxL()/float64(l.Count) > largest.BoxL()/float64(largest.Count) {
					largest = l
				}
			}
			fit.Left = []stores.LeftOver{{Pack: largest.Key, Count: 1}}
			fit.Stands = false
		}
		return fit
	})
	if err != nil {
		t.Fatal(err)
	}
	standsOn(t, req, p)
	before, after := stores.SpaceOf(first.Shelves.Loads), stores.SpaceOf(p.Shelves.Loads)
	left := 0.0
	for _, l := range first.Shelves.Loads {
		if l.Key == first.Shelves.Left[0].Pack {
			left = l.BoxL() / float64(l.Count)
		}
	}
	if p.Shelves.Replanned != 1 || left <= 0 || after.BoxL > before.BoxL-left+1e-6 {
		t.Errorf("made anew %d times, %g L of boxes where %g did not stand by %g", p.Shelves.Replanned, after.BoxL, before.BoxL, left)
	}
	if *p.Value < *first.Bound || !near1(*p.Bound, *first.Bound) || !near1(*p.Gap, (*p.Value-*p.Bound) / *p.Value) || (*p.Gap > req.Within) != (p.Status == ration.StatusLimit) {
		t.Errorf("value %g, bound %g, gap %g, status %s; bound of the first %g", *p.Value, *p.Bound, *p.Gap, p.Status, *first.Bound)
	}
	if found := verify.Check(req, p); len(found) > 0 {
		t.Error(found)
	}

	// An arrangement that contradicts the plan is refused, after a few tries.
	tries := 0
	p, err = r.makeOnShelves(t.Context(), nil, func(r *Ration, p *ration.Plan) *ration.ShelfFit {
		tries++
		fit := r.fitOf(p)
		fit.Stands, fit.Left = false, append(fit.Left, stores.LeftOver{Pack: fit.Loads[0].Key, Count: 1})
		fit.Places[0].Count--
		return fit
	})
	if err == nil || !errors.Is(err, ration.ErrUnverified) || tries > 1+mostReplans {
		t.Errorf("%d fits, %v, %v: an arrangement that contradicts the plan is shown", tries, p, err)
	}
}

// A plan that says that it stands and does not is refused.
func TestVerifyReportsShelves(t *testing.T) {
	req := basics(t, adult("Signe", 30, nutrients.Female))
	req.Shelves = []stores.Shelf{{Name: "floor", WidthCm: 150, DepthCm: 60, HeightCm: 60, LoadKg: 400}}
	p := mustMake(t, req)
	standsOn(t, req, p)
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
	req := basics(t, adult("Signe", 30, nutrients.Female))
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
	p := mustMake(t, req)
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
	if want := 21.17*0.35 + 0.5; back.StockHeatMJ == nil || !near1(*back.StockHeatMJ, want) || back.StockWaterL == nil || !near1(*back.StockWaterL, 12) {
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
