package nutrients

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"rationwright/nutrients/table"
)

// Supplement is a generic tablet or drops that a household has opted into by
// name, as it suits a person's age and state.
type Supplement struct {
	Name    string // as in data/supplements.csv
	Doses   []Dose // what one day's holds
	Taken   string // how often: "1 a day"
	Who     string // whom it is for
	MustNot string // who must not take it without a clinician
	Why     string

	Source, Verified string
}

// Dose is one nutrient of a supplement, a day.
type Dose struct {
	Of     string   // name of the nutrient; iodine and folic acid have no need in the food table
	Column Nutrient // the column of the food table in whose unit Amount is; Count where it has none
	Amount float64  // in Unit
	Unit   string
	UL     *Limit // published upper level of the US tables, nil where there is none
	Note   string
}

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

func readSupplements(d *published) error {
	columns := []string{"supplement", "who", "from_months", "under_months", "state", "sex", "barred", "nutrient", "amount", "unit", "taken", "ul_us", "ul_eu", "must_not", "why", "opt_in", "source", "verified", "note"}
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
		for n := range Count {
			if n.Column() == column {
				s.dose.Of, s.dose.Column, s.dose.Unit = n.Name(), n, n.Unit()
			}
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
func (d *published) supplementNames() []string {
	var names []string
	for _, s := range d.supplements {
		if !slices.Contains(names, s.Name) {
			names = append(names, s.Name)
		}
	}
	return names
}

// supplement returns a supplement as it suits p; why says why it does not.
func (d *published) supplement(name string, p *Person) (s Supplement, why string) {
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

// readSupplementNames reads the column supplements, and refuses what the person
// must not take or what passes an upper level together.
func readSupplementNames(row *table.Row, p *Person, aged bool) []string {
	d, err := data()
	if err != nil {
		return nil
	}
	var chosen []string
	total := map[string]float64{}
	names := d.supplementNames()
	for _, part := range row.List("supplements") {
		name := supplementCalled(part, names)
		if name == "" {
			fix := table.Suggest(part, names)
			if fix == "" {
				fix = "known are: " + strings.Join(names, "; ")
			}
			row.FailValue("supplements", part, table.ErrUnknownWord, fix)
			continue
		}
		if slices.Contains(chosen, name) {
			row.FailValue("supplements", part, errors.New("written twice"), "leave one")
			continue
		}
		if !aged || p.Sex == "" {
			continue
		}
		s, why := d.supplement(name, p)
		if why != "" {
			row.FailValue("supplements", part, errors.New(why), "leave it out, or ask a clinician")
			continue
		}
		for _, dose := range s.Doses {
			total[dose.Of] += dose.Amount
			if dose.UL != nil && total[dose.Of] > dose.UL.Amount {
				row.FailValue("supplements", part, fmt.Errorf("with the others it gives %g %s of %s a day, over the upper level of %g (%s)", total[dose.Of], dose.Unit, dose.Of, dose.UL.Amount, dose.UL.Source), "leave one out")
			}
		}
		chosen = append(chosen, name)
	}
	return chosen
}

// supplementCalled returns the generic name that a person means: in any case,
// with µg for ug, or the words before the comma of a name.
func supplementCalled(text string, names []string) string {
	word := strings.NewReplacer("µg", "ug", "mcg", "ug", "microgram", "ug").Replace(canonicalWords(text))
	for _, name := range names {
		short, _, _ := strings.Cut(name, ",")
		if word == canonicalWords(name) || word == canonicalWords(short) {
			return name
		}
	}
	return ""
}

func canonicalWords(text string) string {
	return strings.ReplaceAll(strings.ToLower(strings.Join(strings.Fields(text), " ")), "μ", "µ")
}

// supplements puts what the household opted into beside the needs: the needs
// themselves stay those of food.
func (b *builder) supplements() {
	for _, name := range b.p.Supplements {
		s, why := b.d.supplement(name, b.p)
		if why != "" {
			b.needs.Notes = append(b.needs.Notes, Note{fmt.Sprintf("Supplement %q is not counted: %s.", name, why), "supplements", "see data/supplements.csv"})
			continue
		}
		b.needs.Supplements = append(b.needs.Supplements, s)
		b.needs.Notes = append(b.needs.Notes, Note{fmt.Sprintf("%s, %s. Must not take it: %s.", s.Name, s.Taken, s.MustNot), s.Source, s.Verified})
	}
}
