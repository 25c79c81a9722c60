package nutrients

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"rationwright/nutrients/table"
)

// householdFormat is household.csv. Age is in whole years, or in months, or in
// years and the months beyond them.
var householdFormat = table.Format{
	Row: "person",
	Columns: slices.Concat(table.Filled.Columns("name"), table.Optional.Columns("age_years age_months"), table.Filled.Columns("sex"),
		table.Optional.Columns("height_cm weight_kg activity state feeding"),
		table.Optional.Columns("conditions allergies dislikes rules orders supplements count")),
}

// Bounds on what a household may hold. They only catch slips of the pen.
const (
	maxCount  = 10_000
	maxPeople = 10_000
)

// ReadHousehold reads household.csv, which errors call name: one row for each
// person or for alike persons. Required are name, sex and an age: age_years in
// whole years (eligibility then goes by the youngest month of that year, energy
// by its middle), age_months in months where age_years is empty, or both,
// age_months then counting the 0–11 months beyond the years. A child under one
// year needs months. weight_kg is the present weight, in pregnancy too. The
// other columns take the words of the constants of this package; lists are
// separated by semicolons, and foods in dislikes and rules stay as written.
//
// The error is a [*table.Errors] with every fault of the file, and then there
// are no people. Warnings are located lines for the user.
func ReadHousehold(name string, r io.Reader) (people []Person, warnings []string, err error) {
	t, err := householdFormat.Read(name, r)
	if t == nil {
		return nil, nil, err
	}
	names := map[string]int{}
	for _, row := range t.Rows {
		p := readPerson(row)
		if first, twice := names[strings.ToLower(p.Name)]; twice && p.Name != "" {
			row.Fail("name", fmt.Errorf("already in line %d", first), "give each row its own name; count stands for alike people")
		} else {
			names[strings.ToLower(p.Name)] = row.Line
		}
		people = append(people, p)
	}
	if len(people) > maxPeople {
		t.Rows[maxPeople].Fail("name", fmt.Errorf("more than %d rows", maxPeople), "use count for alike people, or batch for many households")
	}
	if err := t.Err(); err != nil {
		return nil, t.Warnings, err
	}
	return people, t.Warnings, nil
}

func readPerson(row *table.Row) Person {
	p := Person{
		Name:     readName(row),
		Sex:      Sex(row.Choice("sex", sexes...)),
		Activity: Activity(row.Choice("activity", activities...)),
		State:    State(row.Choice("state", states...)),
		Feeding:  Feeding(row.Choice("feeding", feedings...)),
		Dislikes: row.List("dislikes"),
		Count:    1,
	}
	if p.Activity == "" {
		p.Activity = LowActive
	}
	aged := readAge(row, &p)
	p.HeightCm, _ = row.Float("height_cm", minHeightCm, maxHeightCm)
	p.WeightKg, _ = row.Float("weight_kg", minWeightKg, maxWeightKg)
	for _, word := range row.Choices("conditions", conditions...) {
		p.Conditions = append(p.Conditions, Condition(word))
	}
	p.Allergies = readAllergies(row)
	p.Rules = readRules(row)
	p.Orders = readOrders(row)
	if n, ok := row.Int("count", 1, maxCount); ok {
		p.Count = n
	}
	p.Supplements = readSupplementNames(row, &p, aged)
	checkPerson(row, &p, aged)
	return p
}

func readName(row *table.Row) string {
	name := row.Text("name")
	if utf8.RuneCountInString(name) > maxNameLength {
		row.Fail("name", errors.New("too long"), fmt.Sprintf("use at most %d letters", maxNameLength))
	}
	if strings.IndexFunc(name, func(r rune) bool { return !unicode.IsPrint(r) }) >= 0 {
		row.Fail("name", errors.New("it holds a line break or another character that cannot be printed"), "write it in one line of letters")
	}
	return name
}

// readAge reads the age of p and reports whether there is one.
func readAge(row *table.Row, p *Person) bool {
	years, haveYears := row.Int("age_years", 0, maxAgeYears)
	most, extra := 12*maxAgeYears+11, false
	if row.Has("age_years") {
		most, extra = 11, true
	}
	months, haveMonths := 0, false
	if v, _, err := table.ParseFloat(row.Text("age_months")); extra && err == nil && v > float64(most) {
		row.Fail("age_months", fmt.Errorf("%w: beside age_years it counts the months beyond the years", table.ErrRange), "write 0 to 11, or leave age_years empty")
	} else {
		months, haveMonths = row.Int("age_months", 0, most)
	}
	switch {
	case !row.Has("age_years") && !row.Has("age_months"):
		row.Fail("age_years", table.ErrEmpty, "write the age in years, or in months in age_months")
		return false
	case haveYears && years == 0 && !row.Has("age_months"):
		row.Fail("age_years", errors.New("a child under one year needs its age in months"), "write age_months")
		return false
	case row.Has("age_years") != haveYears, row.Has("age_months") != haveMonths:
		return false // recorded above
	}
	p.AgeMonths = 12*years + months
	p.YearsOnly = !haveMonths
	return true
}
