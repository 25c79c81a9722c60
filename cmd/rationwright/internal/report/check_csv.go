package report

import (
	"strings"

	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/headline"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/check"
)

// CheckCSV writes a stock check as one flat table, one fact a row:
//
//	refused headline  the worst news
//	taken    text is what a line of a list in people's words was taken for
//	check    balanced, days, what runs out first, water and heat
//	short over excess buy useless
//	eat_by   amount is what can be eaten by then, ceiling what the packs hold
//	conflict way_out closest_shortfall   as in a plan, only where nothing completes it within the limits
//	need     what each person gets a day from the stock alone; food what they eat of it
func CheckCSV(c *check.StockCheck) *facts.Table {
	t := facts.New("section person key name count amount unit floor ceiling cost currency text")
	worst(t, "person", headline.Check(c))
	for _, said := range c.Taken {
		t.Add("taken", facts.Row{"text": said})
	}
	fact := func(key string, amount any, unit string) {
		t.Add("check", facts.Row{"key": key, "amount": amount, "unit": unit})
	}
	t.Add("check", facts.Row{"key": "balanced", "text": c.Balanced})
	fact("days", c.Days, "d")
	fact("days_energy", c.DaysEnergy, "d")
	fact("days_calories", c.DaysCalories, "d")
	fact("horizon", c.Horizon, "d")
	t.Add("check", facts.Row{"key": "first", "text": c.First})
	fact("water_l_needed", c.WaterNeededL, "L")
	fact("heat_mj_needed", c.HeatNeededMJ, "MJ")
	t.AddIf(c.WaterOnHandL != nil, "check", facts.Row{"key": "water_l_on_hand", "amount": c.WaterOnHandL, "unit": "L"})
	t.AddIf(c.HeatOnHandMJ != nil, "check", facts.Row{"key": "heat_mj_on_hand", "amount": c.HeatOnHandMJ, "unit": "MJ"})
	t.Each("short", c.Short, "person key=nutrient amount unit floor", nil)
	t.Each("over", c.Over, "person key=nutrient amount unit ceiling", nil)
	t.Each("excess", c.Excess, "person key=nutrient amount unit ceiling", nil)
	for i, b := range c.Buy {
		row := facts.Row{"currency": c.Currency}
		if b.Reserve {
			row["text"] = "set aside"
		}
		t.Each("buy", c.Buy[i:i+1], "key=pack name=food count cost", row)
	}
	if noTopUp(c) {
		conflictFacts(t, c.TopUp, c.Currency)
		if near := c.TopUp.Closest; near != nil {
			shortFacts(t, "closest_shortfall", "floor", near.Shortfalls)
		}
	}
	for i, e := range c.EatBy {
		text := strings.TrimSpace(e.BestBefore + sheet.Around(" opened ", e.Opened, ""))
		t.Each("eat_by", c.EatBy[i:i+1], "key=pack name=food count amount=eaten_g ceiling=grams", facts.Row{"unit": "g", "text": text})
	}
	t.Each("useless", c.Useless, "key=pack name=food count text=reason", nil)
	for i := range c.People {
		e := &c.People[i]
		for _, n := range e.Needs {
			t.Add("need", facts.Row{"person": e.Name, "key": n.Nutrient, "name": sheet.Nutrient(n.Nutrient), "amount": n.Amount, "unit": n.Unit, "floor": n.Floor, "ceiling": n.Ceiling})
		}
		t.Each("food", e.Foods, "key=food name=food amount=grams", facts.Row{"person": e.Name, "unit": "g"})
	}
	return t
}
