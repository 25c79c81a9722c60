package stockpile

import (
	"math"
	"testing"

	"rationwright/foods"
	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// TestFuelForWhatIsNotOnHand: of 10 MJ into the pot 4 are on hand, so that fuel is bought
// for 6, at poor efficiency or at a typical one with the reserve, whichever is more; 10 MJ
// in 14 days are 5/7 a day, and 4 MJ last 5 whole days, 9 are without.
func TestFuelForWhatIsNotOnHand(t *testing.T) {
	have := 4.0
	req := &ration.Request{Days: 14, Stove: stores.UsualStove, Cook: ration.CookBoil, StockHeatMJ: &have}
	h, err := storedHeat(req, &ration.Plan{Days: 14, Totals: &ration.Totals{HeatMJ: 10, OwnHeatMJ: 4}}, "")
	if err != nil {
		t.Fatal(err)
	}
	if h.Fuels[0].Stove.Name != stores.UsualStove || len(h.Fuels) != len(stores.Stoves()) {
		t.Errorf("%d fuels, the first %s", len(h.Fuels), h.Fuels[0].Stove.Name)
	}
	for _, f := range h.Fuels {
		poor := math.Ceil(6/(f.Stove.EnergyMJ*f.Stove.EffLow) - 1e-9)
		typical := math.Ceil(6*f.Reserve/(f.Stove.EnergyMJ*f.Stove.EffTyp) - 1e-9)
		if want := int(math.Max(poor, typical)); f.Packs != want || f.UsefulMJ != 6 {
			t.Errorf("%s: %d packs for %g MJ, want %d for 6", f.Stove.Name, f.Packs, f.UsefulMJ, want)
		}
		if days := f.Stove.EnergyMJ * f.Stove.EffTyp / (10.0 / 14); f.PackDays == nil || math.Abs(f.PackDays[1]-days) > 1e-9 {
			t.Errorf("%s: a pack lasts %v days, want %g", f.Stove.Name, f.PackDays, days)
		}
	}
	if h.DaysWithout == nil || *h.DaysWithout != 9 || math.Abs(h.PerDayMJ-10.0/14) > 1e-9 {
		t.Errorf("%v days without, %g MJ a day", h.DaysWithout, h.PerDayMJ)
	}
}

// TestProgrammeHoldsWhatIsClosed: a stock is held for good as it is, but for what is open;
// of a plan what is bought is bought that day, and what is from stock keeps its date.
func TestProgrammeHoldsWhatIsClosed(t *testing.T) {
	table := rationtest.Table(t)
	const rice, beans = "white-rice-907g-bag", "canned-kidney-beans-439g-can"
	stock := rationtest.StockOf(t, table, rice+",3,2027-06-30,,,", rice+",1,,2026-11-20,,", beans+",2,2027-01-31,,,")
	r, err := RotationOf(RotationInput{Stock: stock, Start: "2026-11-25", TempC: UsualStoreC, Months: 12})
	if err != nil {
		t.Fatal(err)
	}
	target := map[string]int{}
	for _, l := range r.Programme.Lines {
		target[l.Pack] += l.Target
	}
	if target[rice] != 3 || target[beans] != 2 || len(target) != 2 {
		t.Errorf("holds %v, want 3 and 2", target)
	}

	req := &ration.Request{Table: table, Days: 14, Start: "2026-11-25", Stove: stores.UsualStove, Stock: []foods.StockLine{stock.Lines[2]}}
	plan := &ration.Plan{Days: 14, Totals: &ration.Totals{WaterL: 40}, Packs: []ration.PlanPack{{Pack: rice, Count: 4}, {Pack: beans, Count: 5, FromStock: 2}}}
	r, err = RotationOf(RotationInput{Plan: plan, Req: req, Start: "2026-11-25", TempC: UsualStoreC, Months: 12})
	if err != nil {
		t.Fatal(err)
	}
	count, soon := map[string]float64{}, 0.0
	for _, a := range r.Actions {
		count[a.Pack] += a.Count
		if a.Pack == beans && a.By <= "2027-01-31" {
			soon += a.Count
		}
	}
	if count[rice] != 4 || count[beans] != 5 || soon != 2 {
		t.Errorf("%g of rice, %g of beans of which %g by their printed date, want 4, 5 and 2", count[rice], count[beans], soon)
	}
	// A fortnight's packs are eaten in as many days in daily life: 5 in 14 are 10.9 a month.
	for _, l := range r.Programme.Lines {
		if l.Pack == beans && (l.Target != 5 || math.Abs(l.Item.EatPerMonth-5*365.25/12/14) > 1e-9) {
			t.Errorf("%d held, %g eaten a month", l.Target, l.Item.EatPerMonth)
		}
	}
}

// TestContainersOfWater: what a container holds is told of one, full, and water from a well
// is chlorinated by the container: 8 drops of 5 to 6 percent bleach a US gallon (agricultural
// extension storage advice; foods/stores/data/water.csv), rounded up, are 43 for 20 L.
func TestContainersOfWater(t *testing.T) {
	req := rationtest.Request(t, rationtest.Adult("Signe", 30, nutrients.Female))
	req.Start = "2026-08-31"
	plan := &ration.Plan{Days: 14, Totals: &ration.Totals{WaterL: 50, OwnWaterL: 8}, People: []ration.PlanPerson{{Name: "Signe", Count: 1, DrinkLPerDay: 2}}}
	var twenty *stores.Container
	for _, c := range stores.WaterContainers() {
		if c.NetML == 20_000 {
			twenty = c
		}
	}
	if twenty == nil {
		t.Fatal("no container of 20 L")
	}
	w, err := storedWater(ration.Filled(req), plan, twenty)
	if err != nil {
		t.Fatal(err)
	}
	if w.PlanL != 50 || w.OnHand != 8 || w.PlanCount != 3 { // 50 L in 20 L each
		t.Errorf("%g L, %g on hand, %d containers, want 50, 8, 3", w.PlanL, w.OnHand, w.PlanCount)
	}
	if w.Unchlorinated.VolumeL != 20 || w.Unchlorinated.Drops != 43 || w.Sanitise.VolumeL != 1 {
		t.Errorf("well water %+v, containers %+v", w.Unchlorinated, w.Sanitise)
	}
	planned := 0
	for i, c := range w.Containers {
		if c.Planned {
			planned++
			if i != 0 || c.EachL != 20 || c.EachKg <= 20 || c.EachKg > 25 || !c.Heavy != (c.EachKg <= stores.LiftKg) {
				t.Errorf("the planned one is number %d: %+v", i, c)
			}
		}
		if c.EachL*float64(c.Count) < w.Recommended-1e-6 || c.EachL*float64(c.Count-1) >= w.Recommended {
			t.Errorf("%d of %g L for %g L", c.Count, c.EachL, w.Recommended)
		}
	}
	if planned != 1 || len(w.Renew) == 0 {
		t.Errorf("%d planned, %d renewals", planned, len(w.Renew))
	}
	for _, r := range w.Renew {
		for _, day := range r.Dates {
			if day <= req.Start || day > "2028-02-29" { // 18 months later, February having no 31st, by the calendar of Go 2 March
				t.Errorf("%s is renewed on %s", r.Key, day)
			}
		}
	}
}
