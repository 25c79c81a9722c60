package report

import (
	"rationwright/cmd/rationwright/internal/facts"
	"rationwright/cmd/rationwright/internal/headline"
	"rationwright/cmd/rationwright/internal/sheet"
	"rationwright/solver/stockpile"
)

// RotateCSV writes r as one flat table: the worst news of its plan, then a row for
// each batch (section action) and for each line of the programme (section
// programme), with what became of it over the simulated months.
func RotateCSV(r *stockpile.Rotation) *facts.Table {
	t := facts.New("section do by time pack name count unit place batch order uid keep_days packs_per_month packs_per_year cost_per_year currency no_waste months bought eaten wasted least text source verified")
	worst(t, "name", headline.Of(r.NotFed))
	for i, a := range r.Actions {
		t.Each("action", r.Actions[i:i+1], "do by time pack name count unit place batch order uid source verified",
			facts.Row{"text": a.Rule + sheet.Around("; ", a.Warn, "")})
	}
	for _, l := range r.Programme.Lines {
		row := facts.Row{"pack": l.Pack, "name": l.Name, "count": l.Target, "keep_days": l.KeepDays, "packs_per_month": l.PerMonth, "packs_per_year": l.PerYear,
			"currency": r.Currency, "no_waste": l.NoWaste, "text": l.Rhythm + sheet.Around("; ", l.Why, "")}
		if l.HasCost {
			row["cost_per_year"] = l.YearCost
		}
		for _, f := range r.Followed {
			if f.Pack == l.Pack {
				row["months"], row["bought"], row["eaten"], row["wasted"], row["least"] = f.Months, f.Bought, f.Eaten, f.Wasted, f.Least
			}
		}
		t.Add("programme", row)
	}
	return t
}
