package nutrients

import "rationwright/nutrients/table"

// medicine is one row of medicines.csv: what a medicine that meets food asks
// of the food. It is never a dose.
type medicine struct {
	word   Condition
	steady []Nutrient
	text   string
	origin figure
}

// medicineTable is medicines.csv.
type medicineTable struct{ medicines []medicine }

func (d *medicineTable) read() error {
	return readData("medicines.csv", "word steady text source verified note", func(row *table.Row) {
		m := medicine{word: Condition(row.Text("word")), text: row.Text("text"), origin: figure{Source: row.Text("source"), Verified: row.Text("verified")}}
		for _, name := range row.List("steady") {
			n, ok := ByName(name)
			if !ok {
				row.Fail("steady", table.ErrUnknownWord, "write the name of a nutrient")
			}
			m.steady = append(m.steady, n)
		}
		d.medicines = append(d.medicines, m)
	})
}
