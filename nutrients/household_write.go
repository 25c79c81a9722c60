package nutrients

import (
	"bytes"
	"strconv"
	"strings"

	"rationwright/nutrients/table"
)

// HouseholdRows returns people as the rows of household.csv, header first and
// every column present, so that [ReadHouseholdRows] reads the same people back.
func HouseholdRows(people []Person) [][]string {
	rows := [][]string{table.Words(householdFormat.Columns, func(c table.Column) string { return c.Name })}
	for i := range people {
		rows = append(rows, householdRow(&people[i]))
	}
	return rows
}

func householdRow(p *Person) []string {
	years, months := strconv.Itoa(p.AgeMonths/12), ""
	if !p.YearsOnly {
		years, months = "", strconv.Itoa(p.AgeMonths)
	}
	conditions := table.Words(p.Conditions, func(c Condition) string { return string(c) })
	allergies, rules := table.Words(p.Allergies, Allergy.String), table.Words(p.Rules, Rule.String)
	list := func(parts []string) string { return strings.Join(parts, "; ") }
	return []string{
		p.Name, years, months, string(p.Sex), measure(p.HeightCm), measure(p.WeightKg),
		string(p.Activity), string(p.State), string(p.Feeding),
		list(conditions), list(allergies), list(p.Dislikes), list(rules), p.Orders.String(), list(p.Supplements), strconv.Itoa(p.Count),
	}
}

// ReadHouseholdRows reads people from rows as [HouseholdRows] gives them, such
// as those inside a plan; otherwise it is [ReadHousehold].
func ReadHouseholdRows(name string, rows [][]string) (people []Person, warnings []string, err error) {
	var text bytes.Buffer
	if len(rows) > 0 {
		if err := table.Write(&text, rows[0], rows[1:]); err != nil {
			return nil, nil, err
		}
	}
	return ReadHousehold(name, &text)
}
