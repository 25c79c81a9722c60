package report

import (
	"testing"

	"rationwright/foods/stores"
	"rationwright/solver/ration"
)

// TestPlanAsFacts: a row a fact, each figure of a plan in its column with its unit.
func TestPlanAsFacts(t *testing.T) {
	proven := true
	p := specimen()
	p.Refused, p.Shortfalls, p.NotChecked, p.Notes, p.People[1].Needs = nil, nil, []string{"iodine"}, []string{"a note"}, nil
	p.People[0].Needs = []ration.PersonNeed{{Nutrient: "vitamin_b6", Unit: "mg", Amount: 1.4, Floor: ptr(1.3), Ceiling: ptr(100), Target: ptr(1.5), Source: "S2", Unknown: true}, {Nutrient: "zinc", Unit: "mg", Amount: 9, Source: "S3"}}
	p.People[0].DrinkLPerDay, p.People[0].Count = 0.5, 2
	p.Value, p.Bound, p.Gap, p.Stopped, p.Proven = ptr(263), ptr(260), ptr(0.01), "by the clock", &proven
	p.Packs[0].EasyOpen, p.Packs[2].EasyOpen = true, true
	p.Shelves = &ration.ShelfFit{}
	p.Shelves.Places = []stores.Place{{Shelf: "board", Pack: "rice-white-2000", Name: "rice", Count: 3, Kg: 6.03}}
	p.Shelves.Left = []stores.LeftOver{{Pack: "tuna-142", Name: "tuna", Count: 12, Reason: "no room"}}
	lines(t, "the facts", filled(t, PlanCSV(p)),
		"plan key=status text=optimal", "plan key=stopped text=by the clock", "plan key=least text=cost", "plan key=standard text=rda", "plan key=version text=1", "plan key=days count=14",
		"plan key=value amount=263 unit=demo crowns", "plan key=bound amount=260 unit=demo crowns", "plan key=gap amount=0.01", "plan key=proven text=true",
		"total key=all cost=263.1 currency=demo crowns weight_kg=151.4 volume_l=190.2", "total key=food cost=250 currency=demo crowns weight_kg=60.5 volume_l=98", "total key=water amount=84.7 unit=L", "total key=heat amount=21.3 unit=MJ",
		"pack key=rice-white-2000 name=rice, white, long-grain ndb=20044 group=grains count=3 from_stock=0 amount=2000 unit=g cost=12.3 currency=demo crowns weight_kg=6.03 volume_l=7.1 text=easy to open",
		"pack key=tuna-142 name=tuna, light, canned in water ndb=15121 group=fish count=12 from_stock=4 amount=113 unit=g cost=14.4 currency=demo crowns weight_kg=2.1 volume_l=2.4",
		"pack key=sugar-500 name=sugar ndb=19335 group=sweets count=1 from_stock=0 amount=500 unit=g cost=1 currency=demo crowns weight_kg=0.5 volume_l=0.6 text=reserve: set aside, never ration",
		"food person=Maja key=rice, white, long-grain name=rice, white, long-grain ndb=20044 count=2 amount=2100.25 unit=g",
		"need person=Maja key=vitamin_b6 name=vitamin B6 count=2 amount=1.4 unit=mg floor=1.3 ceiling=100 target=1.5 text=some foods eaten have no figure source=S2", "need person=Maja key=zinc name=zinc count=2 amount=9 unit=mg source=S3",
		"drink person=Maja count=2 amount=0.5 unit=L", "rule person=Maja count=2 text=low-sodium: 2,000 mg source=S5",
		"place key=rice-white-2000 name=rice count=3 weight_kg=6.03 text=board", "left key=tuna-142 name=tuna count=12 text=no room",
		"price person=Maja key=energy at least amount=0.3456 unit=100 kcal a day", "price key=budget amount=-1234.5",
		"caution person=Maja and Knut key=C01 name=stop text=do not taste from a bulging can source=USDA FSIS", "not_checked key=iodine", "note text=a note")
	lines(t, "the refused", filled(t, PlanCSV(specimen()), "refused"), "refused person=Åse text=THIS PLAN DOES NOT FEED Åse: kidney disease: a clinician must plan source=S6")
	p.Least = ration.LeastVolume
	lines(t, "the least of another", filled(t, PlanCSV(p), "plan")[6:8], "plan key=value amount=263 unit=L", "plan key=bound amount=260 unit=L")
}

// TestClosestAsFacts: where nothing fits, what conflicts, the ways out and the closest ration
// in rows of their own.
func TestClosestAsFacts(t *testing.T) {
	p := &ration.Plan{Status: ration.StatusInfeasible, Totals: &ration.Totals{Currency: "TSD"}, Conflict: []ration.ConflictLimit{{Limit: "budget", Person: "Odd"}},
		WaysOut: []ration.WayOut{{Change: "3 TSD more", Cost: ptr(85), Tested: true}, {Change: "less of it"}},
		Closest: &ration.Closest{Packs: []ration.PlanPack{{Pack: "rice", Food: "rice", Count: 2, NetG: 900}}, Shortfalls: []ration.Shortfall{{Person: "Odd", Nutrient: "vitamin_d", Amount: 5, Target: 15}},
			People: []ration.PlanPerson{{Name: "Odd", Count: 1, DrinkLPerDay: 1.5, Foods: []ration.PersonFood{{Food: "rice", Grams: 1800}}, Needs: []ration.PersonNeed{{Nutrient: "iron", Amount: 8}}, Rules: []ration.RuleNote{{Text: "no salt"}}}}}}
	lines(t, "the facts", filled(t, PlanCSV(p))[7:],
		"conflict person=Odd text=budget", "way_out key=true name=tested cost=85 currency=TSD text=3 TSD more", "way_out key=false name=tested text=less of it",
		"closest_pack key=rice name=rice count=2 from_stock=0 amount=900 unit=g cost=0 currency=TSD weight_kg=0 volume_l=0",
		"closest_food person=Odd key=rice name=rice count=1 amount=1800 unit=g", "closest_need person=Odd key=iron name=iron count=1 amount=8", "closest_drink person=Odd count=1 amount=1.5 unit=L", "closest_rule person=Odd count=1 text=no salt",
		"closest_shortfall person=Odd key=vitamin_d name=vitamin D amount=5 unit=µg target=15")
}
