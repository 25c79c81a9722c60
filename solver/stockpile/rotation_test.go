package stockpile

import (
	"errors"
	"strings"
	"testing"

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
