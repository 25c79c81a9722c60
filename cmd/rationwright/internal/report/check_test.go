package report

import (
	"strings"
	"testing"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/nutrients"
	"rationwright/solver/check"
	"rationwright/solver/ration"
)

// The title of what is set aside holds for every line below it: what is eaten
// stands before it.
func TestWhatIsSetAsideIsBoughtLast(t *testing.T) {
	c := &check.StockCheck{Horizon: 14, Currency: "TSD", BuyCost: ptr(8.0), Buy: []check.Buy{
		{Pack: "sugar-454g-bag", Food: "sugar, white", Count: 1, Cost: 0.8, Reserve: true},
		{Pack: "soy-drink-200ml-carton", Food: "soy drink", Count: 20, Cost: 6},
		{Pack: "water", Food: "stored water, litres", Count: 2, Cost: 1.2},
	}}
	got := text(t, &sheet.Sheet{Sections: []sheet.Section{stockBuy(c)}})
	title := strings.Index(got, "set aside, not part of the ration: fast sugar for low blood sugar:\n")
	if title < 0 {
		t.Fatalf("nothing is set aside in\n%s", got)
	}
	for word, aside := range map[string]bool{"soy drink": false, "stored water": false, "sugar, white": true} {
		if at := strings.Index(got, word); at < 0 || at > title != aside {
			t.Errorf("%q at %d, the title at %d, in\n%s", word, at, title, got)
		}
	}
}

// Heat is bought as packs of the plan's fuel: butane, 10.37 MJ in a cartridge, of
// which 40 % reach the pot at worst (fuel.csv), gives 4.148 MJ; 39 MJ take 9.4 of
// them, so 10.
func TestHeatIsBoughtAsFuel(t *testing.T) {
	c := &check.StockCheck{Horizon: 14, Currency: "TSD", BuyCost: ptr(22.57),
		Buy:   []check.Buy{{Pack: "heat", Food: "useful heat for cooking, MJ", Count: 39, Cost: 22.57}},
		TopUp: &ration.Plan{Request: &ration.RequestRecord{Options: map[string]string{"stove": "butane-cartridge"}}},
	}
	sec := stockBuy(c)
	row := sec.Table.Rows()[0]
	if row[0] != "10" || row[1] != "fuel for 39 MJ of useful heat for cooking" || !strings.HasPrefix(row[2], "butane, cartridge 227 g") {
		t.Errorf("heat is bought as %q", row)
	}
	if len(sec.Notes) != 2 || !strings.Contains(sec.Notes[1], "--stove") {
		t.Errorf("the notes do not say of which stove: %q", sec.Notes)
	}
	c.TopUp = nil
	if row := stockBuy(c).Table.Rows()[0]; row[0] != "" || row[1] != "fuel for 39 MJ of useful heat for cooking" {
		t.Errorf("without a stove heat is bought as %q", row)
	}
}

// An open pack is shown by a date, never by the number of a day.
func TestOpenPacksAreShownByDate(t *testing.T) {
	c := &check.StockCheck{
		TopUp: &ration.Plan{Request: &ration.RequestRecord{Start: "2026-01-30"}},
		EatBy: []check.EatBy{
			{Pack: "milk-1l-carton", Count: 1, Opened: "2026-01-01", Past: true},
			{Pack: "rice-907g-bag", Count: 1, Opened: "2026-01-29", Day: 4},
			{Pack: "beans-425g-can", Count: 1, BestBefore: "2026-02-03", Day: 5},
		},
	}
	for k, want := range []string{"already over", "2026-02-02", "2026-02-03"} {
		if got := stockEatBy(c).Table.Rows()[k][0]; got != want {
			t.Errorf("pack %d: until %q, want %q", k, got, want)
		}
	}
}

// TestCheckByHand: the answer in its first lines, with what is on hand where it is known; a
// balanced stock says so, and how far its calories would go only where that is more days.
func TestCheckByHand(t *testing.T) {
	c := &check.StockCheck{
		Balanced: true, Days: 21, DaysEnergy: 30, DaysCalories: 30.99, Horizon: 14, WaterNeededL: 85.2, HeatNeededMJ: 21.4, WaterOnHandL: ptr(40), HeatOnHandMJ: ptr(9.5), Currency: "TSD",
		People: []ration.PlanPerson{{Name: "Maja", Count: 1, Needs: []ration.PersonNeed{{Nutrient: "iron", Unit: "mg", Amount: 20, Floor: ptr(18), Ceiling: ptr(45)}}, Foods: []ration.PersonFood{{Food: "rice", Grams: 2100}}}},
		Taken:  []string{"rice: white rice"}, Useless: []check.Useless{{Pack: "nuts-200g", Count: 2.5, Reason: "Maja is allergic"}},
		Excess:    []check.StockShort{{Person: "Maja", Nutrient: "sodium", Amount: 2500, Ceiling: 2300}},
		Cautions:  []ration.Caution{{ID: "C", Severity: "stop", Text: "do not taste it"}},
		Unsettled: []string{"How long it lasts."},
	}
	sections := map[string]sheet.Section{}
	for _, sec := range Check(c, sheet.Metric).Sections {
		sections[sec.Title] = sec
	}
	head := sections[""]
	lines(t, "the answer", head.Lead, "This stock is balanced: it meets every need of everyone for 14 days.", "It meets every need for 21 days, and gives everyone the energy for 30 days.",
		"The ration takes 85.2 L of stored water (40.0 L on hand) and 21.4 MJ of useful heat for cooking (9.5 MJ on hand).")
	if len(head.Notes) != 0 {
		t.Errorf("30 days and a part are no more than 30 days: %q", head.Notes)
	}
	lines(t, "what completes it", sections["What completes it, at least cost"].Lead, "Nothing need be bought.")
	lines(t, "what was taken for what", sections["What your list was taken for"].Lead, "rice: white rice")
	lines(t, "what is of no use", barred(sections["Not usable by this household"].Table), "nuts-200g|2.5|Maja is allergic")
	lines(t, "too much", barred(sections["Too much, if everything in it were eaten alike"].Table), "Maja|sodium|2,500|2,300|mg")
	lines(t, "what Maja gets", barred(sections["What Maja gets a day from the stock alone"].Table), "iron|20.0|18|45|mg|111|")
	lines(t, "the cautions", sections["Take care"].Lead, "- STOP. Do not taste it.")
	if sec, there := sections["What is assumed"]; there {
		t.Errorf("nothing was planned, and it says what is assumed: %q", sec.Lead)
	}
	lines(t, "what is open", sections["Not worked out in the time"].Lead, "How long it lasts.", "A longer --time may settle it.")

	c.TopUp = &ration.Plan{Version: "7", Standard: string(nutrients.StandardBasic), Cautions: []ration.Caution{{ID: "D", Severity: "stop", Text: "boil it"}, {ID: "E", Severity: "stop", Text: "ask first", People: []string{"Maja"}}},
		People: []ration.PlanPerson{{Name: "Maja"}}, Totals: &ration.Totals{}}
	for _, sec := range Check(c, sheet.Metric).Sections {
		sections[sec.Title] = sec
	}
	lines(t, "the cautions of the completion", sections["Take care"].Lead, "- STOP. Boil it.", "- STOP. Maja: Ask first.")
	lines(t, "what the completion rests on", sections["What is assumed"].Lead, "- Standard basic: energy, protein and water only. This is no balanced ration.",
		"- Made by rationwright, plan version 7. Local authorities, labels and licensed clinicians come before this plan.")

	c.TopUp, c.DaysCalories, c.DaysEnergy = nil, 31, 30
	if notes := stockVerdict(c, sheet.Metric).Notes; len(notes) != 1 || !strings.Contains(notes[0], "would come to 31.0 days") {
		t.Errorf("%q", notes)
	}
	c.Balanced, c.Buy, c.BuyCost = false, nil, ptr(0)
	for _, line := range stockVerdict(c, sheet.Metric).Lead {
		if strings.Contains(line, "balanced") || strings.Contains(line, "to buy") {
			t.Errorf("nothing is to be bought and the stock is short: %q", line)
		}
	}
	if sec := stockBuy(c); len(sec.Lead) != 0 {
		t.Errorf("nothing was sought: %q", sec.Lead)
	}
	c.TopUp = &ration.Plan{Status: ration.StatusInfeasible, Conflict: []ration.ConflictLimit{{Limit: "budget at most 3 TSD"}}}
	if sec := stockBuy(c); len(sec.Lead) != 1 || !strings.HasPrefix(sec.Lead[0], "Nothing that completes it fits the limits given.") {
		t.Errorf("%q", sec.Lead)
	}
	if titles := text(t, Check(c, sheet.Metric)); !strings.Contains(titles, "WHAT CANNOT BE MET TOGETHER") {
		t.Errorf("what conflicts is not said:\n%s", titles)
	}
	c.Balanced = true
	lines(t, "a balanced stock that no purchase betters", stockBuy(c).Lead, "Nothing need be bought.")
	c.Balanced = false
	c.People = nil // everyone is refused
	if sec := stockBuy(c); len(sec.Lead) != 0 {
		t.Errorf("there is nobody to complete it for: %q", sec.Lead)
	}
	for days, want := range map[int]string{-1: "less than one day", 0: "less than one day", 1: "1 day", 364: "364 days", 365: "a year or more"} {
		if got := stockDays(days); got != want {
			t.Errorf("%d days: %q, want %q", days, got, want)
		}
	}
}

// TestWhatIsEatenFirst: until when, how much of it, and that it is open or past.
func TestWhatIsEatenFirst(t *testing.T) {
	c := &check.StockCheck{EatBy: []check.EatBy{
		{Pack: "milk", Count: 1.5, BestBefore: "2026-11-26", Opened: "2026-11-24", Day: 1, Grams: 1500, EatenG: 400},
		{Pack: "beans", Count: 2, BestBefore: "2026-11-01", Grams: 480, Past: true},
		{Pack: "ham", Count: 1, Opened: "2026-11-20", Grams: 200, Past: true},
	}}
	lines(t, "what is eaten first", barred(stockEatBy(c).Table), "day 1|milk|1.5|1.50 kg|400 g|open since 2026-11-24", "2026-11-01|beans|2|480 g|0 g|EXPIRED", "already over|ham|1|200 g|0 g|open since 2026-11-20, EXPIRED")
}

// TestWhatCompletesByHand: packs, food and cost, what they come to together and how near that
// is to the cheapest; heat without a stove that is known is no pack.
func TestWhatCompletesByHand(t *testing.T) {
	c := &check.StockCheck{Currency: "TSD", BuyCost: ptr(14.5), Buy: []check.Buy{{Pack: "rice-1kg", Food: "rice", Count: 3, Cost: 12}, {Pack: "heat", Count: 2, Cost: 2.5}}, TopUp: &ration.Plan{Gap: ptr(0.0083)}}
	sec := stockBuy(c)
	lines(t, "what completes it", barred(sec.Table), "3|rice|rice-1kg|12.00", "|fuel for 2 MJ of useful heat for cooking||2.50")
	if len(sec.Notes) != 2 || sec.Notes[0] != "Together 14.50 TSD. Water and fuel counted in, the whole is proven within 0.83 % of the cheapest possible." {
		t.Errorf("%q", sec.Notes)
	}
	c.TopUp.Request = &ration.RequestRecord{Options: map[string]string{"stove": "no such stove"}}
	lines(t, "heat of a stove that is not known", barred(stockBuy(c).Table)[1:], "|fuel for 2 MJ of useful heat for cooking||2.50")
	lines(t, "a need that is short", barred(stockShort(&check.StockCheck{People: make([]ration.PlanPerson, 2), Short: []check.StockShort{{Person: "Maja", Nutrient: "iron", Amount: 9, Floor: 18, Ceiling: 45}}}).Table), "iron|Maja|Maja|9.00|18.0|mg|50")
}

// TestCheckAsFacts: each figure in its row and column, and what is on hand only where it is
// known; where nothing completes the stock, what conflicts and what the closest ration lacks.
func TestCheckAsFacts(t *testing.T) {
	c := &check.StockCheck{
		Days: 3, DaysEnergy: 9, DaysCalories: 10.5, Horizon: 14, First: "iron", WaterNeededL: 85.2, HeatNeededMJ: 21.4, Currency: "TSD",
		Buy:    []check.Buy{{Pack: "sugar", Food: "sugar, white", Count: 1, Cost: 0.8, Reserve: true}, {Pack: "rice", Food: "white rice", Count: 3, Cost: 12}},
		People: []ration.PlanPerson{{Name: "Maja", Needs: []ration.PersonNeed{{Nutrient: "vitamin_d", Unit: "µg", Amount: 12, Floor: ptr(15), Ceiling: ptr(100)}}, Foods: []ration.PersonFood{{Food: "white rice", Grams: 2100}}}},
		Taken:  []string{"rice: white rice"},
	}
	lines(t, "the facts", filled(t, CheckCSV(c))[1:],
		"taken text=rice: white rice", "check key=balanced text=false", "check key=days amount=3 unit=d", "check key=days_energy amount=9 unit=d", "check key=days_calories amount=10.5 unit=d", "check key=horizon amount=14 unit=d",
		"check key=first text=iron", "check key=water_l_needed amount=85.2 unit=L", "check key=heat_mj_needed amount=21.4 unit=MJ",
		"buy key=sugar name=sugar, white count=1 cost=0.8 currency=TSD text=set aside", "buy key=rice name=white rice count=3 cost=12 currency=TSD",
		"need person=Maja key=vitamin_d name=vitamin D amount=12 unit=µg floor=15 ceiling=100", "food person=Maja key=white rice name=white rice amount=2100 unit=g")
	c.Buy, c.People, c.WaterOnHandL, c.HeatOnHandMJ = nil, nil, ptr(40), ptr(9.5)
	c.TopUp = &ration.Plan{Status: ration.StatusInfeasible, Conflict: []ration.ConflictLimit{{Limit: "budget", Person: "Odd"}}, WaysOut: []ration.WayOut{{Change: "3 TSD more", Cost: ptr(85), Tested: true}, {Change: "less of it"}},
		Closest: &ration.Closest{Shortfalls: []ration.Shortfall{{Person: "Odd", Nutrient: "zinc", Amount: 5, Target: 11}}}}
	lines(t, "where nothing completes it", filled(t, CheckCSV(c))[9:],
		"check key=water_l_on_hand amount=40 unit=L", "check key=heat_mj_on_hand amount=9.5 unit=MJ", "conflict person=Odd text=budget",
		"way_out key=true name=tested cost=85 currency=TSD text=3 TSD more", "way_out key=false name=tested text=less of it", "closest_shortfall person=Odd key=zinc name=zinc amount=5 unit=mg floor=11")
}
