package foods

import (
	"slices"
	"sync"

	"rationwright/nutrients/table"
)

// embeddedRules are the rows of data/eligibility.csv, parsed once.
var embeddedRules = sync.OnceValues(func() ([]rule, error) {
	in, err := embedded("eligibility.csv", append(filled("rule who food effect reason safety source verified"), columns("from_months under_months")...))
	if err != nil {
		return nil, err
	}
	var rules []rule
	for _, row := range in.Rows {
		r := rule{
			advice: row.Choice("effect", "bar", "handle") == "handle",
			Reason: Reason{
				Rule:     row.Text("rule"),
				Text:     row.Text("reason"),
				Safety:   row.Yes("safety"),
				Source:   row.Text("source"),
				Verified: row.Text("verified"),
			},
		}
		if slices.ContainsFunc(rules, func(o rule) bool { return o.Rule == r.Rule }) {
			row.Fail("rule", ErrTwice, "give each rule a key of its own")
		}
		r.from, r.under = readAges(row)
		if r.who, err = parseWho(row.Text("who")); err != nil {
			row.Fail("who", err, "")
		}
		r.Everyone = r.who.kind == "all" && r.from == 0 && r.under == 0
		if r.food, err = parseTerms(row.Text("food")); err != nil {
			row.Fail("food", err, "")
		}
		rules = append(rules, r)
	}
	return rules, in.Err()
})

// embeddedCaps are the rows of data/caps.csv, parsed once.
var embeddedCaps = sync.OnceValues(func() ([]capRow, error) {
	in, err := embedded("caps.csv", append(filled("cap who value unit reason safety source verified"), columns("from_months under_months")...))
	if err != nil {
		return nil, err
	}
	var rows []capRow
	for _, row := range in.Rows {
		r := capRow{
			Reason: Reason{
				Rule:     row.Text("cap"),
				Text:     row.Text("reason"),
				Safety:   row.Yes("safety"),
				Source:   row.Text("source"),
				Verified: row.Text("verified"),
			},
		}
		r.value, _ = row.Float("value", 0, mostGrams)
		r.from, r.under = readAges(row)
		if r.who, err = parseWho(row.Text("who")); err != nil {
			row.Fail("who", err, "")
		}
		rows = append(rows, r)
	}
	return rows, in.Err()
})

// mostMonths is the highest age in months that a rule may name.
const mostMonths = 1500

func readAges(row *table.Row) (from, under int) {
	from, _ = row.Int("from_months", 0, mostMonths)
	under, ok := row.Int("under_months", 1, mostMonths)
	if ok && under <= from {
		row.Fail("under_months", table.ErrRange, "write an age above from_months")
	}
	return from, under
}

// capRow is one row of data/caps.csv: an amount for some people.
type capRow struct {
	who         who
	from, under int // full months of age; under 0 means no upper end
	value       float64
	Reason      // its Rule is the key of the row
}
