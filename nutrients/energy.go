package nutrients

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"rationwright/nutrients/table"
)

// Names of the equation sets in data/energy.csv.
const (
	setNASEM2023 = "NASEM2023"
	setIOM2005   = "IOM2005"
)

// energyTerm is one coefficient of an equation.
type energyTerm struct {
	ages
	Set, Equation string
	Sex           string // f, m or any
	Activity      string // of the set's own words, or any
	Term          string
	figure
}

// energyTables hold the coefficients of the equations and the table of the
// Dietary Guidelines.
type energyTables struct {
	terms []energyTerm
	dga   []dgaFigure
}

func (d *energyTables) read() error { return errors.Join(d.readTerms(), d.readGuidelines()) }

func (d *energyTables) readTerms() error {
	const columns = "set equation sex age_min_months age_max_months state activity term coefficient unit source verified note"
	return readData("energy.csv", columns, func(row *table.Row) {
		d.terms = append(d.terms, energyTerm{
			agesOf(row), row.Text("set"), row.Text("equation"), row.Text("sex"), row.Text("activity"), row.Text("term"),
			figureOf(row, "coefficient", row.Text("unit")),
		})
	})
}

// bodyState is what the energy equations take.
type bodyState struct {
	AgeMonths int
	AgeYears  float64 // the same, or the middle of the year where only years are known
	Sex       Sex
	HeightCm  float64
	WeightKg  float64
	Activity  Activity
	State     State
	BeforeKg  float64 // weight before pregnancy, for the BMI class
	GivenBody bool    // height or weight given rather than reference
	NowKg     float64 // present weight in pregnancy: given, or reference plus the assumed gain
}

// equation names the equation for the age of b, outside pregnancy.
func (b *bodyState) equation() string {
	switch {
	case b.AgeMonths < toddlerBelow:
		return "infant_toddler"
	case b.AgeMonths < adultFrom:
		return "child"
	}
	return "adult"
}

// coefficients returns the terms of an equation that hold for b, by name, and
// where they come from.
func (d *energyTables) coefficients(set, equation, activity string, b *bodyState) (terms map[string]float64, origin Limit) {
	terms = map[string]float64{}
	var remembered []string
	for _, t := range d.terms {
		if t.Set != set || t.Equation != equation || !t.has(b.AgeMonths) ||
			(t.Sex != "any" && t.Sex != string(b.Sex)) || (t.Activity != "any" && t.Activity != activity) {
			continue
		}
		terms[t.Term] = t.Value
		if origin.Source == "" {
			origin.Source, origin.Verified = t.Source, t.Verified
		}
		if fromMemory(t.Verified) {
			remembered = append(remembered, t.Term)
		}
	}
	if len(remembered) > 0 {
		origin.Verified = "from memory: " + strings.Join(remembered, ", ")
	}
	return terms, origin
}

// eer returns the estimated energy requirement of b in kcal/day by one set.
// Infants have no row in the Guidelines table; they take the 2005 equations,
// from which that table is made.
func (d *energyTables) eer(set EnergySet, b *bodyState) (Limit, []Note, error) {
	var l Limit
	var notes []Note
	switch {
	case set == Energy2023:
		l, notes = d.nasem2023(b)
	case set == Energy2005:
		l, notes = d.iom2005(b)
	case b.AgeMonths < infantBelow:
		l, notes = d.iom2005(b)
		notes = append(notes, Note{"The Guidelines table begins at 12 months; energy is by the 2005 equation, on which that table rests.", l.Source, l.Verified})
	default:
		l, notes = d.guidelines(b)
	}
	if !(l.Amount > 0) || math.IsInf(l.Amount, 0) {
		return l, nil, fmt.Errorf("%w: no energy equation of %s gives a need at %s", ErrStage, set, ageText(b.AgeMonths))
	}
	return l, notes, nil
}
