package nutrients

import (
	"math"

	"rationwright/nutrients/table"
)

// guidelines returns the energy need by the table of the Dietary Guidelines for
// Americans 2020-2025, appendix 2, in kcal/day, which rests on the 2005
// equations for a reference body: height and weight do not enter. Its three
// activity classes are sedentary, moderately active and active; the last is
// open upwards and also serves very active people.
func (d *energyTables) guidelines(b *bodyState) (Limit, []Note) {
	activity := map[Activity]string{Inactive: "sedentary", LowActive: "moderately_active", Active: "active", VeryActive: "active"}[b.Activity]
	f := d.dgaRow(b, "none", activity)
	l := f.limit("DGA")
	increment := map[State]string{
		Pregnant2: "increment_second_trimester", Pregnant3: "increment_third_trimester",
		Lactating1: "increment_first_6_months", Lactating2: "increment_second_6_months",
	}[b.State]
	var notes []Note
	if increment != "" {
		state := "pregnant"
		if b.State == Lactating1 || b.State == Lactating2 {
			state = "lactating"
		}
		added := d.dgaRow(b, state, increment)
		l, notes = l.plus(added.Value, added.limit(""))
	}
	if b.Activity == VeryActive && b.AgeMonths >= toddlerBelow {
		notes = append(notes, Note{"The Guidelines table has no class above active, so a very active person may need more: choose the 2023 equations.", l.Source, l.Verified})
	}
	if b.GivenBody {
		notes = append(notes, Note{"The Guidelines table is for a reference body; height and weight change nothing.", l.Source, l.Verified})
	}
	return l, notes
}

// dgaRow returns one row of the table; its value is NaN when there is none.
func (d *energyTables) dgaRow(b *bodyState, state, activity string) figure {
	for _, f := range d.dga {
		if f.has(b.AgeMonths) && f.Sex == string(b.Sex) && f.State == state && (f.Activity == activity || f.Activity == "any") {
			return f.figure
		}
	}
	return figure{Value: math.NaN()}
}

// dgaFigure is one calorie need of the Dietary Guidelines table.
type dgaFigure struct {
	ages
	Sex, State, Activity string
	figure
}

func (d *energyTables) readGuidelines() error {
	const columns = "age_min_months age_max_months sex state activity kcal source verified note"
	return readData("dga_energy.csv", columns, func(row *table.Row) {
		d.dga = append(d.dga, dgaFigure{agesOf(row), row.Text("sex"), row.Text("state"), row.Text("activity"), figureOf(row, "kcal", "kcal")})
	})
}
