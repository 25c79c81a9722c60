package stockpile

import (
	"math"

	"rationwright/foods/stores"
	"rationwright/solver/ration"
)

// StoredHeat is the heat of the plan, and what fuel gives it.
type StoredHeat struct {
	UsefulMJ float64      `json:"useful_mj"`            // into the pot, of the plan
	OnHandMJ float64      `json:"on_hand_mj,omitempty"` // of it
	PerDayMJ float64      `json:"per_day_mj"`
	Cook     ration.Cook  `json:"cook"`
	Stove    string       `json:"stove"` // of the plan
	Fuels    []FuelChoice `json:"fuels"` // the plan's stove first
	// DaysWithout are days of the horizon on which nothing can be heated from
	// what is on hand alone; nil where the stock list has no fuel.
	DaysWithout *int              `json:"days_without,omitempty"`
	Rules       []stores.FuelRule `json:"rules"` // where a flame may burn
}

// FuelChoice is what one fuel takes for the heat that is not on hand.
type FuelChoice struct {
	stores.FuelNeed
	// Days that one pack lasts at poor, typical and good efficiency; absent
	// where there is nothing to heat.
	PackDays *[3]float64 `json:"pack_days,omitempty"`
}

// storedHeat works out the fuel of a plan on a stove and, beside it, on every
// other.
func storedHeat(r *ration.Request, plan *ration.Plan, stove string) (StoredHeat, error) {
	if stove == "" {
		stove = r.Stove
	}
	h := StoredHeat{
		UsefulMJ: plan.Totals.HeatMJ, OnHandMJ: plan.Totals.OwnHeatMJ,
		PerDayMJ: plan.Totals.HeatMJ / float64(r.Days), Cook: r.Cook, Stove: stove,
	}
	first, err := stores.StoveByName(stove)
	if err != nil {
		return h, err
	}
	list := []stores.Stove{*first}
	for _, s := range stores.Stoves() {
		if s.Name != stove {
			list = append(list, s)
		}
	}
	cook := string(r.Cook)
	if h.UsefulMJ <= 0 {
		cook = ""
	}
	for i := range list {
		s := &list[i]
		choice := FuelChoice{FuelNeed: stores.FuelFor(s, h.UsefulMJ-h.OnHandMJ, cook)}
		if h.PerDayMJ > 0 {
			poor, typical, good := stores.FuelDays(s, 1, h.PerDayMJ)
			choice.PackDays = &[3]float64{poor, typical, good}
		}
		h.Fuels = append(h.Fuels, choice)
	}
	if r.StockHeatMJ != nil && h.PerDayMJ > 0 {
		days := max(0, r.Days-int(math.Floor(*r.StockHeatMJ/h.PerDayMJ+ration.CheckTolerance)))
		h.DaysWithout = &days
	}
	for _, rule := range stores.FuelRules() {
		if rule.Key == "indoor_rule" || rule.Key == "indoor_exception" || rule.Key == "co_alarm" {
			h.Rules = append(h.Rules, rule)
		}
	}
	return h, nil
}
