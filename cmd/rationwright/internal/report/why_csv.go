package report

import (
	"io"
	"strconv"

	"rationwright/solver"
)

// WhyCSV writes prices as one flat table, one fact a row:
//
//	refused  who is not fed
//	limit    what one unit more and one less of it change; no amount for a share of energy
//	pack     the price at which it enters or leaves
func WhyCSV(w io.Writer, y *solver.Why) error {
	columns := []string{"section", "person", "limit", "unit", "amount", "side", "marginal", "more", "less", "no_more", "food", "ndb", "chosen", "in_plan", "factor", "pack", "price", "packs", "enters", "leaves", "price_unit", "text"}
	rows := [][]string{columns}
	row := func(section string, cells map[string]string) { rows = append(rows, cellsOf(columns, section, cells)) }
	for _, r := range y.Refused {
		row("refused", map[string]string{"person": r.Name, "text": doesNotFeed(r)})
	}
	for _, l := range y.Limits {
		side := "at least"
		if l.AtMost {
			side = "at most"
		}
		row("limit", map[string]string{"person": l.Person, "limit": l.Limit, "unit": l.Unit, "amount": maybe(l.Amount), "side": side,
			"marginal": num(l.Marginal), "more": maybe(l.More), "less": maybe(l.Less), "no_more": strconv.FormatBool(l.NoMore), "price_unit": y.Unit})
	}
	for _, f := range y.Foods {
		for _, p := range f.Packs {
			row("pack", map[string]string{"food": f.Food, "ndb": f.NDB, "chosen": strconv.FormatBool(f.Chosen), "in_plan": strconv.Itoa(f.InPlan),
				"factor": maybe(f.Factor), "pack": p.Pack, "price": num(p.Price), "packs": num(p.Chosen), "enters": maybe(p.Enters), "leaves": maybe(p.Leaves), "price_unit": y.Unit})
		}
	}
	return writeRows(w, rows)
}

// cellsOf lays out one row of a flat table: the section first, each cell under its
// column, "" where there is none.
func cellsOf(columns []string, section string, cells map[string]string) []string {
	line := make([]string, len(columns))
	for k, name := range columns {
		line[k] = cells[name]
	}
	line[0] = section
	return line
}
