package nutrients

import (
	"fmt"

	"rationwright/nutrients/table"
)

// stage is a life stage of the DRI tables.
type stage struct {
	ages
	Name  string
	Sex   string // f, m or any
	State string // none, pregnant or lactating
}

// driKey names one value of a life stage in the DRI tables.
type driKey struct {
	Nutrient string
	Kind     string // EAR RDA AI UL CDRR
}

// driTable holds the values of the DRI tables by name of the life stage.
type driTable struct {
	stages []stage
	dri    map[string]map[driKey]figure
}

func (d *driTable) read() error {
	d.dri = map[string]map[driKey]figure{}
	const columns = "life_stage age_min_months age_max_months sex state nutrient unit kind value source verified note"
	return readData("dri.csv", columns, func(row *table.Row) {
		s := stage{agesOf(row), row.Text("life_stage"), row.Text("sex"), row.Text("state")}
		if _, ok := d.dri[s.Name]; !ok {
			d.stages = append(d.stages, s)
			d.dri[s.Name] = map[driKey]figure{}
		}
		d.dri[s.Name][driKey{row.Text("nutrient"), row.Text("kind")}] = figureOf(row, "value", row.Text("unit"))
	})
}

// stageOf returns the life stage of the DRI tables for p.
func (d *driTable) stageOf(p *Person) (stage, error) {
	state := "none"
	switch {
	case p.Pregnant():
		state = "pregnant"
	case p.Lactating():
		state = "lactating"
	}
	for _, s := range d.stages {
		if s.has(p.AgeMonths) && (s.Sex == "any" || s.Sex == string(p.Sex)) && s.State == state {
			return s, nil
		}
	}
	return stage{}, fmt.Errorf("%w: %s, sex %q, state %q", ErrStage, ageText(p.AgeMonths), p.Sex, p.State)
}

// find returns the value of a kind for a nutrient of the tables; ok is false
// where the publication sets none.
func (d *driTable) find(s stage, nutrient, kind string) (figure, bool) {
	f, ok := d.dri[s.Name][driKey{nutrient, kind}]
	return f, ok && f.set()
}

// goal returns the one RDA or AI of a nutrient.
func (d *driTable) goal(s stage, nutrient string) (f figure, kind string, ok bool) {
	for _, kind := range []string{"RDA", "AI"} {
		if f, ok := d.find(s, nutrient, kind); ok {
			return f, kind, true
		}
	}
	return figure{}, "", false
}

// driUnits says how a unit of the DRI tables stands to the unit of the food
// table's column of the same nutrient: amount × factor = column unit.
//
// Niacin: the requirement counts niacin equivalents, preformed niacin and that
// made from tryptophan; the column counts preformed niacin alone. Holding the
// column against the whole requirement is the safe side.
var driUnits = map[string]map[string]float64{
	"g/d":                   {"g": 1},
	"mg/d":                  {"mg": 1},
	"ug/d":                  {"µg": 1, "mg": 1.0 / ugPerMg}, // copper is tabled in mg
	"ug RAE/d":              {"µg RAE": 1},
	"ug DFE/d":              {"µg DFE": 1},
	"mg NE/d":               {"mg": 1},
	"mg alpha-tocopherol/d": {"mg": 1},
}

// inColumn returns f in the unit of n's column.
func (f figure) inColumn(n Nutrient) (figure, error) {
	factor, ok := driUnits[f.Unit][n.Unit()]
	if !ok {
		return f, fmt.Errorf("%w: %q for %s, which is in %s", ErrUnit, f.Unit, n, n.Unit())
	}
	f.Value *= factor
	f.Unit = n.Unit()
	return f, nil
}

// driColumns are the nutrients of the DRI tables that the food table carries
// as a plain amount. Energy, protein and water have rules of their own.
var driColumns = []Nutrient{
	Fat, Carbohydrate, Fibre, Calcium, Iron, Magnesium, Phosphorus, Potassium, Sodium, Zinc, Copper, Manganese, Selenium,
	VitaminC, Thiamin, Riboflavin, Niacin, PantothenicAcid, VitaminB6, Folate, Choline, VitaminB12,
	VitaminA, VitaminE, VitaminD, VitaminK,
}

// totalUL are the nutrients whose UL counts all of the nutrient in food. The
// others count supplements and fortificants alone (vitamin E, niacin, folate),
// supplements and medicines (magnesium), or preformed retinol (vitamin A) and
// must not be held against total intake; sources in data/dri.csv.
var totalUL = map[Nutrient]bool{
	Calcium: true, Iron: true, Phosphorus: true, Zinc: true, Copper: true, Manganese: true, Selenium: true,
	VitaminC: true, VitaminB6: true, Choline: true, VitaminD: true,
}

// notChecked are nutrients with a published requirement and no column in the
// food table, in order of name. Biotin to molybdenum have no row in
// data/dri.csv either.
var notChecked = []string{
	"alpha_linolenic_acid", "biotin", "chloride", "chromium", "fluoride", "iodine", "linoleic_acid", "molybdenum",
}

// upperLevel returns the UL of n where it counts all of the nutrient in food,
// the CDRR of sodium, or nil.
func (d *driTable) upperLevel(s stage, n Nutrient) *Limit {
	kind := "UL"
	if n == Sodium {
		kind = "CDRR"
	} else if !totalUL[n] {
		return nil
	}
	f, ok := d.find(s, n.Name(), kind)
	if !ok {
		return nil
	}
	f, err := f.inColumn(n)
	if err != nil {
		return nil // the tests convert every unit of the tables
	}
	return new(f.limit(kind))
}
