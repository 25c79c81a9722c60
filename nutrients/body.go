package nutrients

import (
	"fmt"

	"rationwright/nutrients/table"
)

// body is a reference body of the DRI reports.
type body struct {
	ages
	Sex                string
	HeightCm, WeightKg float64
	Source, Verified   string
}

// referenceSet is the set of reference bodies in use: the one of the energy
// and protein reports (IOM 2002/2005).
const referenceSet = "IOM2002_2005"

// firstReferenceAge is the age in months at which the reference bodies begin;
// younger infants take the first one, which touches shown figures only.
const firstReferenceAge = 2

func readBodies(d *published) error {
	columns := []string{"set", "life_stage", "age_min_months", "age_max_months", "sex", "height_cm", "weight_kg", "source", "verified"}
	return readData("reference_bodies.csv", columns, func(row *table.Row) {
		if row.Text("set") != referenceSet {
			return
		}
		b := body{ages: agesOf(row), Sex: row.Text("sex"), Source: row.Text("source"), Verified: row.Text("verified")}
		b.HeightCm, _ = row.Float("height_cm", minHeightCm, maxHeightCm)
		b.WeightKg, _ = row.Float("weight_kg", minWeightKg, maxWeightKg)
		d.bodies = append(d.bodies, b)
	})
}

// referenceBody returns the reference body for p's age and sex.
func (d *published) referenceBody(p *Person) (body, error) {
	months := max(p.AgeMonths, firstReferenceAge)
	for _, b := range d.bodies {
		if b.has(months) && (b.Sex == "any" || b.Sex == string(p.Sex)) {
			return b, nil
		}
	}
	return body{}, fmt.Errorf("%w: no reference body at %s", ErrStage, ageText(p.AgeMonths))
}

// bmi returns weight over height squared, kg/m².
func bmi(heightCm, weightKg float64) float64 { return weightKg / (heightCm * heightCm / 1e4) }
