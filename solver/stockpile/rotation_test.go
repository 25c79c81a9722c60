package stockpile

import (
	"errors"
	"strings"
	"testing"
	"time"

	"rationwright/foods/stores"
	"rationwright/nutrients"
	"rationwright/solver/plantest"
	"rationwright/solver/ration"
	"rationwright/solver/rationtest"
)

// A plan filled on a day keeps every pack to its time, and held for five years
// nothing of it goes out of date and the store never falls below the plan.
func TestRotationOfAPlan(t *testing.T) {
	req := rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female))
	p := plantest.MustMake(t, req)
	r, err := RotationOf(RotationInput{Plan: p, Req: req, Start: "2026-11-25", TempC: UsualStoreC, Months: 12})
	if err != nil {
		t.Fatal(err)
	}
	counted := map[string]float64{}
	for _, a := range r.Actions {
		counted[a.Pack] += a.Count
	}
	for _, line := range p.Packs {
		if counted[line.Pack] != float64(line.Count) {
			t.Errorf("%s: %g in the rotation, %d in the plan", line.Pack, counted[line.Pack], line.Count)
		}
	}
	for _, goods := range []string{"water-home-filled", "batteries", "bleach", "first-aid"} {
		if counted[goods] <= 0 {
			t.Errorf("no %s is renewed", goods)
		}
	}
	if counted["water-home-filled"] < p.Totals.WaterL {
		t.Errorf("%g L of water are refilled, %g stored", counted["water-home-filled"], p.Totals.WaterL)
	}
	for _, f := range r.Followed {
		if f.Wasted != 0 || f.Least < f.Target || f.Months != 60 || f.Bought < f.Eaten-f.Target {
			t.Errorf("%+v: want nothing wasted and never below the target", f)
		}
	}
	if len(r.Followed) == 0 || r.Programme.YearCost <= 0 {
		t.Errorf("followed %d lines, %g a year", len(r.Followed), r.Programme.YearCost)
	}

	// A warm store shortens every time, by the published halving for 11 °C.
	warm, err := RotationOf(RotationInput{Plan: p, Req: req, Start: "2026-11-25", TempC: 32, Months: 12})
	if err != nil {
		t.Fatal(err)
	}
	for i, line := range warm.Programme.Lines {
		if cool := r.Programme.Lines[i].KeepDays; line.KeepDays != cool/2 && line.KeepDays != (cool+1)/2 {
			t.Errorf("%s keeps %d days at 32 °C and %d at 21", line.Pack, line.KeepDays, cool)
		}
	}
	if _, err := RotationOf(RotationInput{Plan: p, Req: req, Start: "2026-11-25", TempC: 40}); !errors.Is(err, stores.ErrTooHot) {
		t.Errorf("at 40 °C: %v", err)
	}
	if _, err := RotationOf(RotationInput{Plan: p, Req: req, Start: "soon", TempC: 21}); !errors.Is(err, stores.ErrDay) {
		t.Errorf("from soon: %v", err)
	}
	if _, err := RotationOf(RotationInput{Plan: &ration.Plan{}, Req: req, Start: "2026-11-25", TempC: 21}); !errors.Is(err, ration.ErrNoRation) {
		t.Errorf("of no ration: %v", err)
	}
}

// A stock is rotated by its dates; with the plan that it is held for, the plan
// is what is bought up to.
func TestRotationOfAStock(t *testing.T) {
	req := rationtest.Basics(t, rationtest.Adult("Signe", 30, nutrients.Female))
	p := plantest.MustMake(t, req)
	pack := p.Packs[0].Pack
	stock, err := req.Table.ReadStock("stock.csv", strings.NewReader(
		"pack,count,best_before\n"+pack+",2,2027-01-10\n"+pack+",1,2026-12-01\nwater,20,2026-12-20\nbatteries,4,\n"))
	if err != nil {
		t.Fatal(err)
	}
	alone, err := RotationOf(RotationInput{Stock: stock, Start: "2026-11-25", TempC: UsualStoreC, Months: 12})
	if err != nil {
		t.Fatal(err)
	}
	var order []string
	for _, a := range alone.Actions {
		order = append(order, a.By+" "+a.Pack)
	}
	want := []string{" batteries", "2026-12-01 " + pack, "2026-12-20 water", "2027-01-10 " + pack}
	if strings.Join(order, "; ") != strings.Join(want, "; ") {
		t.Errorf("actions %q, want %q", order, want)
	}
	if l := alone.Programme.Lines; len(l) != 1 || l[0].Target != 3 {
		t.Errorf("programme %+v, want the 3 packs of the stock", l)
	}
	both, err := RotationOf(RotationInput{Stock: stock, Plan: p, Req: req, Start: "2026-11-25", TempC: UsualStoreC, Months: 12})
	if err != nil {
		t.Fatal(err)
	}
	if len(both.Actions) != len(alone.Actions) || len(both.Programme.Lines) < 2 {
		t.Errorf("%d actions and %d lines with the plan, %d and %d without", len(both.Actions), len(both.Programme.Lines), len(alone.Actions), len(alone.Programme.Lines))
	}
	for i := range both.Actions {
		if both.Actions[i].UID != alone.Actions[i].UID {
			t.Errorf("%s has another identity with the plan", both.Actions[i].Pack)
		}
	}
}

// TestDatedPacksAreHeld: what a programme begins with are the dated packs of food in store,
// by their dates; water and other goods are no packs of a food, and what is open is not held.
func TestDatedPacksAreHeld(t *testing.T) {
	table := rationtest.Table(t)
	const pack = "white-rice-907g-bag"
	stock, err := table.ReadStock("stock.csv", strings.NewReader("pack,count,best_before,opened\n"+
		pack+",2,2027-01-10,\n"+pack+",1,2026-12-01,\n"+pack+",1,,2026-11-20\nwater,20,2026-12-20,\nbatteries,4,,\n"))
	if err != nil {
		t.Fatal(err)
	}
	var batches []stores.Batch
	for _, line := range stock.Lines {
		batches = append(batches, stores.BatchOf(line))
	}
	batches = append(batches, stores.GoodsOfStock(stock.Goods)...)
	items, err := new(Rotation).items(RotationInput{Stock: stock, Start: "2026-11-25", TempC: UsualStoreC}, batches)
	if err != nil {
		t.Fatal(err)
	}
	if len(items) != 1 || items[0].Pack != pack || items[0].Target != 3 {
		t.Fatalf("%+v, want 3 bags to hold", items)
	}
	dates := map[string]float64{}
	for _, d := range items[0].Stock {
		dates[d.UseBy.Format(time.DateOnly)] += float64(d.Count)
	}
	if dates["2027-01-10"] != 2 || dates["2026-12-01"] != 1 {
		t.Errorf("the programme begins with %v, want 2 bags until 2027-01-10 and 1 until 2026-12-01", dates)
	}
}

// TestSheetsForClearAndCloudy: where an agent treats both, each volume has its dose for clear
// water, then that for cloudy water, which is never less. Of 5 to 6 percent bleach a US gallon
// takes 8 drops (CDC, Make Water Safe; EPA), and 16 where it is cloudy.
func TestSheetsForClearAndCloudy(t *testing.T) {
	both := 0
	for _, sheet := range doseSheets() {
		of := map[float64]map[stores.Water]stores.Dose{}
		for _, d := range sheet.Doses {
			if of[d.VolumeL] == nil {
				of[d.VolumeL] = map[stores.Water]stores.Dose{}
			}
			if _, cloudyBefore := of[d.VolumeL][stores.CloudyWater]; cloudyBefore {
				t.Errorf("%s %s, %g L: cloudy before clear", sheet.Agent, sheet.Strength, d.VolumeL)
			}
			of[d.VolumeL][d.Water] = d
		}
		for litres, doses := range of {
			clear, cloudy := doses[stores.ClearWater], doses[stores.CloudyWater]
			if len(doses) == 2 {
				both++
				if cloudy.Drops < clear.Drops || cloudy.ML < clear.ML || cloudy.Tablets < clear.Tablets || cloudy.WaitMin < clear.WaitMin {
					t.Errorf("%s %s, %g L: clear %+v, cloudy %+v", sheet.Agent, sheet.Strength, litres, clear, cloudy)
				}
			}
			if sheet.Agent == "bleach" && sheet.Strength == "5-6 percent" && litres == stores.LPerGallon && (clear.Drops != 8 || cloudy.Drops != 16) {
				t.Errorf("a gallon takes %d drops, cloudy %d, want 8 and 16", clear.Drops, cloudy.Drops)
			}
		}
	}
	if both < len(SheetVolumesL) {
		t.Errorf("%d volumes have both doses", both)
	}
}
