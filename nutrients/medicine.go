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

func readMedicines(d *published) error {
	return readData("medicines.csv", []string{"word", "steady", "text", "source", "verified", "note"}, func(row *table.Row) {
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

// medicines says what the person's medicines ask of the food, and which
// nutrients are to be kept alike from day to day.
func (b *builder) medicines() {
	for _, m := range b.d.medicines {
		if b.p.Has(m.word) {
			b.note(m.text, m.origin)
			b.needs.Steady = append(b.needs.Steady, m.steady...)
		}
	}
}
