package report

import (
	"encoding/csv"
	"io"
	"strconv"

	"rationwright/solver"
)

// CheckCSV writes a stock check as one flat table, one fact a row.
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
	fact("balanced", "", "", strconv.FormatBool(c.Balanced))
	fact("days", strconv.Itoa(c.Days), "d", "")
	fact("days_energy", strconv.Itoa(c.DaysEnergy), "d", "")
	fact("horizon", strconv.Itoa(c.Horizon), "d", "")
	fact("first", "", "", c.First)
	fact("water_l_needed", num(c.WaterNeededL), "L", "")
	fact("heat_mj_needed", num(c.HeatNeededMJ), "MJ", "")
	for _, r := range c.Refused {
		add("refused", r.Name, "", "", "", "", "", "", "", "", r.Reason)
	}
	for _, s := range c.Short {
		add("short", s.Person, s.Nutrient, "", "", num(s.Amount), s.Unit, num(s.Floor), "", "", "")
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
	for _, e := range c.EatBy {
		add("eat_by", "", e.Pack, "", num(e.Count), "", "", "", "", "", e.BestBefore)
	}
	for _, x := range c.Useless {
		add("useless", "", x.Pack, "", num(x.Count), "", "", "", "", "", x.Reason)
	}
	out := csv.NewWriter(w)
	if err := out.WriteAll(rows); err != nil {
		return err
	}
	return out.Error()
}
