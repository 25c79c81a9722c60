package stockpile

import (
	"math"
	"testing"

	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestWhatIsRenewedOfAPlan: water in whole containers, as many as hold the 42 L that are not there, refilled after six
// months, or after three where it is kept by the allowance (data/renewal.csv); an alarm for carbon
// monoxide only where something is cooked; what the household has is not bought again, and a pack
// that the table does not know is passed over.
func TestWhatIsRenewedOfAPlan(t *testing.T) {
	table := rationtest.Table(t)
	const rice, beans, oats = "white-rice-907g-bag", "canned-kidney-beans-439g-can", "white-rice-2268g-bag"
	each := stores.PlanContainer(nil).NetML / 1000
	full := each * math.Ceil(42/each)
	if full == 42 || full == 50 {
		t.Fatalf("containers of %g L show nothing here", each)
	}
	for _, c := range []struct {
		name      string
		allowance bool
		heat      float64
		water     string
		alarm     bool
	}{
		{"cooked", false, 3, "water-home-filled", true},
		{"by the allowance", true, 3, "water-allowance", true},
		{"cold", false, 0, "water-home-filled", false},
		{"next to no heat", false, 0.001, "water-home-filled", true},
	} {
		req := rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female))
		req.Table, req.Start, req.Allowance = table, "2026-11-25", c.allowance
		req.Stock = rationtest.StockOf(t, table, beans+",2,2027-01-31,,,").Lines
		plan := &ration.Plan{Days: 14, Totals: &ration.Totals{WaterL: 50, OwnWaterL: 8, HeatMJ: c.heat}, Packs: []ration.PlanPack{
			{Pack: rice, Count: 4}, {Pack: beans, Count: 2, FromStock: 2}, {Pack: oats, Count: 3, FromStock: 2}, {Pack: "no-such-pack", Count: 9},
		}}
		batches, err := planBatches(req, plan, "2026-11-25")
		if err != nil {
			t.Fatal(err)
		}
		count, since := map[string]float64{}, map[string]string{}
		for _, b := range batches {
			count[b.Pack] += b.Count
			since[b.Pack] = b.Since
		}
		// Two bags of the third pack are not among the stock of this request: only what is bought is new.
		if count[rice] != 4 || count[beans] != 2 || count[oats] != 1 || count["no-such-pack"] != 0 {
			t.Errorf("%s: %v", c.name, count)
		}
		other := map[string]string{"water-home-filled": "water-allowance", "water-allowance": "water-home-filled"}[c.water]
		if math.Abs(count[c.water]-full) > 1e-9 || count[other] != 0 || since[c.water] != "2026-11-25" {
			t.Errorf("%s: %g L of %s since %s, %g of %s", c.name, count[c.water], c.water, since[c.water], count[other], other)
		}
		if (count["co-alarm"] > 0) != c.alarm || count["batteries"] <= 0 {
			t.Errorf("%s: %g alarms, %g batteries", c.name, count["co-alarm"], count["batteries"])
		}
	}
}

// TestFollowedIsTheSimulation: each figure that is told of a pack is that of the months gone through
// one by one. Of twenty bags that are good for five weeks only a part is eaten in time, with a plan
// of two in a fortnight: the rest is out of date.
func TestFollowedIsTheSimulation(t *testing.T) {
	table := rationtest.Table(t)
	const rice, beans = "white-rice-907g-bag", "canned-kidney-beans-439g-can"
	req := rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female))
	req.Table = table
	plan := &ration.Plan{Days: 14, Totals: &ration.Totals{WaterL: 40}, Packs: []ration.PlanPack{{Pack: rice, Count: 2}, {Pack: beans, Count: 5}}}
	stock := rationtest.StockOf(t, table, rice+",20,2026-12-30,,,", beans+",3,2027-02-05,,,", beans+",4,2028-02-05,,,")
	r, err := RotationOf(RotationInput{Plan: plan, Req: req, Stock: stock, Start: "2026-11-25", TempC: UsualStoreC, Months: 12})
	if err != nil {
		t.Fatal(err)
	}
	wasted := 0
	for i, f := range r.Followed {
		line := &r.Programme.Lines[i]
		s, err := stores.Simulate(line, "2026-11-25", SimulatedMonths)
		if err != nil {
			t.Fatal(err)
		}
		want := FollowedPack{Pack: line.Pack, Months: 60, Bought: s.Bought, Eaten: s.Eaten, Tight: s.Tight, Wasted: s.Wasted, Least: s.Least, Target: line.Target, Cost: s.Cost}
		if f != want {
			t.Errorf("told %+v, month by month %+v", f, want)
		}
		if f.Pack == rice {
			wasted = f.Wasted
		}
		// What came in is eaten, wasted or there: the target and what was bought of it.
		had := map[string]int{rice: 20, beans: 7}[f.Pack]
		if left := had + f.Bought - f.Eaten - f.Wasted; left < f.Target || f.Cost <= 0 {
			t.Errorf("%s: %d left of %d and %d bought, %+v", f.Pack, left, had, f.Bought, f)
		}
	}
	// At 2 in 14 days 4.35 bags are eaten a month, at most 5 in one: of 20 good until 30 December
	// at most two months' are eaten.
	if len(r.Followed) != 2 || wasted < 10 || wasted > 20 {
		t.Errorf("%d followed, %d bags of rice out of date", len(r.Followed), wasted)
	}
	if r.Currency == "" || r.NotFed.Notice != "" {
		t.Errorf("currency %q, not fed %+v", r.Currency, r.NotFed)
	}
}
