package report

import (
	"io"
	"strconv"
	"strings"

	"rationwright/solver"
)

// CheckCSV writes a stock check as one flat table, one fact a row:
//
//	refused  who is not fed
//	check    balanced, days, what runs out first, water and heat
//	short over excess buy useless
//	eat_by   amount is what can be eaten by then, ceiling what the packs hold
//	conflict way_out closest_shortfall   as in a plan, only where nothing completes it within the limits
//	need     what each person gets a day from the stock alone; food what they eat of it
func CheckCSV(w io.Writer, c *solver.StockCheck) error {
	rows := [][]string{{"section", "person", "key", "name", "count", "amount", "unit", "floor", "ceiling", "cost", "currency", "text"}}
	add := func(section, person, key, name, count, amount, unit, floor, ceiling, cost, text string) {
		currency := ""
		if cost != "" {
			currency = c.Currency
		}
		rows = append(rows, []string{section, person, key, name, count, amount, unit, floor, ceiling, cost, currency, text})
	}
	fact := func(key, amount, unit, text string) { add("check", "", key, "", "", amount, unit, "", "", "", text) }
	for _, r := range c.Refused { // stands first in every output
		add("refused", r.Name, "", "", "", "", "", "", "", "", doesNotFeed(r))
	}
	fact("balanced", "", "", strconv.FormatBool(c.Balanced))
	fact("days", strconv.Itoa(c.Days), "d", "")
	fact("days_energy", strconv.Itoa(c.DaysEnergy), "d", "")
	fact("days_calories", num(c.DaysCalories), "d", "")
	fact("horizon", strconv.Itoa(c.Horizon), "d", "")
	fact("first", "", "", c.First)
	fact("water_l_needed", num(c.WaterNeededL), "L", "")
	fact("heat_mj_needed", num(c.HeatNeededMJ), "MJ", "")
	if c.WaterOnHandL != nil {
		fact("water_l_on_hand", num(*c.WaterOnHandL), "L", "")
	}
	if c.HeatOnHandMJ != nil {
		fact("heat_mj_on_hand", num(*c.HeatOnHandMJ), "MJ", "")
	}
	for _, s := range c.Short {
		add("short", s.Person, s.Nutrient, "", "", num(s.Amount), s.Unit, num(s.Floor), "", "", "")
	}
	for _, s := range c.Over {
		add("over", s.Person, s.Nutrient, "", "", num(s.Amount), s.Unit, "", num(s.Ceiling), "", "")
	}
	for _, s := range c.Excess {
		add("excess", s.Person, s.Nutrient, "", "", num(s.Amount), s.Unit, "", num(s.Ceiling), "", "")
	}
	for _, b := range c.Buy {
		text := ""
		if b.Reserve {
			text = "set aside"
		}
		add("buy", "", b.Pack, b.Food, strconv.Itoa(b.Count), "", "", "", "", num(b.Cost), text)
	}
	if noTopUp(c) {
		for _, x := range c.TopUp.Conflict {
			add("conflict", x.Person, "", "", "", "", "", "", "", "", x.Limit)
		}
		for _, x := range c.TopUp.WaysOut {
			add("way_out", "", strconv.FormatBool(x.Tested), "tested", "", "", "", "", "", maybe(x.Cost), x.Change)
		}
		if near := c.TopUp.Closest; near != nil {
			for _, x := range near.Shortfalls {
				add("closest_shortfall", x.Person, x.Nutrient, NutrientName(x.Nutrient), "", num(x.Amount), unitOf(x.Unit, x.Nutrient), num(x.Target), "", "", "")
			}
		}
	}
	for _, e := range c.EatBy {
		text := e.BestBefore
		if e.Opened != "" {
			text = strings.TrimSpace(text + " opened " + e.Opened)
		}
		add("eat_by", "", e.Pack, e.Food, num(e.Count), num(e.EatenG), "g", "", num(e.Grams), "", text)
	}
	for _, x := range c.Useless {
		add("useless", "", x.Pack, x.Food, num(x.Count), "", "", "", "", "", x.Reason)
	}
	for i := range c.People {
		for _, n := range c.People[i].Needs {
			add("need", c.People[i].Name, n.Nutrient, NutrientName(n.Nutrient), "", num(n.Amount), n.Unit, maybe(n.Floor), maybe(n.Ceiling), "", "")
		}
		for _, f := range c.People[i].Foods {
			add("food", c.People[i].Name, f.Food, f.Food, "", num(f.Grams), "g", "", "", "", "")
		}
	}
	return writeRows(w, rows)
}
