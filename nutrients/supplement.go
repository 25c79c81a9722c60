package nutrients

import (
	"slices"
	"strings"

	"rationwright/nutrients/table"
)

// supplementRow is one row of supplements.csv: a nutrient of a supplement, for
// some ages and states.
type supplementRow struct {
	ages
	states []string // of household.csv; "may conceive" and "not pregnant" besides
	sex    string
	barred []Condition
	Supplement
	dose Dose
}

// supplementTable is supplements.csv.
type supplementTable struct{ supplements []supplementRow }

func (d *supplementTable) read() error {
	const columns = "supplement who from_months under_months state sex barred nutrient amount unit taken ul_us ul_eu must_not why opt_in source verified note"
	return readData("supplements.csv", columns, func(row *table.Row) {
		s := supplementRow{
			ages: agesFrom(row, "from_months", "under_months"), states: row.List("state"), sex: row.Text("sex"),
			Supplement: Supplement{
				Name: row.Text("supplement"), Taken: row.Text("taken"), Who: row.Text("who"), MustNot: row.Text("must_not"), Why: row.Text("why"),
				Source: row.Text("source"), Verified: row.Text("verified"),
			},
		}
		for _, word := range row.List("barred") {
			s.barred = append(s.barred, Condition(word))
		}
		f := figureOf(row, "amount", row.Text("unit"))
		column := row.Text("nutrient")
		s.dose = Dose{Of: column, Column: Count, Amount: f.Value, Unit: f.Unit, Note: f.Note}
		if n, ok := ByColumn(column); ok {
			s.dose.Of, s.dose.Column, s.dose.Unit = n.Name(), n, n.Unit()
		}
		if v, ok := row.Float("ul_us", 0, 1e6); ok {
			s.dose.UL = &Limit{Amount: v, Kind: "UL", Source: f.Source, Verified: f.Verified}
		}
		d.supplements = append(d.supplements, s)
	})
}

// suits says why the row is not for p, "" when it is.
func (s *supplementRow) suits(p *Person) string {
	switch {
	case !s.has(p.AgeMonths):
		return "not for the age of " + ageText(p.AgeMonths)
	case s.sex != "" && s.sex != string(p.Sex):
		return "not for a man or boy"
	case s.dose.Amount != s.dose.Amount: // only a clinician sets the amount
		return "only a clinician gives it"
	}
	for _, c := range s.barred {
		if p.Has(c) {
			return "not with " + string(c) + " without a clinician"
		}
	}
	if len(s.states) == 0 || slices.Contains(s.states, string(p.State)) && p.State != NoState {
		return ""
	}
	if slices.Contains(s.states, "not pregnant") && !p.Pregnant() || slices.Contains(s.states, "may conceive") && p.State == NoState {
		return ""
	}
	return "not for this state: it is for " + s.Who
}

// supplementNames lists the generic names once each.
func (d *supplementTable) supplementNames() []string {
	var names []string
	for _, s := range d.supplements {
		if !slices.Contains(names, s.Name) {
			names = append(names, s.Name)
		}
	}
	return names
}

// supplement returns a supplement as it suits p; why says why it does not.
func (d *supplementTable) supplement(name string, p *Person) (s Supplement, why string) {
	for i := range d.supplements {
		row := &d.supplements[i]
		if row.Name != name {
			continue
		}
		if reason := row.suits(p); reason != "" {
			why = reason
			continue
		}
		if s.Name == "" {
			s = row.Supplement
		} else if slices.ContainsFunc(s.Doses, func(d Dose) bool { return d.Of == row.dose.Of }) {
			continue // two rows of the table suit p: the first holds
		}
		s.Doses = append(s.Doses, row.dose)
	}
	if s.Name != "" {
		why = ""
	}
	return s, why
}

// tablet returns the name of the first supplement for p that holds one nutrient and
// nothing else, "" where there is none.
func (d *supplementTable) tablet(of string, p *Person) string {
	for _, name := range d.supplementNames() {
		if s, why := d.supplement(name, p); why == "" && len(s.Doses) == 1 && s.Doses[0].Of == of {
			return s.Name
		}
	}
	return ""
}

// micrograms writes the name of a supplement, typed with "ug" as keyboards have it, as
// it is printed.
func micrograms(name string) string { return strings.ReplaceAll(name, " ug", " µg") }

// takes reports whether p has opted into a supplement whose name begins so.
func (p *Person) takes(names ...string) bool {
	return slices.ContainsFunc(p.Supplements, func(s string) bool {
		return slices.ContainsFunc(names, func(name string) bool { return strings.HasPrefix(strings.ToLower(s), strings.ToLower(name)) })
	})
}
