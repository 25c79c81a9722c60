package nutrients

import "rationwright/nutrients/table"

// shareFigure is one row of the AMDR table: a range in per cent of energy,
// NaN where an end is not set.
type shareFigure struct {
	ages
	Nutrient string
	Min, Max figure
}

// shareTable is the AMDR table.
type shareTable struct{ shares []shareFigure }

func (d *shareTable) read() error {
	const columns = "nutrient age_min_months age_max_months state min_pct_energy max_pct_energy source verified note"
	return readData("amdr.csv", columns, func(row *table.Row) {
		d.shares = append(d.shares, shareFigure{
			agesOf(row), row.Text("nutrient"),
			figureOf(row, "min_pct_energy", "%"), figureOf(row, "max_pct_energy", "%"),
		})
	})
}

// share returns the range of n in per cent of energy at an age. Where several
// publications set one, the narrowest holds: the Dietary Guidelines' 10 % of
// added sugars, not the 25 % of the DRI report.
func (d *shareTable) share(n Nutrient, months int) (low, high *Limit) {
	for _, f := range d.shares {
		if f.Nutrient != n.Name() || !f.has(months) {
			continue
		}
		kind := "AMDR"
		if n == SaturatedFat || n == AddedSugars {
			kind = "guideline"
		}
		if l := f.Min.limit(kind); f.Min.set() && (low == nil || l.Amount > low.Amount) {
			low = &l
		}
		if l := f.Max.limit(kind); f.Max.set() && (high == nil || l.Amount < high.Amount) {
			high = &l
		}
	}
	return low, high
}
