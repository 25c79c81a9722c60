package report

import (
	"encoding/csv"
	"io"
	"strconv"

	"rationwright/solver"
)

// RotateCSV writes r as one flat table: whom its plan does not feed, then a row for each batch (section action)
// and for each line of the programme (section programme), with what became of
// it over the simulated months.
func RotateCSV(w io.Writer, r *solver.Rotation) error {
	out := csv.NewWriter(w)
	columns := []string{"section", "do", "by", "time", "pack", "name", "count", "unit", "place", "batch", "order", "uid",
		"keep_days", "packs_per_month", "packs_per_year", "cost_per_year", "currency", "no_waste", "months", "bought", "eaten", "wasted", "least", "text", "source", "verified"}
	rows := [][]string{columns}
	for _, x := range r.Refused {
		rows = append(rows, cellsOf(columns, "refused", map[string]string{"name": x.Name, "text": doesNotFeed(x), "source": x.Source}))
	}
	for _, a := range r.Actions {
		text := a.Rule
		if a.Warn != "" {
			text += "; " + a.Warn
		}
		rows = append(rows, []string{"action", a.Do, a.By, a.Time, a.Pack, a.Name, num(a.Count), a.Unit, a.Place, a.Batch, strconv.Itoa(a.Order), a.UID,
			"", "", "", "", "", "", "", "", "", "", "", text, a.Source, a.Verified})
	}
	followed := map[string]solver.FollowedPack{}
	for _, f := range r.Followed {
		followed[f.Pack] = f
	}
	for _, l := range r.Programme.Lines {
		cost, text := "", l.Rhythm
		if l.HasCost {
			cost = num(l.YearCost)
		}
		if l.Why != "" {
			text += "; " + l.Why
		}
		months, bought, eaten, wasted, least := "", "", "", "", ""
		if f, ok := followed[l.Pack]; ok {
			months, bought, eaten = strconv.Itoa(f.Months), strconv.Itoa(f.Bought), strconv.Itoa(f.Eaten)
			wasted, least = strconv.Itoa(f.Wasted), strconv.Itoa(f.Least)
		}
		rows = append(rows, []string{"programme", "", "", "", l.Pack, l.Name, strconv.Itoa(l.Target), "", "", "", "", "",
			strconv.Itoa(l.KeepDays), num(l.PerMonth), num(l.PerYear), cost, r.Currency, strconv.FormatBool(l.NoWaste), months, bought, eaten, wasted, least, text, "", ""})
	}
	if err := out.WriteAll(rows); err != nil {
		return err
	}
	return out.Error()
}
