package report

import (
	"fmt"
	"math"
	"strconv"

	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/stockpile"
)

// heat is what gives the heat of the plan, by stove and fuel.
func heat(s *stockpile.Stockpile, u sheet.Units) sheet.Section {
	h := &s.Heat
	sec := sheet.Section{Title: "Heat and fuel"}
	if h.UsefulMJ <= 0 {
		sec.Lead = append(sec.Lead, "Nothing in the plan is heated: no fuel is needed.")
		return sec
	}
	sec.Lead = append(sec.Lead, fmt.Sprintf("The plan takes %s of useful heat, %s a day, cooking up to %s.", u.Heat2(h.UsefulMJ), u.Heat2(h.PerDayMJ), h.Cook))
	sec.Lead.If(h.OnHandMJ > 0, "Fuel on hand gives %s of it; the table is for the rest.", u.Heat2(h.OnHandMJ))
	if h.DaysWithout != nil {
		sec.Lead = append(sec.Lead, fmt.Sprintf("From the fuel on hand alone, at poor efficiency, %s of the %d cannot be cooked for.", sheet.Count(*h.DaysWithout, "day", "days"), s.Days))
	}
	g := sheet.NewGrid(">keep", "~stove", "=pack", ">weight", ">good-poor", ">one lasts", "~use")
	for _, f := range h.Fuels {
		where := "room with open window"
		if f.Stove.OutdoorsOnly() {
			where = "outdoors only"
		}
		if f.TooWeak != "" {
			where = "TOO WEAK for this plan; " + where
		}
		g.Row("", strconv.Itoa(f.Packs), f.Stove.Name, f.Stove.Pack, u.Weight(f.WeightKg),
			fromTo(strconv.Itoa(f.PacksGood), strconv.Itoa(f.PacksPoor)), lasts(f.PackDays), where)
	}
	sec.Table = g
	reserve := h.Fuels[0].Reserve
	sec.Notes = append(sec.Notes,
		fmt.Sprintf("The first is the plan's stove. \"keep\" is whole packs: the typical need with a reserve of %s %%, and no less than at poor efficiency. \"good-poor\" is whole packs at good and at poor efficiency, without reserve; \"one lasts\" is days at poor to good efficiency.", sheet.Decimals(100*(reserve-1), 0)))
	first := h.Fuels[0].Stove
	sec.Notes = append(sec.Notes, fmt.Sprintf("- %s: %s (heat: %s; sizes and efficiencies: common practice (from memory)). Keep it: %s.", sheet.Capital(first.Fuel), first.Where, ref(first.Ref), first.Keep))
	sec.Notes.If(first.Note != "", "- %s", sheet.Sentence(first.Note))
	for _, r := range h.Rules {
		sec.Notes = append(sec.Notes, "- "+sheet.Sourced(r.Note, ref(r.Ref)))
	}
	return sec
}

// lasts writes the days that one pack lasts, poor to good.
func lasts(days *[3]float64) string {
	if days == nil {
		return ""
	}
	return fromTo(oneDay(days[0]), oneDay(days[2])) + " d"
}

// fromTo writes a range, or one figure where both ends are the same.
func fromTo(low, high string) string {
	if low == high {
		return low
	}
	return low + "-" + high
}

// manyDays is where a number of days is no more worth a figure.
const manyDays = 999

func oneDay(d float64) string {
	switch {
	case d > manyDays:
		return ">" + strconv.Itoa(manyDays)
	case d >= 10:
		return sheet.Decimals(math.Floor(d), 0)
	}
	return sheet.Decimals(math.Floor(10*d)/10, 1)
}
