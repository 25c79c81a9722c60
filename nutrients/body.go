package nutrients

import (
	"fmt"
	"math"

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

// bodyTable is the table of reference bodies.
type bodyTable struct{ bodies []body }

func (d *bodyTable) read() error {
	const columns = "set life_stage age_min_months age_max_months sex height_cm weight_kg source verified"
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

// middle returns the age in months of which b is the body: the middle of the
// ages that the report prints for it, whole years from one year on (4–8 years
// is the body at 6), and 19 years for adults.
func (b *body) middle() float64 {
	switch {
	case b.Min >= adultFrom:
		return adultFrom
	case b.Min >= infantBelow:
		return float64(b.Min+b.Max-12) / 2
	default:
		return float64(b.Min+b.Max-1) / 2
	}
}

// referenceBody returns the reference body at an age in months. Between the
// middles of two reference bodies it reads off the straight line: the one body
// of ages 4 to 8, for example, would give a child of eight some 13 % too little
// energy. Before the first body and after the last it is the body itself.
func (d *bodyTable) referenceBody(sex Sex, months float64) (body, error) {
	var below, above *body
	for i := range d.bodies {
		b := &d.bodies[i]
		switch {
		case b.Sex != "any" && b.Sex != string(sex):
		case b.middle() <= months && (below == nil || b.middle() > below.middle()):
			below = b
		case b.middle() > months && (above == nil || b.middle() < above.middle()):
			above = b
		}
	}
	switch {
	case below == nil && above == nil:
		return body{}, fmt.Errorf("%w: no reference body of sex %q", ErrStage, sex)
	case above == nil:
		return *below, nil
	case below == nil:
		return *above, nil
	}
	part := (months - below.middle()) / (above.middle() - below.middle())
	between := *below
	between.HeightCm = tenths(below.HeightCm + part*(above.HeightCm-below.HeightCm))
	between.WeightKg = tenths(below.WeightKg + part*(above.WeightKg-below.WeightKg))
	return between, nil
}

// tenths rounds to the tenth that is printed, so that the body printed is the
// body used.
func tenths(v float64) float64 { return math.Round(v*10) / 10 }

// bmi returns weight over height squared, kg/m².
func bmi(heightCm, weightKg float64) float64 { return weightKg / (heightCm * heightCm / 1e4) }

// Bounds on any body. Common practice, no source: they only catch metres for
// centimetres, pounds for kilograms and missing digits.
const (
	minHeightCm = 35.0
	maxHeightCm = 250.0
	minWeightKg = 1.0
	maxWeightKg = 300.0
)
