package foods

import (
	"errors"
	"io"
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
	seen := map[string]bool{}
	for _, row := range in.Rows {
		r := rule{
			advice: row.Choice("effect", "bar", "handle") == "handle",
			Reason: Reason{
				Rule:     row.Text("rule"),
				Text:     row.Text("reason"),
				Safety:   row.Choice("safety", "yes", "no") == "yes",
				Source:   row.Text("source"),
				Verified: row.Text("verified"),
			},
		}
		if seen[r.Rule] {
			row.Fail("rule", ErrTwice, "give each rule a key of its own")
		}
		seen[r.Rule] = true
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
			key:  row.Text("cap"),
			unit: row.Text("unit"),
			Reason: Reason{
				Rule:     row.Text("cap"),
				Text:     row.Text("reason"),
				Source:   row.Text("source"),
				Verified: row.Text("verified"),
			},
		}
		r.Safety = row.Choice("safety", "yes", "no") == "yes"
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

// readPattern reads a table in the columns of data/pattern.csv.
func readPattern(file string, r io.Reader) ([]patternRow, error) {
	in, err := table.Read(file, r, append(filled("pattern kcal_level group published_per_day scale unit source"), columns("verified note")...))
	if err != nil {
		return nil, err
	}
	type key struct {
		pattern, group string
		level          float64
	}
	seen := map[key]bool{}
	var rows []patternRow
	for _, row := range in.Rows {
		p := patternRow{
			pattern:  row.Choice("pattern", patternNames...),
			unit:     row.Text("unit"),
			source:   row.Text("source"),
			verified: row.Text("verified"),
			note:     row.Text("note"),
		}
		names := make([]string, len(PatternGroups))
		for i, g := range PatternGroups {
			names[i] = g.Name
		}
		p.group = row.Choice("group", names...)
		if unit, ok := patternUnit(p.group); ok && unit != p.unit {
			row.Fail("unit", errors.New("not the unit of this group"), "write "+unit)
		}
		p.level, _ = row.Float("kcal_level", 100, 10_000)
		p.published, _ = row.Float("published_per_day", 0, 1000)
		p.scale, _ = row.Float("scale", 0, 2)
		k := key{p.pattern, p.group, p.level}
		if seen[k] {
			row.Fail("kcal_level", ErrTwice, "leave one row for each pattern, group and level")
		}
		seen[k] = true
		rows = append(rows, p)
	}
	return rows, in.Err()
}
